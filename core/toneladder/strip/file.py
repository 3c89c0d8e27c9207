"""The strip's file: readable JSON, written whole or not at all."""

from dataclasses import asdict, dataclass, fields
from pathlib import Path

from toneladder import records
from toneladder.errors import StripError
from toneladder.refusals import reason_of
from toneladder.strip.limits import faults
from toneladder.strip.values import Strip
from toneladder.wording import say
from toneladder.writing import write_whole

SUFFIX = ".strip"
FORMAT = 2
"""Format 1 had no proofs; a strip without any is still written in it."""

LONGEST_TEXT = 400_000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Record(Strip):
    """What a strip's file holds: the strip and the number of its format."""

    format: int


def strip_text(strip: Strip) -> str:
    """The text of a strip's file."""
    tree = {"format": FORMAT, **asdict(strip)}
    if not strip.proofs:
        del tree["proofs"]
        tree["format"] = 1
    return records.text_of(tree) + "\n"


def strip_from(text: str, name: str) -> Strip:
    """The strip in the text of its file; ``name`` is how errors speak of it.

    Raises
    ------
    StripError
        Later version, unknown or missing keys, wrong types, values out of bounds; the sentence
        lists every fault.
    """
    records.refuse_later(text[:LONGEST_TEXT], name, FORMAT, StripError)
    record, wrong = records.read_record(text, _Record, longest=LONGEST_TEXT)
    found = list(wrong)
    if record is not None:
        found += faults(record)
        found += records.bounds(say("The format"), record.format, 1, FORMAT)
    if found or record is None:
        raise StripError(
            say(
                "{name} is no strip that can be used: {faults}. It was left as it is; mend it,"
                " or read the strip again.",
                name=name,
                faults=records.listed(found),
            )
        )
    return Strip(**{field.name: getattr(record, field.name) for field in fields(Strip)})


def write_strip(path: Path, strip: Strip) -> None:
    """Write ``strip`` to ``path``, whole or not at all.

    Raises
    ------
    StripError
        If the strip is out of bounds, so that nobody could read it again.
    OutputError
        If it cannot be written; an older file of that name is unchanged.
    """
    strip_from(strip_text(strip), path.name)
    write_whole(path, lambda file: file.write(strip_text(strip).encode()))


def read_strip(path: Path) -> Strip:
    """The strip in a file.

    Raises
    ------
    StripError
        If there is no such file, or no strip in it.
    """
    try:
        with path.open("rb") as file:
            data = file.read(4 * LONGEST_TEXT + 1)
    except OSError as fault:
        raise StripError(
            say(
                "{name} cannot be opened ({reason}). Nothing was changed. Check its name and"
                " place.",
                name=path.name,
                reason=reason_of(fault),
            )
        ) from fault
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise StripError(
            say(
                "{name} is no strip: it is not text in UTF-8. It was left as it is; choose a"
                " file that ends in {suffix}.",
                name=path.name,
                suffix=SUFFIX,
            )
        ) from fault
    return strip_from(text, path.name)
