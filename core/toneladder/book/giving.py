"""A bath to give to a colleague: one readable file with its strips, and how it is taken in."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from pathlib import Path
from typing import Any

from toneladder import records
from toneladder.book.baths import add_bath, kept_bath, named_bath, require_belongs
from toneladder.book.limits import bath_faults
from toneladder.book.opening import Book
from toneladder.book.strips import (
    add_strip,
    found_strips,
    read_kept,
    rewrite_strip,
    same_strip,
    united,
)
from toneladder.book.values import Bath, GivenBath, TakenIn
from toneladder.errors import BookError, RefusedPairError, StripError
from toneladder.quantities import write_day
from toneladder.refusals import reason_of
from toneladder.strip.file import strip_from, strip_text
from toneladder.wording import say, say_number
from toneladder.writing import write_whole

SUFFIX = ".bath"
FORMAT = 1

LONGEST_TEXT = 12_000_000
MOST_STRIPS = 2_000


@dataclass(frozen=True, slots=True)
class _Record:
    """What a bath's file holds: each strip is what the strip's own file would hold."""

    format: int
    bath: Bath
    strips: tuple[dict[str, Any], ...] = ()


def give_bath(book: Book, bath_id: int) -> GivenBath:
    """A bath of the book with its strips.

    Raises
    ------
    StripError
        If one of them cannot be read.
    BookError
        If there is no such bath.
    """
    with book.reading() as connection:
        found = found_strips(connection, bath_id)
        if found.unreadable:
            raise StripError(found.unreadable[0])
        bath = kept_bath(connection, bath_id).bath
        return GivenBath(bath, tuple(kept.strip for kept in found.strips))


def take_in(book: Book, given: GivenBath, *, name: str = "") -> TakenIn:
    """Take a bath into the book; if it is there already, those of its strips that are new.

    Parameters
    ----------
    book : Book
    given : GivenBath
    name : str
        Another name for the bath; its own if empty. A bath of that name is the same bath, if it
        was made on the same day.

    Raises
    ------
    RefusedPairError
        If the bath of that name is for another metal or mordant.
    BookError
        If it was made on another day. Nothing was changed.
    """
    bath = replace(given.bath, name=name or given.bath.name)
    added = known = proofs = 0
    with book.writing() as connection:
        there = named_bath(connection, bath.name)
        if there is not None:
            _require_same(there.bath, bath)
        number = there.id if there else add_bath(connection, bath)
        bath = there.bath if there else bath
        for strip in given.strips:
            require_belongs(bath, strip.conditions)
            same = same_strip(connection, number, strip)
            if same is None:
                add_strip(connection, number, bath, strip)
                added += 1
                continue
            known += 1
            try:
                kept = read_kept(connection, same)
            except StripError:
                continue  # of a later version, or damaged: it stays as it is
            both = united(kept.proofs, strip.proofs)
            if both != kept.proofs:
                proofs += len(both) - len(kept.proofs)
                rewrite_strip(connection, same, bath, replace(kept, proofs=both))
    return TakenIn(number, bath.name, there is None, added, known, proofs)


def what_was_done(taken: TakenIn) -> str:
    """What became of a bath that was taken in, as one or two sentences."""
    if taken.new:
        came = say("The bath “{name}” was new to the studio book.", name=taken.name)
    else:
        came = say(
            "The bath “{name}” was in the studio book already and is unchanged.", name=taken.name
        )
    new = say_number("{n} new strip", "{n} new strips", taken.strips_new)
    known = say_number(
        "{n} strip that was there already", "{n} strips that were there already", taken.strips_known
    )
    proofs = say_number("{n} new proof", "{n} new proofs", taken.proofs_new)
    counts = (taken.strips_new, taken.strips_known, taken.proofs_new)
    brought = [words for words, n in zip((new, known, proofs), counts, strict=True) if n]
    with_it = say("With it came {things}.", things=", ".join(brought) or say("no strips"))
    return f"{came} {with_it}"


def bath_text(given: GivenBath) -> str:
    """The text of a bath's file."""
    strips = [json.loads(strip_text(strip)) for strip in given.strips]
    return records.text_of({"format": FORMAT, "bath": asdict(given.bath), "strips": strips}) + "\n"


