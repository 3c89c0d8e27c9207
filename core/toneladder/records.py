"""A file's text as values: versioned JSON read strictly, every fault of a bad one named."""

import json
import math
from collections.abc import Hashable, Iterator, Mapping, Sequence
from dataclasses import fields, is_dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, TypeVar, cast, get_args, get_type_hints

from toneladder.errors import ToneLadderError
from toneladder.quantities import written
from toneladder.wording import say

if TYPE_CHECKING:
    from pydantic import TypeAdapter

T = TypeVar("T")

_MOST_FAULTS = 20
_LONGEST_NAME = 80
_FAR = 1e300


def text_of(tree: Mapping[str, object]) -> str:
    """The JSON text of a value, taken apart as by ``dataclasses.asdict``."""
    return json.dumps(tree, ensure_ascii=False, indent=1)


def refuse_later(text: str, name: str, ours: int, fault: type[ToneLadderError]) -> None:
    """Raise ``fault`` if a JSON text has a format later than ``ours``.

    ``name`` is how the sentence speaks of the file.
    """
    theirs = format_of(text)
    if theirs is not None and theirs > ours:
        raise fault(
            say(
                "{name} was saved by a later version of Tone Ladder (format {theirs}, this one"
                " reads up to {ours}). It was left as it is; open it with the newer version.",
                name=name,
                theirs=theirs,
                ours=ours,
            )
        )


def format_of(text: str) -> int | None:
    """The number under "format" in a JSON text, or None where there is none to be read."""
    try:
        tree = json.loads(text)
    except (ValueError, RecursionError):
        return None
    version = tree.get("format") if isinstance(tree, dict) else None
    return version if isinstance(version, int) else None


def read_record(text: str, kind: type[T], *, longest: int) -> tuple[T | None, tuple[str, ...]]:
    """A value of ``kind`` and what is wrong with its text.

    Parameters
    ----------
    text : str
        JSON. Keys may be missing where ``kind`` has a default; unknown keys, wrong types and
        numbers that are none are faults.
    kind : type
        A dataclass.
    longest : int
        Letters that such a text has at most.

    Returns
    -------
    The value, or None if it cannot be made; and the faults, each a clause without a full stop.
    """
    if len(text) > longest:
        return None, (say("its text is far too long"),)
    try:
        tree = json.loads(text, parse_constant=_not_a_number, parse_float=_finite)
    except (ValueError, RecursionError) as fault:
        return None, (say("its text is no JSON ({reason})", reason=fault),)
    record, wrong = _checked(text, kind)
    return record, (*_unknown(tree, kind, ""), *wrong)


def listed(faults: Sequence[str]) -> str:
    """Faults in one sentence, the first twenty of them."""
    shown = "; ".join(fault.rstrip(".") for fault in faults[:_MOST_FAULTS])
    if len(faults) > _MOST_FAULTS:
        shown += say("; and {n} more", n=len(faults) - _MOST_FAULTS)
    return shown


def bounds(name: str, value: float, least: float, most: float, unit: str = "") -> Iterator[str]:
    """A sentence if ``value`` does not lie between ``least`` and ``most``."""
    if not least <= value <= most:
        yield say(
            "{name} is {value}{unit}; it must lie between {least} and {most}.",
            name=name,
            value=written().plain(_shown(value)),
            unit=unit,
            least=written().plain(least),
            most=written().plain(most),
        )


def _shown(value: float) -> float:
    """The value as a float; an integer that is longer than any float is one far away."""
    try:
        return float(value)
    except OverflowError:
        return _FAR if value > 0 else -_FAR


def _not_a_number(word: str) -> float:
    raise ValueError(word)


def _finite(digits: str) -> float:
    number = float(digits)
    if not math.isfinite(number):
        raise ValueError(digits)
    return number


def _unknown(tree: object, kind: object, path: str) -> Iterator[str]:
    """Every key that no such value has, also inside of lists."""
    if isinstance(tree, list):
        inner = [one for one in get_args(kind) if is_dataclass(one)]
        for place, value in enumerate(tree if inner else ()):
            yield from _unknown(value, inner[0], f"{path}{place}.")
        return
    if not isinstance(tree, dict) or not isinstance(kind, type) or not is_dataclass(kind):
        return
    known = {field.name for field in fields(kind)}
    kinds = get_type_hints(kind)
    for key, value in tree.items():
        if key not in known:
            yield say("“{key}” is not known", key=f"{path}{key}"[:_LONGEST_NAME])
        else:
            yield from _unknown(value, kinds[key], f"{path}{key}.")


@cache
def _adapter(kind: Hashable) -> "TypeAdapter[Any]":
    from pydantic import TypeAdapter

    return TypeAdapter(cast("type[object]", kind))


def _checked(text: str, kind: type[T]) -> tuple[T | None, list[str]]:
    from pydantic import ValidationError

    try:
        return _adapter(cast(Hashable, kind)).validate_json(text, strict=True), []
    except ValidationError as fault:
        return None, [
            f"{'.'.join(map(str, error['loc']))[:_LONGEST_NAME]}: {error['msg']}"
            for error in fault.errors()
        ]
