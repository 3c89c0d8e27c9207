"""A session at the tank from a table of what happened: what would have been said, and when."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import UTC

from toneladder.errors import TankError, ToneLadderError
from toneladder.order.values import Order
from toneladder.quantities import read_bite, read_temperature
from toneladder.tank.acts import entered, press
from toneladder.tank.script import Row
from toneladder.tank.session import session
from toneladder.tank.sounds import Sound, heard
from toneladder.tank.values import Act, Event, Facts, Kind, Moment, Remedy, Standing, State
from toneladder.wording import say

_LONGEST_S = 4 * 3600.0
_MOST_FIGURES = 6
_TOLD_ONCE = (Sound.CALL, Sound.LOUD_CALL)
_UNTOLD = (Sound.IN_SHORT, Sound.LIFT_SHORT)


@dataclass(frozen=True, slots=True)
class Line:
    """What is said or heard, seconds on the table's clock."""

    at_s: float
    text: str
    heard: bool = False


@dataclass(slots=True)
class _Run:
    """A rehearsal under way."""

    order: Order
    facts: Facts
    day_s: float
    events: list[Event] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    numbers: dict[int, int] = field(default_factory=dict)
    calls: set[tuple[Sound, float]] = field(default_factory=set)

    def moment(self, at_s: float) -> Moment:
        return Moment(at_s, self.day_s + at_s, "rehearsal")

    def standing(self, at_s: float) -> Standing:
        found = session(self.order, self.facts, self.events, self.moment(at_s), zone=UTC)
        if not found.due:
            return found
        self.events.extend(found.due)
        return replace(found, due=())


def rehearse(
    order: Order, facts: Facts, rows: tuple[Row, ...], *, day_s: float = 0.0
) -> tuple[tuple[Line, ...], Standing, tuple[Event, ...]]:
    """Run a session through a table of events.

    Parameters
    ----------
    order, facts
        As for ``session``.
    rows : tuple of Row
        What happened, in the order of time.
    day_s : float
        Seconds after midnight at which the table's clock shows nought.

    Returns
    -------
    What was said and heard; the standing at the end; the events as they were logged.

    Raises
    ------
    TankError
        A row that cannot be read, or that cannot have happened; the sentence names it.
    """
    run = _Run(order, facts, day_s)
    at = rows[0].at_s
    _say(run, at)
    for row in rows:
        _let_pass(run, at, row.at_s)
        at = row.at_s
        _happen(run, row)
        _say(run, at)
    end = at + _LONGEST_S
    last = _let_pass(run, at, end)
    return tuple(run.lines), run.standing(last), tuple(run.events)


def _let_pass(run: _Run, since_s: float, until_s: float) -> float:
    """Time passes from one instant at which something changes to the next."""
    at = since_s
    while at < until_s:
        standing = run.standing(at)
        if standing.changes_in_s is None and until_s - since_s >= _LONGEST_S:
            return at
        step = min(until_s - at, standing.changes_in_s or until_s - at)
        upon = until_s if step >= until_s - at else at + step
        for after, sound in heard(standing, run.moment(at), run.moment(upon)):
            _hear(run, at + after, sound, standing)
        at = upon
        _say(run, at)
    return at


def _say(run: _Run, at: float) -> None:
    standing = run.standing(at)
    said = next((line.text for line in reversed(run.lines) if not line.heard), "")
    remarks = standing.said if standing.state in {State.READY, State.LOST_TONE} else ()
    for text in (*remarks, standing.sentence):
        if text != said and text not in {line.text for line in run.lines if line.at_s == at}:
            run.lines.append(Line(at, text))


def _hear(run: _Run, at: float, sound: Sound, standing: Standing) -> None:
    zero = standing.zero.boottime_s if standing.zero else 0.0
    once = (sound, round(zero, 3))
    if sound in _UNTOLD or (sound in _TOLD_ONCE and once in run.calls):
        return
    run.calls.add(once)
    run.lines.append(Line(at, say(sound.value), heard=True))


def _happen(run: _Run, row: Row) -> None:
    """One row becomes its events; it is refused if it cannot have been."""
    standing = run.standing(row.at_s)
    try:
        made = _WORDS[row.word](run, row, standing)
    except ToneLadderError as fault:
        raise TankError(say("Row {row}: {reason}", row=row.row, reason=fault)) from fault
    run.events.extend(made)
    if made:
        run.numbers[row.row] = made[-1].number
    _require(row, standing, run.standing(row.at_s))


