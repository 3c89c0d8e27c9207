"""A plate as text: versioned JSON, every fault of a bad one named at once."""

from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass

from toneladder import records
from toneladder.bite.values import BiteCurve
from toneladder.errors import PlateFileError
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.wording import say

FORMAT = 2
"""Format 1 had no strips, notes, lines, second grain; what it does not say keeps its default."""

LONGEST_TEXT = 4_000_000


@dataclass(frozen=True, slots=True)
class Record:
    """What ``plate.json`` holds: the plate and its own copy of the curve it was planned with."""

    format: int
    plate: Plate
    curve: BiteCurve


def write_record(plate: Plate, curve: BiteCurve) -> str:
    """The text of ``plate.json``."""
    return records.text_of(asdict(Record(FORMAT, plate, curve)))


def read_record(text: str) -> Record:
    """Plate and curve from the text of ``plate.json``.

    Raises
    ------
    PlateFileError
        Later version, unknown or missing keys, wrong types, values out of bounds; the sentence
        lists every fault.
    """
    records.refuse_later(text[:LONGEST_TEXT], say("This plate"), FORMAT, PlateFileError)
    record, wrong = records.read_record(text, Record, longest=LONGEST_TEXT)
    found = list(wrong)
    if record is not None:
        found += [*faults(record.plate), *curve_faults(record.curve)]
    if found or record is None:
        raise _damaged(found)
    return record


def curve_faults(curve: BiteCurve) -> Iterator[str]:
    """Everything in a curve that no strip and no starting point gives."""
    count = len(curve.bites_s)
    if count < 2 or {len(curve.lightness), len(curve.low), len(curve.high)} != {count}:
        yield say("the curve's columns differ in length")
        return
    if any(b <= a for a, b in zip(curve.bites_s, curve.bites_s[1:], strict=False)):
        yield say("the curve's bites do not rise")
    if any(b > a for a, b in zip(curve.lightness, curve.lightness[1:], strict=False)):
        yield say("the curve gets lighter with a longer bite")
    if not all(0 <= v <= 100 for v in (*curve.lightness, *curve.low, *curve.high)):
        yield say("the curve's lightness lies outside 0 to 100")
    if not 0 < curve.deepest_useful_s <= curve.longest_tested_s:
        yield say("the curve's longest useful bite lies past its longest tested one")


def _damaged(found: Sequence[str]) -> PlateFileError:
    return PlateFileError(
        say(
            "This plate's file is damaged: {faults}. It was left as it is; "
            "open an older copy of it.",
            faults=records.listed(found),
        )
    )