def bath_from(text: str, name: str) -> GivenBath:
    """The bath in the text of its file; ``name`` is how errors speak of it.

    Raises
    ------
    BookError
        Later version, unknown or missing keys, wrong types, values out of bounds; the sentence
        lists every fault.
    """
    records.refuse_later(text[:LONGEST_TEXT], name, FORMAT, BookError)
    record, wrong = records.read_record(text, _Record, longest=LONGEST_TEXT)
    strips: list[Any] = []
    found = list(wrong)
    if record is not None:
        found += records.bounds(say("The format"), record.format, 1, FORMAT)
        found += records.bounds(say("The number of strips"), len(record.strips), 0, MOST_STRIPS)
        found += bath_faults(record.bath)
    if record is not None and not found:
        found += _strip_faults(record, strips)
    if found or record is None:
        raise BookError(
            say(
                "{name} is no bath that can be taken in: {faults}. It was left as it is, and"
                " nothing was changed; ask for the file again.",
                name=name,
                faults=records.listed(found),
            )
        )
    return GivenBath(record.bath, tuple(strips))


def write_bath(path: Path, given: GivenBath) -> None:
    """Write a bath's file, whole or not at all.

    Raises
    ------
    BookError
        If nobody could read it again.
    OutputError
        If it cannot be written; an older file of that name is unchanged.
    """
    text = bath_text(given)
    bath_from(text, path.name)
    write_whole(path, lambda file: file.write(text.encode()))


def read_bath(path: Path) -> GivenBath:
    """The bath in a file.

    Raises
    ------
    BookError
        If there is no such file, or no bath in it.
    """
    try:
        with path.open("rb") as file:
            text = file.read(4 * LONGEST_TEXT + 1).decode("utf-8-sig")
    except OSError as fault:
        raise BookError(
            say(
                "{name} cannot be opened ({reason}). Nothing was changed. Check its name and"
                " place.",
                name=path.name,
                reason=reason_of(fault),
            )
        ) from fault
    except UnicodeDecodeError as fault:
        raise BookError(
            say(
                "{name} is no bath: it is not text in UTF-8. It was left as it is; choose a file"
                " that ends in {suffix}.",
                name=path.name,
                suffix=SUFFIX,
            )
        ) from fault
    return bath_from(text, path.name)


def _strip_faults(record: _Record, strips: list[Any]) -> Iterator[str]:
    """What is wrong with the strips of a file; those that are good are added to ``strips``."""
    for number, tree in enumerate(record.strips, start=1):
        try:
            strip = strip_from(records.text_of(tree), say("strip {n}", n=number))
            require_belongs(record.bath, strip.conditions)
        except (StripError, RefusedPairError) as refused:
            yield str(refused)
        else:
            strips.append(strip)


def _require_same(kept: Bath, given: Bath) -> None:
    """Refuse a bath that only bears the same name."""
    if (kept.metal, kept.mordant) != (given.metal, given.mordant):
        raise RefusedPairError(
            say(
                "The studio book has a bath “{name}” for {metal} in {mordant}; the one in the file"
                " is another. Nothing was changed. Take it in under another name.",
                name=kept.name,
                metal=say(kept.metal.value),
                mordant=say(kept.mordant.value),
            )
        )
    if kept.made_on and given.made_on and kept.made_on != given.made_on:
        raise BookError(
            say(
                "The bath “{name}” in the studio book was made on {kept}, the one in the file on"
                " {given}: they are two lots. Nothing was changed. Take it in under another name.",
                name=kept.name,
                kept=write_day(kept.made_on),
                given=write_day(given.made_on),
            )
        )
