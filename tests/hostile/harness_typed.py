"""Coverage-guided fuzzing of ``parsers.typed``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("typed")
