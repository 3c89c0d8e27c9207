"""The day drawn: a bench, a bath under it, and the plate going down and up between them."""

from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPen

from toneladder.boxes import Box
from toneladder.order.values import Doing
from toneladder.wording import say
from toneladder_desktop.day.layout import BITES_Y, LIFTS_Y, MARGIN, MARKS_Y, Block, DayLayout, Word
from toneladder_desktop.drawing.ruling import Ruling, Set, width_of
from toneladder_desktop.drawing.style import Colours, Type

HEAD_Y = 15.0
_LEVELS = (4.0, 9.0, 14.0)
_HATCH = 5.0


def paint_head(ruling: Ruling, heads: tuple[str, ...], width: float, colours: Colours) -> None:
    """*The day*, and the fullest of ``heads`` that has room beside it."""
    title = say("The day")
    ruling.words(MARGIN, HEAD_Y, title, Type.HEAD, colours.ink)
    x = MARGIN + width_of(title, Type.HEAD) + 16.0
    for head in heads:
        if x + width_of(head, Type.SMALL) <= width - MARGIN:
            ruling.words(x, HEAD_Y + 1.0, head, Type.SMALL, colours.pencil)
            return


def paint_day(
    ruling: Ruling, layout: DayLayout, chosen: int | None, colours: Colours, *, pending: bool
) -> None:
    """The line of the day; in pencil while another one is being worked out."""
    ink = colours.edge if pending else colours.ink
    _marks(ruling, layout, colours)
    _bath(ruling, layout, colours)
    for block in layout.blocks:
        _on_bench(ruling, block, colours, ink, chosen=block.step == chosen)
    for block in layout.blocks:
        if block.doing is Doing.BITE:
            box = block.box
            ruling.fill(box.x, box.y, box.width, box.height, ink)
        elif block.doing is Doing.REST:
            _rest(ruling, block.box, layout, colours)
    for word in layout.numbers:
        _number(ruling, word, layout, colours, ink)
    if chosen is not None and chosen <= len(layout.spans):
        _chosen(ruling, layout, chosen, ink)
    if pending:
        return
    for words, y, kind, colour in (
        (layout.lifts, LIFTS_Y, Type.STRONG, colours.ink),
        (layout.bites, BITES_Y, Type.SMALL, colours.pencil),
    ):
        for word in words:
            ruling.words(word.left, y, word.text, kind, colour)


def _marks(ruling: Ruling, layout: DayLayout, colours: Colours) -> None:
    for mark in layout.marks:
        low = layout.bath.bottom if mark.midnight else layout.bench.y
        ruling.upright(mark.x, MARKS_Y + 5.0, low, colours.edge)
        left = max(mark.x - width_of(mark.text, Type.SMALL) / 2.0, MARGIN - 4.0)
        ruling.words(left, MARKS_Y - 2.0, mark.text, Type.SMALL, colours.pencil)


def _bath(ruling: Ruling, layout: DayLayout, colours: Colours) -> None:
    bath, bench = layout.bath, layout.bench
    for level in _LEVELS:
        ruling.level(bath.x, bath.right, bath.y + level, colours.rule)
    ruling.level(bath.x, bath.right, bath.y, colours.edge)
    x = bench.right + 8.0
    ruling.words(x, bench.middle, say("bench"), Type.SMALL, colours.pencil)
    ruling.words(x, bath.middle, say("bath"), Type.SMALL, colours.pencil)


def _on_bench(ruling: Ruling, block: Block, colours: Colours, ink: str, *, chosen: bool) -> None:
    box = block.box
    if block.doing is Doing.LOOK:
        ruling.level(box.x, box.right, box.bottom - 1.0, ink, 2.0)
    if block.doing not in (Doing.PAINT, Doing.DRY):
        return
    ruling.fill(box.x, box.y, box.width, box.height, colours.tint if chosen else colours.sheet)
    if block.doing is Doing.PAINT:
        _hatch(ruling, box, colours.edge)
    joint = ruling.thick(1.0) if block.doing is Doing.DRY else 0.0
    ruling.frame(box.x - joint, box.y, box.width + joint, box.height, ink)


def _hatch(ruling: Ruling, box: Box, colour: str) -> None:
    """Lines at 45 degrees, all on one lattice, so that neighbours run on."""
    painter = ruling.painter
    painter.save()
    painter.setClipRect(QRectF(box.x, box.y, box.width, box.height))
    painter.setPen(QPen(QColor(colour), ruling.thick(1.0)))
    first = (box.x + box.y) // _HATCH * _HATCH
    across = first
    while across <= box.right + box.bottom:
        ruling.line((across - box.y, box.y), (across - box.bottom, box.bottom), colour)
        across += _HATCH
    painter.restore()


def _number(ruling: Ruling, word: Word, layout: DayLayout, colours: Colours, ink: str) -> None:
    bench = layout.bench
    ruling.fill(word.left, bench.middle - 9.0, word.width, 18.0, colours.sheet)
    ruling.words(word.x, bench.middle, word.text, Type.STRONG, ink, Set.MIDDLE)


def _rest(ruling: Ruling, rest: Box, layout: DayLayout, colours: Colours) -> None:
    """What a gap in the work is, if there is room to say it."""
    word = say("rest")
    if rest.width >= width_of(word, Type.SMALL) + 10.0:
        middle = rest.x + rest.width / 2.0
        ruling.words(middle, layout.bench.middle, word, Type.SMALL, colours.pencil, Set.MIDDLE)


def _chosen(ruling: Ruling, layout: DayLayout, chosen: int, ink: str) -> None:
    """A frame round all that a step does, on the bench and in the bath."""
    left, right = layout.spans[chosen - 1]
    top, low = layout.bench.y - 3.0, layout.bath.bottom + 3.0
    ruling.frame(left, top, max(right - left, 3.0) + 2.0, low - top, ink, 2.0)
