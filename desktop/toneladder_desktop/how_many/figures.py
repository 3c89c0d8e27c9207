"""Paints the lower part of the test strip: rows of figures, bars, what one more tone brings."""

from dataclasses import dataclass

from toneladder.boxes import Box
from toneladder.wording import say
from toneladder_desktop.drawing.ruling import Ruling, Set, width_of
from toneladder_desktop.drawing.style import HAIR, Colours, Type
from toneladder_desktop.how_many.content import Content
from toneladder_desktop.how_many.layout import Layout, Row
from toneladder_desktop.how_many.words import WAITING, figure_of, head_of, longer_of

_ABOVE_BAR = 18.0
_LINE = 17.0


@dataclass(frozen=True, slots=True)
class Figures:
    """What is painted, where, and in which colours."""

    content: Content
    layout: Layout
    colours: Colours
    has_keys: bool

    def paint(self, ruling: Ruling) -> None:
        """Everything below the grey band."""
        self._ground_of_focus(ruling)
        for row in Row:
            self._head(ruling, row)
            if row < Row.DISTANCE:
                self._row(ruling, row)
        self._bars(ruling)
        self._gains(ruling)
        self._tab(ruling)
        self._rules_of_focus(ruling)

    def _ground_of_focus(self, ruling: Ruling) -> None:
        column, band = self.layout.columns[self.content.focus], self.layout.band
        ruling.fill(
            column.x, band.bottom, column.width, column.bottom - band.bottom, self.colours.sheet
        )

    def _rules_of_focus(self, ruling: Ruling) -> None:
        column, band = self.layout.columns[self.content.focus], self.layout.band
        thick = 2.0 if self.has_keys else 1.0
        for x in (column.x, column.right):
            ruling.upright(x, band.bottom, column.bottom, self.colours.ink, thick)

    def _head(self, ruling: Ruling, row: Row) -> None:
        area, colours = self.layout.rows[row], self.colours
        first, second = head_of(row)
        y = self._middle(row)
        ruling.words(self.layout.heads_end, y, first, Type.TEXT, colours.ink, Set.RIGHT)
        if second:
            ruling.words(
                self.layout.heads_end, y + _LINE, second, Type.SMALL, colours.pencil, Set.RIGHT
            )
        if row < Row.DISTANCE:
            ruling.level(area.x, area.right, area.bottom, colours.rule, HAIR)

    def _middle(self, row: Row) -> float:
        """Height of a row's first line of words."""
        area = self.layout.rows[row]
        if row is Row.DISTANCE:
            return area.bottom - 28.0
        if row is Row.GAIN:
            return area.y + 14.0
        lines = 2 if row is Row.PLACES and self.content.hard else 1
        return area.y + area.height / 2.0 - (lines - 1) * 7.0

    def _row(self, ruling: Ruling, row: Row) -> None:
        for k, column in enumerate(self.layout.columns):
            text = figure_of(row, self.content, k, narrow=self.layout.narrow)
            y = self._middle(row)
            self._figure(ruling, column, y, text, strong=k == self.content.focus)
            offer = self.content.offer(k)
            if row is Row.PLACES and offer and offer.costs and offer.costs.hard_to_paint:
                words = say("hard") if self.layout.narrow else say("hard to paint")
                ruling.words(
                    column.centre, y + 15.0, words, Type.SMALL, self.colours.ink, Set.MIDDLE
                )

    def _figure(
        self, ruling: Ruling, column: Box, middle: float, text: str, *, strong: bool
    ) -> None:
        plain = Type.SMALL if self.layout.narrow else Type.TEXT
        kind = Type.STRONG if strong else plain
        if width_of(text, kind) > column.width - 4.0:
            kind = Type.SMALL
        colour = self.colours.pencil if text == WAITING else self.colours.ink
        ruling.words(column.centre, middle, text, kind, colour, Set.MIDDLE)

    def _bars(self, ruling: Ruling) -> None:
        layout, content, colours = self.layout, self.content, self.colours
        area = layout.rows[Row.DISTANCE]
        known = [o.distance for k in range(len(content.counts)) if (o := content.offer(k))]
        longest = max(known, default=0.0)
        for k, column in enumerate(layout.columns):
            offer, focused = content.offer(k), k == content.focus
            high = 0.0
            if offer is not None and longest > 0.0:
                high = max((area.height - _ABOVE_BAR - 4.0) * offer.distance / longest, 1.0)
            wide = min(column.width * 0.36, 44.0)
            colour = colours.ink if focused else colours.edge
            ruling.fill(column.centre - wide / 2.0, area.bottom - high, wide, high, colour)
            text = figure_of(Row.DISTANCE, content, k)
            self._figure(ruling, column, area.bottom - high - 10.0, text, strong=focused)
        ruling.level(layout.columns[0].x, area.right, area.bottom, colours.ink, 1.5)

    def _gains(self, ruling: Ruling) -> None:
        y, colours = self._middle(Row.GAIN), self.colours
        for k, column in enumerate(self.layout.columns[:-1]):
            gain = self.content.gain(k)
            if gain is None:
                continue
            worth_it = gain.nearer >= self.content.least_gain - 1e-9
            kind, colour = (Type.STRONG, colours.ink) if worth_it else (Type.TEXT, colours.pencil)
            text = figure_of(Row.GAIN, self.content, k)
            ruling.words(column.right, y, text, kind, colour, Set.MIDDLE)
            longer = longer_of(self.content, k, narrow=self.layout.narrow)
            ruling.words(column.right, y + _LINE, longer, Type.SMALL, colours.pencil, Set.MIDDLE)

    def _tab(self, ruling: Ruling) -> None:
        """The word under the column that is enough, on a tab that hangs from it."""
        if self.content.enough is None:
            return
        column = self.layout.columns[self.content.counts.index(self.content.enough.asked)]
        word, colours = say("enough"), self.colours
        wide = width_of(word, Type.STRONG) + 20.0
        tab = self.layout.tab
        ruling.fill(column.centre - wide / 2.0, tab.y, wide, tab.height - 2.0, colours.ink)
        ruling.words(
            column.centre,
            tab.y + tab.height / 2.0 - 1.0,
            word,
            Type.STRONG,
            colours.ground,
            Set.MIDDLE,
        )
