"""Coverage-guided fuzzing of ``parsers.table``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("table")
