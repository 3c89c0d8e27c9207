"""Coverage-guided fuzzing of ``parsers.strip``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("strip")
