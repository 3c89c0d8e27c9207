"""A plate's title, until the etcher gives it another: its picture's name, in words."""

from pathlib import Path

from toneladder.wording import begins


def title_of(name: str) -> str:
    """A title from a file's name.

    >>> title_of("old_harbour-wall.jpg")
    'Old harbour wall'
    """
    return begins(" ".join(Path(name).stem.replace("_", " ").replace("-", " ").split()))
