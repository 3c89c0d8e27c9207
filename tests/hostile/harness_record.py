"""Coverage-guided fuzzing of ``parsers.record``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("record")
