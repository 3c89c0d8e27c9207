"""Coverage-guided fuzzing of ``parsers.begun``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("begun")