def _require(row: Row, before: Standing, after: Standing) -> None:
    wrong = ""
    if row.word == "in" and before.in_bath:
        wrong = say("the plate is in the bath already.")
    elif row.word == "in" and not after.in_bath:
        wrong = say("no bite is left for the plate to go in.")
    elif row.word == "out" and not before.in_bath:
        wrong = say("the plate is not in the bath.")
    elif row.word in _MUST_TELL and row.word != "note" and _same(before, after):
        wrong = say("“{word}” cannot have happened then.", word=row.word)
    if wrong:
        raise TankError(
            say(
                "Row {row}: {reason} Nothing was worked out. Mend the table and run it again.",
                row=row.row,
                reason=wrong,
            )
        )


def _same(before: Standing, after: Standing) -> bool:
    return (before.sentence, before.order, before.dips, before.effective_s, before.said) == (
        after.sentence,
        after.order,
        after.dips,
        after.effective_s,
        after.said,
    )


def _ago(row: Row) -> float:
    text = row.value.removesuffix("ago").strip()
    return read_bite(text) if text else 0.0


def _is_number(text: str) -> bool:
    """Whether it is the number of a tone or of a row, and no endless one."""
    return text.isdecimal() and len(text) <= _MOST_FIGURES


def _tone(row: Row) -> int:
    if not _is_number(row.value.strip()):
        raise TankError(say("“{text}” is not the number of a tone.", text=row.value[:40]))
    return int(row.value)


def _patch(run: _Run, row: Row, standing: Standing) -> tuple[Event, ...]:
    bite, _, reading = row.value.rpartition(" ")
    try:
        lightness = float(reading.replace(",", "."))
    except ValueError:
        lightness = -1.0
    if not bite or not 0.0 < lightness <= 100.0:
        raise TankError(
            say(
                "“{text}” is not a bite and a lightness, such as 0:30 62.5.",
                text=row.value[:40],
            )
        )
    return entered(
        standing,
        Kind.CHECK_PATCH,
        run.moment(row.at_s),
        seconds=read_bite(bite),
        reading=lightness,
    )


def _undo(run: _Run, row: Row, standing: Standing) -> tuple[Event, ...]:
    named = row.value.strip()
    rows = sorted(run.numbers)
    target = int(named) if _is_number(named) else (rows[-1] if rows and not named else -1)
    if target not in run.numbers:
        raise TankError(say("there is no row {text} to undo.", text=named[:40] or "-"))
    return entered(standing, Kind.UNDONE, run.moment(row.at_s), of=run.numbers[target])


def _choose(run: _Run, row: Row, standing: Standing) -> tuple[Event, ...]:
    if row.value.strip() not in set(Remedy):
        raise TankError(
            say(
                "“{text}” is no choice; say {choices}.",
                text=row.value[:40],
                choices=", ".join(Remedy),
            )
        )
    return entered(standing, Kind.CHOSE, run.moment(row.at_s), text=row.value.strip())


_Happening = Callable[[_Run, Row, Standing], tuple[Event, ...]]


def _acting(act: Act) -> _Happening:
    return lambda run, row, standing: press(standing, act, run.moment(row.at_s))


def _logging(kind: Kind) -> _Happening:
    return lambda run, row, standing: entered(standing, kind, run.moment(row.at_s))


def _timed(kind: Kind) -> _Happening:
    return lambda run, row, standing: entered(
        standing, kind, run.moment(row.at_s), seconds=_ago(row)
    )


def _toned(kind: Kind) -> _Happening:
    return lambda run, row, standing: entered(standing, kind, run.moment(row.at_s), of=_tone(row))


_WORDS: Mapping[str, _Happening] = {
    "in": _timed(Kind.STARTED),
    "out": _timed(Kind.LIFTED),
    "bite": _timed(Kind.GIVEN),
    "still in": _logging(Kind.STILL_IN),
    "end here": _logging(Kind.ENDED_HERE),
    "painted": _logging(Kind.PAINTED),
    "dry": _logging(Kind.DRY),
    "skip": _logging(Kind.SKIPPED),
    "temperature": lambda run, row, standing: entered(
        standing, Kind.TEMPERATURE, run.moment(row.at_s), reading=read_temperature(row.value, "c")
    ),
    "check": _patch,
    "note": lambda run, row, standing: entered(
        standing, Kind.NOTE, run.moment(row.at_s), text=row.value
    ),
    "undo": _undo,
    "choose": _choose,
    "wrong tone": _toned(Kind.WRONG_TONE),
    "too late": _toned(Kind.TOO_LATE),
    "back": _timed(Kind.BACK),
    "press": _acting(Act.MAIN),
    "hold": _acting(Act.SECOND),
    "earlier": _acting(Act.EARLIER),
    "later": _acting(Act.LATER),
}
_MUST_TELL = ("bite", "still in", "end here", "skip", "choose", "wrong tone", "too late")


def words() -> Iterator[str]:
    """Everything that a table may say happened."""
    yield from _WORDS
