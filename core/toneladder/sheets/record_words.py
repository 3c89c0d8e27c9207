"""What a plate's record says, as facts and tables: the same words on screen and on paper."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from itertools import accumulate

from toneladder.book.record import PlateRecord, Stay, StepBite, planned_bites
from toneladder.book.values import Pull, PullKind
from toneladder.order.values import Order
from toneladder.plate.values import Plate
from toneladder.quantities import Manner, write_apart, write_bite, write_size, write_temperature
from toneladder.sheets.order_words import written_date
from toneladder.tank.values import Stage
from toneladder.wording import say, say_number


@dataclass(frozen=True, slots=True)
class Table:
    """A table with a name; ``empty`` is what stands there without rows.

    ``wide`` is the number of the column that takes the room which is left.
    """

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    empty: str
    wide: int = 0


def facts(
    record: PlateRecord, plate: Plate | None, manner: Manner | None = None
) -> tuple[tuple[str, str], ...]:
    """What the plate is, each fact with its name; without its file only what the book knows."""
    entry = record.kept.plate
    known = [
        (say("Metal"), say(entry.metal.value)),
        (say("Tones"), str(entry.tones)),
        (say("Bath"), entry.bath),
        (say("Ink"), entry.ink),
        (say("Paper"), entry.paper),
        (say("Last saved"), written_day(_day_of(entry.saved_utc_s))),
        (say("Best proof missed by"), missed(record.kept.best_miss, manner)),
    ]
    if plate is not None:
        known[1:1] = _conditions(plate, manner)
    return tuple((name, value) for name, value in known if value)


def bites_tables(
    record: PlateRecord, order: Order | None, manner: Manner | None = None
) -> tuple[Table, ...]:
    """Each stay at the tank with its planned bites and what was given; else what is planned.

    Totals given are by the clock; in a bath of another temperature than planned, also what they
    are worth at that.
    """
    known = [stay for stay in record.stays if stay.bites]
    stays = tuple(_stay_table(stay, manner) for stay in known)
    if any(stay.stage is Stage.TONES for stay in known):
        return stays
    bites = () if order is None else planned_bites(order)
    rows = tuple((row[0], row[1], row[3]) for row in _bite_rows(bites))
    heads = (say("Step"), say("Planned bite"), say("Planned total"))
    return (*stays, Table(say("Bites"), heads, rows, say("No bite is known."), wide=2))


def _stay_table(stay: Stay, manner: Manner | None = None) -> Table:
    day = written_day(_day_of(stay.begun_utc_s))
    name = {
        Stage.LINES: say("Lines, at the tank on {day}", day=day),
        Stage.TONES: say("At the tank, {day}", day=day),
        Stage.SECOND: say("Second grain, at the tank on {day}", day=day),
    }[stay.stage]
    first = say("Step") if stay.stage is Stage.TONES else say("Bite")
    heads: tuple[str, ...] = (
        first,
        say("Planned bite"),
        say("Bite given"),
        say("Planned total"),
        say("Total given"),
    )
    rows: tuple[tuple[str, ...], ...] = _bite_rows(stay.bites)
    worth = _worth_column(stay.bites)
    apart = any(at != row[4].rstrip("*") for row, at in zip(rows, worth, strict=True) if at)
    if apart and stay.planned_c is not None:
        planned = write_temperature(stay.planned_c, manner)
        heads = (*heads, say("Total, as at {bath}", bath=planned))
        rows = tuple((*row, total) for row, total in zip(rows, worth, strict=True))
    return Table(name, heads, rows, say("No bite is known."), wide=len(heads) - 1)


def stay_notes(record: PlateRecord) -> tuple[str, ...]:
    """Sentences on stays at the tank: none yet, those that cannot be read, lifts assumed."""
    if not record.stays:
        return (say("This plate was not at the tank yet: nothing was bitten."),)
    notes = [stay.unreadable for stay in record.stays if stay.unreadable]
    if any(bite.assumed for stay in record.stays for bite in stay.bites):
        notes.append(say("* Nobody said when it was lifted: the end of this bite is assumed."))
    return tuple(notes)


def proofs_table(record: PlateRecord, manner: Manner | None = None) -> Table:
    """The proofs that were read."""
    rows = tuple(
        (
            written_day(kept.proof.pulled_on),
            str(kept.proof.pull),
            missed(kept.proof.miss, manner),
            say(kept.proof.dryness.value),
            say("the best so far") if kept.best else "",
            kept.proof.note,
        )
        for kept in record.proofs
    )
    heads = (say("Pulled"), say("Pull"), say("Missed by"), say("Read"), "", say("Note"))
    return Table(say("Proofs"), heads, rows, say("No proof was read yet."), wide=5)


def prints_table(record: PlateRecord) -> Table:
    """The prints that were pulled."""
    rows = tuple(
        (
            written_day(kept.pull.pulled_on),
            print_words(kept.pull),
            kept.pull.paper,
            kept.pull.ink,
            kept.pull.note,
        )
        for kept in record.pulls
    )
    heads = (say("Pulled"), say("Print"), say("Paper"), say("Ink"), say("Note"))
    return Table(say("Prints"), heads, rows, say("No print is noted yet."), wide=4)


def print_words(pull: Pull) -> str:
    """What a print is: its kind, and the number under it.

    >>> print_words(Pull("2026-03-16", PullKind.EDITION, 3, 20))
    'edition print 3/20'
    """
    kind = say(pull.kind.value)
    if pull.number is None:
        return kind
    if pull.edition is None:
        return say("{kind} {number}", kind=kind, number=pull.number)
    return say("{kind} {number}/{all}", kind=kind, number=pull.number, all=pull.edition)


def prints_counted(pulls: Sequence[Pull]) -> str:
    """How many prints of each kind are noted; those pulled before the edition are proofs."""
    counts = {kind: sum(pull.kind is kind for pull in pulls) for kind in PullKind}
    edition, spoilt = counts[PullKind.EDITION], counts[PullKind.SPOILT]
    artist, printer = counts[PullKind.ARTIST], counts[PullKind.PRINTER]
    proofs = len(pulls) - edition - spoilt - artist - printer
    parts = (
        say_number("{n} edition print", "{n} edition prints", edition) if edition else "",
        say_number("{n} artist's proof", "{n} artist's proofs", artist) if artist else "",
        say_number("{n} printer's proof", "{n} printer's proofs", printer) if printer else "",
        say_number("{n} proof", "{n} proofs", proofs) if proofs else "",
        say_number("{n} spoilt", "{n} spoilt", spoilt) if spoilt else "",
    )
    return ", ".join(part for part in parts if part)


def missed(miss: float | None, manner: Manner | None = None) -> str:
    """How far a proof was from its plan, in darkness; empty if there is none.

    >>> missed(4.2)
    '0.4'
    """
    return "" if miss is None else write_apart(miss, manner)


def written_day(day: str) -> str:
    """A kept day as people write it; empty if nobody noted it."""
    try:
        return written_date(date.fromisoformat(day)) if day else ""
    except ValueError:
        return day


def _conditions(plate: Plate, manner: Manner | None) -> list[tuple[str, str]]:
    one = plate.conditions
    ground = say(
        "{grain}, {fineness}", grain=say(one.grain.value), fineness=say(one.fineness.value)
    )
    return [
        (say("Size"), write_size(plate.size.width_mm, plate.size.height_mm, manner)),
        (say("Mordant"), f"{say(one.mordant.value)} {one.strength}".strip()),
        (
            say("Bath planned for"),
            say(
                "{warmth}, {movement}",
                warmth=write_temperature(one.temperature_c, manner),
                movement=say(one.movement.value),
            ),
        ),
        (say("Grain"), ground),
        (say("Grained on"), written_day(plate.grained_on)),
    ]


def _bite_rows(bites: Sequence[StepBite]) -> tuple[tuple[str, ...], ...]:
    """Step, planned and given bite, planned and given total; empty where nothing was bitten."""
    totals = accumulate(bite.planned_s for bite in bites)
    rows = []
    so_far = 0.0
    for bite, total in zip(bites, totals, strict=True):
        given = given_total = ""
        if bite.given_s is not None:
            so_far += bite.given_s
            star = "*" if bite.assumed else ""
            given, given_total = write_bite(bite.given_s) + star, write_bite(so_far) + star
        planned = write_bite(bite.planned_s)
        rows.append((str(bite.step), planned, given, write_bite(total), given_total))
    return tuple(rows)


def _worth_column(bites: Sequence[StepBite]) -> tuple[str, ...]:
    """What the total given is worth in the bath as planned; empty where nothing was bitten."""
    so_far, column = 0.0, []
    for bite in bites:
        so_far += bite.worth_s or 0.0
        column.append("" if bite.worth_s is None else write_bite(so_far))
    return tuple(column)


def _day_of(utc_s: float) -> str:
    return datetime.fromtimestamp(utc_s, UTC).astimezone().date().isoformat()
