"""Coverage-guided fuzzing of ``parsers.plate``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("plate")
