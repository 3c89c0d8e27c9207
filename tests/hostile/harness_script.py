"""Coverage-guided fuzzing of ``parsers.script``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("script")
