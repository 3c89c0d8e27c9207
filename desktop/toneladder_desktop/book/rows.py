"""What the ledgers say, from what the book answered."""

from toneladder.book.values import KeptPull, StripLine
from toneladder.quantities import Manner, write_bite, write_percent, write_temperature
from toneladder.sheets.record_words import Table, missed, print_words, written_day
from toneladder.wording import say, say_number
from toneladder_desktop.book.asked import BathLine, PlateLine
from toneladder_desktop.book.ledger import Cell, Column, Row
from toneladder_desktop.drawing.style import Type, font


def plate_columns() -> tuple[Column, ...]:
    """Heads of the ledger of plates."""
    return (
        Column(say("Print"), 94),
        Column(say("Saved on"), 134),
        Column(say("Title"), 0),
        Column(say("Metal"), 96),
        Column(say("Tones"), 62),
        Column(say("Bath"), 180),
        Column(say("Best proof"), 150),
    )


def plate_row(line: PlateLine, day: str, manner: Manner) -> Row:
    """A plate as a row; ``day`` is the one it was saved on, as people write it."""
    plate, miss = line.kept.plate, missed(line.kept.best_miss, manner)
    under = "" if line.there else say("not at {path} any more", path=plate.path)
    return Row(
        plate.identity,
        (
            Cell(picture=line.picture),
            Cell(day),
            Cell(plate.title or say("Untitled plate"), under, strong=True),
            Cell(say(plate.metal.value)),
            Cell(str(plate.tones)),
            Cell(plate.bath or "–"),
            Cell(say("{miss} off", miss=miss) if miss else say("none yet")),
        ),
        faint=not line.there,
    )


def bath_columns() -> tuple[Column, ...]:
    """Heads of the ledger of baths."""
    return (
        Column(say("Bath"), 0),
        Column(say("For"), 190),
        Column(say("Made on"), 132),
        Column(say("Used"), 128),
        Column(say("Strips"), 60),
    )


def bath_row(line: BathLine, manner: Manner) -> Row:
    """A bath as a row; its use never says more than all of its capacity."""
    bath = line.kept.bath
    bitten = line.use.plates + line.use.strips
    share = used(line.share, manner) if bitten else ""
    plates = say_number("{n} plate", "{n} plates", line.use.plates)
    strips = say_number("{n} strip", "{n} strips", line.use.strips) if line.use.strips else ""
    counted = ", ".join(part for part in (plates if line.use.plates else "", strips) if part)
    use = counted if bitten else say("not yet")
    retired = say("retired {day}", day=written_day(bath.retired_on)) if bath.retired_on else ""
    return Row(
        line.kept.id,
        (
            Cell(bath.name, retired or bath.note.partition("\n")[0], strong=True),
            Cell(say(bath.metal.value), f"{say(bath.mordant.value)} {bath.strength}".strip()),
            Cell(written_day(bath.made_on) or say("not noted")),
            Cell(share or use, use if share else ""),
            Cell(str(line.strips)),
        ),
        faint=bool(bath.retired_on),
    )


def used(share: float | None, manner: Manner) -> str:
    """The share of a bath's capacity that is used up, by estimate; empty if not known.

    >>> used(0.123, Manner()).split(), used(None, Manner())
    (['about', '12', '%'], '')
    """
    if share is None:
        return ""
    return say("about {share}", share=write_percent(min(max(share, 0.0), 1.0), manner))


def strip_columns() -> tuple[Column, ...]:
    """Heads of the ledger of a bath's strips."""
    return (Column(say("Bitten on"), 0), Column(say("Patches"), 178))


def strip_row(line: StripLine, manner: Manner) -> Row:
    """A strip as a row."""
    grain = say(
        "{grain}, {fineness} · {warmth}",
        grain=say(line.grain.value),
        fineness=say(line.fineness.value),
        warmth=write_temperature(line.temperature_c, manner),
    )
    patches = say_number("{n} patch", "{n} patches", line.patches)
    proofs = say_number("{n} proof", "{n} proofs", line.proofs) if line.proofs else ""
    longest = say("up to {bite}", bite=write_bite(line.longest_s))
    return Row(
        line.id,
        (
            Cell(written_day(line.bitten_on) or say("day not noted"), grain),
            Cell(", ".join(part for part in (patches, proofs) if part), longest),
        ),
    )


def pull_columns() -> tuple[Column, ...]:
    """Heads of the ledger of a plate's prints."""
    return (Column(say("Print"), 0), Column(say("Paper"), 150))


def pull_row(kept: KeptPull) -> Row:
    """A print as a row."""
    pull = kept.pull
    day = written_day(pull.pulled_on) or say("day not noted")
    under = " · ".join(part for part in (day, pull.note.partition("\n")[0]) if part)
    return Row(kept.id, (Cell(print_words(pull), under), Cell(pull.paper, pull.ink)))


def table_columns(table: Table) -> tuple[Column, ...]:
    """Columns for a table of the record, as wide as their words."""
    widths = []
    for at, head in enumerate(table.heads):
        texts = [head, *(row[at] for row in table.rows)]
        letters = max(_width(text) for text in texts)
        widths.append(0 if at == table.wide else letters + 24)
    return tuple(Column(head, width) for head, width in zip(table.heads, widths, strict=True))


def table_rows(table: Table) -> tuple[Row, ...]:
    """A table of the record as rows."""
    return tuple(
        Row(number, tuple(Cell(text) for text in row)) for number, row in enumerate(table.rows)
    )


def _width(text: str) -> int:
    from PySide6.QtGui import QFontMetrics

    return QFontMetrics(font(Type.TEXT)).horizontalAdvance(text)
