"""What this program was built from: a commit, a wheel, or the source folder it runs from."""

import json
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

from toneladder.wording import say

RECORD = Path(__file__).parent / "built_from.json"
"""Written into a bundle when it is built, and nowhere else."""


def built_from(record: Path = RECORD) -> str:
    """The version and where it came from, as one phrase.

    Parameters
    ----------
    record : Path
        JSON with "version", "commit" and "day" (ISO 8601), if there is any.

    >>> built_from(Path("no bundle"))
    'from the source folder'
    """
    if record.is_file():
        known = json.loads(record.read_text(encoding="utf-8"))
        return say("{version}, built from {commit} of {day}", **known)
    return _installed() or say("from the source folder")


def _installed() -> str:
    """The version of the wheel that this module came with, or nothing."""
    try:
        wheel = distribution("toneladder")
    except PackageNotFoundError:
        return ""
    ours = Path(str(wheel.locate_file("toneladder_desktop/output/built_from.py")))
    return wheel.version if ours.resolve() == Path(__file__).resolve() else ""
