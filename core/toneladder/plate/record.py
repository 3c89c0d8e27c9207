"""A plate as text: versioned JSON, every fault of a bad one named at once."""

import json
import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass, fields, is_dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, get_type_hints

from toneladder.bite.values import BiteCurve
from toneladder.errors import PlateFileError
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.wording import say

if TYPE_CHECKING:
    from pydantic import TypeAdapter

FORMAT = 1
LONGEST_TEXT = 4_000_000
_MOST_FAULTS = 20


@dataclass(frozen=True, slots=True)
class Record:
    """What ``plate.json`` holds: the plate and its own copy of the curve it was planned with."""

    format: int
    plate: Plate
    curve: BiteCurve


def write_record(plate: Plate, curve: BiteCurve) -> str:
    """The text of ``plate.json``."""
    return json.dumps(asdict(Record(FORMAT, plate, curve)), ensure_ascii=False, indent=1)


def read_record(text: str) -> Record:
    """Plate and curve from the text of ``plate.json``.

    Raises
    ------
    PlateFileError
        Later version, unknown or missing keys, wrong types, values out of bounds; the sentence
        lists every fault.
    """
    if len(text) > LONGEST_TEXT:
        raise _damaged([say("its text is far too long")])
    tree = _tree(text)
    version = tree.get("format") if isinstance(tree, dict) else None
    if isinstance(version, int) and version > FORMAT:
        raise PlateFileError(
            say(
                "This plate was saved by a later version of Tone Ladder (format {theirs}, this "
                "one reads up to {ours}). It was left as it is; open it with the newer version.",
                theirs=version,
                ours=FORMAT,
            )
        )
    found = [*_unknown(tree, Record, "")]
    record, wrong = _checked(text)
    found += wrong
    if record is not None:
        found += [*faults(record.plate), *_curve_faults(record.curve)]
    if found or record is None:
        raise _damaged(found)
    return record


def _tree(text: str) -> Any:  # noqa: ANN401 - any JSON at all
    try:
        return json.loads(text, parse_constant=_not_a_number, parse_float=_finite)
    except (ValueError, RecursionError) as fault:
        raise _damaged([say("its text is no JSON ({reason})", reason=fault)]) from fault


def _not_a_number(word: str) -> float:
    raise ValueError(word)


def _finite(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        raise ValueError(digits)
    return number


def _unknown(tree: object, kind: type, path: str) -> Iterator[str]:
    """Every key that no plate has."""
    if not isinstance(tree, dict) or not is_dataclass(kind):
        return
    known = {field.name for field in fields(kind)}
    kinds = get_type_hints(kind)
    for key, value in tree.items():
        if key not in known:
            yield say("“{key}” is not known", key=f"{path}{key}"[:80])
        elif is_dataclass(kinds[key]):
            yield from _unknown(value, kinds[key], f"{path}{key}.")


@cache
def _adapter() -> "TypeAdapter[Record]":
    from pydantic import TypeAdapter

    return TypeAdapter(Record)


def _checked(text: str) -> tuple[Record | None, list[str]]:
    from pydantic import ValidationError

    try:
        return _adapter().validate_json(text, strict=True), []
    except ValidationError as fault:
        return None, [
            f"{'.'.join(map(str, error['loc']))[:80]}: {error['msg']}" for error in fault.errors()
        ]


def _curve_faults(curve: BiteCurve) -> Iterator[str]:
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
        yield say("the curve's deepest useful bite lies past its longest tested one")


def _damaged(found: list[str]) -> PlateFileError:
    listed = "; ".join(found[:_MOST_FAULTS])
    if len(found) > _MOST_FAULTS:
        listed += say("; and {n} more", n=len(found) - _MOST_FAULTS)
    return PlateFileError(
        say(
            "This plate's file is damaged: {faults}. It was left as it is; "
            "open an older copy of it.",
            faults=listed,
        )
    )
