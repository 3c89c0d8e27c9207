"""Coverage-guided fuzzing of ``parsers.bath``."""

from tests.hostile.fuzzing import fuzz

if __name__ == "__main__":
    fuzz("bath")
