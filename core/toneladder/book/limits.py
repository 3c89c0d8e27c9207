"""What may be kept in the book: the bounds of everything in it, said in sentences."""

import json
from collections.abc import Iterable, Iterator
from datetime import date

from toneladder.bite.starting_points import require_safe_pair
from toneladder.book.values import (
    Bath,
    Lease,
    Logged,
    PlateEntry,
    ProofReading,
    Pull,
    TankSession,
    Use,
)
from toneladder.errors import BookError, RefusedPairError
from toneladder.records import bounds, listed
from toneladder.tones.values import FEWEST_TONES, MOST_TONES
from toneladder.wording import say

LONGEST_LINE = 400
LONGEST_PATH = 8_000
LONGEST_NOTE = 20_000
LONGEST_JSON = 4_000_000
LARGEST_THUMBNAIL = 1_000_000
MOST_PULLS = 100_000

_PNG = b"\x89PNG\r\n\x1a\n"
_FAR_FUTURE_S = 1e11
_MOST_G = 1e6
_MOST_LITRES = 1e5
_Q = (1.0, 5.0)


def require(faults: Iterable[str]) -> None:
    """Refuse what has faults, all of them in one sentence.

    Raises
    ------
    BookError
    """
    found = tuple(faults)
    if found:
        raise BookError(
            say(
                "This cannot be kept in the studio book: {faults}. Nothing was changed; mend it"
                " and try again.",
                faults=listed(found),
            )
        )


def bath_faults(bath: Bath) -> Iterator[str]:
    """Everything in ``bath`` that is out of bounds."""
    if not bath.name.strip():
        yield say("The bath has no name.")
    yield from _lines(bath.name, bath.strength)
    yield from _text(bath.note, LONGEST_NOTE)
    yield from _day(say("The day it was made"), bath.made_on)
    yield from _day(say("The day it was retired"), bath.retired_on)
    if bath.litres is not None:
        yield from bounds(say("What it holds"), bath.litres, 0.01, _MOST_LITRES, unit=" l")
    if bath.salt_g is not None:
        yield from bounds(say("The salt in it"), bath.salt_g, 0.1, _MOST_G, unit=" g")
    yield from bounds(say("The rate gained over 10 °C"), bath.q, *_Q)
    try:
        require_safe_pair(bath.metal, bath.mordant)
    except RefusedPairError as refused:
        yield str(refused)


def use_faults(use: Use) -> Iterator[str]:
    """Everything in ``use`` that is out of bounds."""
    yield from _identity(use.identity)
    yield from _day(say("The day of biting"), use.bitten_on)
    if use.metal_g is not None:
        yield from bounds(say("The metal bitten"), use.metal_g, 0.0, _MOST_G, unit=" g")


def plate_faults(plate: PlateEntry, thumbnail: bytes) -> Iterator[str]:
    """Everything in ``plate`` and its picture (PNG, or none) that is out of bounds."""
    yield from _identity(plate.identity)
    yield from _text(plate.path, LONGEST_PATH)
    yield from _text(plate.title, LONGEST_PATH)
    yield from _lines(plate.bath, plate.paper, plate.ink)
    yield from _text(plate.record, LONGEST_NOTE)
    yield from _moment(plate.saved_utc_s)
    yield from bounds(say("The number of tones"), plate.tones, FEWEST_TONES, MOST_TONES)
    if thumbnail and not (thumbnail.startswith(_PNG) and len(thumbnail) <= LARGEST_THUMBNAIL):
        yield say("Its small picture is too large, or no PNG.")


def proof_faults(proof: ProofReading) -> Iterator[str]:
    """Everything in ``proof`` that is out of bounds."""
    yield from _day(say("The day of the pull"), proof.pulled_on)
    yield from bounds(say("The number of the pull"), proof.pull, 1, MOST_PULLS)
    yield from bounds(say("What it missed"), proof.miss, 0.0, 100.0)
    yield from _json(proof.reading)
    yield from _text(proof.scan, LONGEST_PATH)
    yield from _text(proof.note, LONGEST_NOTE)


def pull_faults(pull: Pull) -> Iterator[str]:
    """Everything in ``pull`` that is out of bounds."""
    yield from _day(say("The day of the pull"), pull.pulled_on)
    for name, count in ((say("The number"), pull.number), (say("The edition"), pull.edition)):
        if count is not None:
            yield from bounds(name, count, 1, MOST_PULLS)
    if pull.number is not None and pull.edition is not None and pull.number > pull.edition:
        yield say(
            "Number {n} is more than the edition of {edition}.", n=pull.number, edition=pull.edition
        )
    yield from _lines(pull.paper, pull.ink)
    yield from _text(pull.note, LONGEST_NOTE)


def session_faults(session: TankSession) -> Iterator[str]:
    """Everything in ``session`` that is out of bounds."""
    yield from _identity(session.identity)
    yield from _identity(session.plate)
    yield from _moment(session.begun_utc_s)
    yield from _json(session.order)


def event_faults(event: Logged) -> Iterator[str]:
    """Everything in ``event`` that is out of bounds."""
    yield from bounds(say("The event's number"), event.number, 0, 10_000_000)
    yield from _identity(event.kind)
    yield from _moment(event.boottime_s)
    yield from _moment(event.utc_s)
    yield from _lines(event.boot)
    yield from _json(event.detail)


def lease_faults(lease: Lease) -> Iterator[str]:
    """Everything in ``lease`` that is out of bounds."""
    yield from _identity(lease.plate)
    yield from _identity(lease.owner)
    yield from _lines(lease.boot)
    yield from _moment(lease.boottime_s)
    yield from _moment(lease.utc_s)


def _identity(text: str) -> Iterator[str]:
    if not text:
        yield say("It has no name of its own.")
    yield from _text(text, LONGEST_PATH)


def _lines(*texts: str) -> Iterator[str]:
    for text in texts:
        yield from _text(text, LONGEST_LINE)


def _text(text: str, most: int) -> Iterator[str]:
    if len(text) > most:
        yield say("A text of {n} letters is longer than {most}.", n=len(text), most=most)
    elif not _is_plain(text):
        yield say("A text holds signs that cannot be written.")


def _is_plain(text: str) -> bool:
    """Whether the text has neither halves of letters nor an end in its midst."""
    return "\0" not in text and not any("\ud800" <= sign <= "\udfff" for sign in text)


def _moment(seconds: float) -> Iterator[str]:
    yield from bounds(say("A moment"), seconds, -_FAR_FUTURE_S, _FAR_FUTURE_S, unit=" s")


def _day(name: str, written: str) -> Iterator[str]:
    try:
        plain = not written or date.fromisoformat(written).isoformat() == written
    except ValueError:
        plain = False
    if not plain:
        yield say("{name} is no date; write it like 2026-03-15.", name=name)


def _json(text: str) -> Iterator[str]:
    yield from _text(text, LONGEST_JSON)
    try:
        json.loads(text)
    except (ValueError, RecursionError):
        yield say("A record in it is no JSON.")
