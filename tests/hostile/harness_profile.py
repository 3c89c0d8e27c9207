"""Coverage-guided fuzzing of ``parsers.profile``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("profile")
