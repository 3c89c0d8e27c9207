"""Everything on the bench in its place: title, card, paper, day, and the ladder at full height."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QStackedWidget, QVBoxLayout, QWidget

from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.card.bath import BathDecision
from toneladder_desktop.card.card import Card, stops_in
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.card.greys import GreysDecision
from toneladder_desktop.card.lines import LinesDecision
from toneladder_desktop.card.metal import PlateDecision
from toneladder_desktop.card.notes import NotesDecision
from toneladder_desktop.card.pace import PaceDecision
from toneladder_desktop.card.picture import PictureDecision
from toneladder_desktop.card.printing import PrintingDecision
from toneladder_desktop.card.second_grain import SecondGrainDecision
from toneladder_desktop.card.soft import SoftDecision
from toneladder_desktop.card.steps import StepsDecision
from toneladder_desktop.card.strip import StripDecision
from toneladder_desktop.card.tones import TonesDecision
from toneladder_desktop.day.view import DayView
from toneladder_desktop.drawing.style import APART, DAY, LADDER, NEAR, Type, colours_of, font
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.notice import Notice
from toneladder_desktop.ladder.view import LadderView
from toneladder_desktop.paper.paper import Paper
from toneladder_desktop.window.foot import DayBar
from toneladder_desktop.window.header import Header
from toneladder_desktop.window.slowness import Slowness
from toneladder_desktop.window.tables import TonesTable

_LAST_ACT = 420


class BenchTop(QWidget):
    """Title above, card at the left, paper in the middle, day below it, ladder at the right."""

    def __init__(self, bench: Bench, workings: Workings, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._bench, self._workings = bench, workings
        self.header = Header(self)
        self.slowness = Slowness(workings, self)
        self.notice = Notice(self)
        self.paper = Paper(self)
        self.card = Card(self)
        self.ladder, self.table = LadderView(self), TonesTable(self)
        self.right = QStackedWidget(self)
        self.right.setContentsMargins(APART, 0, NEAR, 0)
        self.right.setFixedWidth(LADDER + APART + NEAR)
        self.right.addWidget(self.ladder)
        self.right.addWidget(self.table)
        self.day = DayView(self)
        self.day_bar = DayBar(self.day, self)
        self.day_bar.setFixedHeight(DAY)
        self.last_act = Label(self)
        self.last_act.setObjectName("pencil")
        self.last_act.setFont(font(Type.SMALL))
        self.last_act.setFixedSize(_LAST_ACT, 26)
        self.last_act.setContentsMargins(0, 0, APART, 0)
        self.last_act.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self._arrange()

    def fill(self) -> Iterator[Decision]:
        """Put the decisions on the card, one after the other, in their order."""
        add, bench = self.card.add, self._bench
        self.picture = PictureDecision(bench)
        yield add(self.picture)
        self.greys = GreysDecision(bench)
        yield add(self.greys)
        self.plate = PlateDecision(bench)
        yield add(self.plate)
        self.bath = BathDecision(bench)
        yield add(self.bath)
        self.strip = StripDecision(bench)
        yield add(self.strip)
        self.lines = LinesDecision(bench)
        yield add(self.lines)
        self.tones = TonesDecision(bench)
        yield add(self.tones)
        self.notes = NotesDecision(bench)
        yield add(self.notes)
        self.soft = SoftDecision(bench)
        yield add(self.soft)
        self.steps = StepsDecision(bench)
        yield add(self.steps)
        self.second_grain = SecondGrainDecision(bench)
        yield add(self.second_grain)
        self.pace = PaceDecision(bench)
        yield add(self.pace)
        self.printing = PrintingDecision(bench)
        yield add(self.printing)

    def show_facts(self, facts: Facts) -> None:
        """The plate and as much of its plan as is ready, on the card, the ladder and the day."""
        self.card.show_facts(facts)
        prepared = self._workings.prepared
        if facts.chosen is None or prepared is None or facts.curve is None:
            return
        self.ladder.show_manner(facts.manner)
        self.ladder.show_plan(facts.plate, prepared, facts.chosen, facts.plan, facts.curve)
        self.table.show_plan(facts.chosen, facts.manner)
        self.day.show_plan(facts.plate, prepared, facts.chosen, facts.plan, facts.curve)

    def enable(self, *, plate: bool) -> None:
        """Without a plate there is nothing to decide, and nothing to print."""
        self.card.enable(plate=plate)
        for part in (self.header.title, self.day_bar.act, self.day_bar.tank):
            part.setEnabled(plate)

    def clear(self) -> None:
        """Another plate comes: nothing of the last one stays."""
        self.ladder.clear()
        self.day.clear()

    def show_table(self, *, shown: bool) -> None:
        """The ladder as a table, or as a ladder."""
        self.right.setCurrentWidget(self.table if shown else self.ladder)

    def order_tabs(self, caption: Sequence[QWidget]) -> None:
        """Keys go from the title down the card, over the print and the day, to the ladder."""
        stops: list[QWidget] = [self.header.title, self.header.own]
        for row in self.card.rows:
            stops += (row.head, *stops_in(row.decision))
        stops += (*stops_in(self.slowness), *stops_in(self.notice), self.paper, *caption)
        stops += (self.day, self.day_bar.act, self.day_bar.tank)
        stops += (*stops_in(self.ladder), self.ladder, self.table)
        for one, other in pairwise(stops):
            QWidget.setTabOrder(one, other)

    def tell_last_act(self, sentence: str) -> None:
        """What undo would take back, at the right end of the menus."""
        text = say("Undo: {act}", act=sentence) if sentence else ""
        self.last_act.setText(
            self.last_act.fontMetrics().elidedText(
                text, Qt.TextElideMode.ElideRight, _LAST_ACT - APART
            )
        )

    def _arrange(self) -> None:
        middle = _column(self.slowness, self.notice, self.paper, _Rule(self), self.day_bar)
        middle.setStretch(2, 1)
        body = _row()
        body.addWidget(self.card)
        body.addLayout(middle, 1)
        left = _column(self.header, _Rule(self))
        left.addLayout(body, 1)
        whole = _row()
        whole.addLayout(left, 1)
        whole.addWidget(_Rule(self, upright=True))
        whole.addWidget(self.right)
        top = _column(_Rule(self))
        top.addLayout(whole, 1)
        self.setLayout(top)


class _Rule(QWidget):
    """A hairline that only divides."""

    def __init__(self, parent: QWidget, *, upright: bool = False) -> None:
        super().__init__(parent)
        if upright:
            self.setFixedWidth(1)
        else:
            self.setFixedHeight(1)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        QPainter(self).fillRect(self.rect(), QColor(colours_of(self).rule))


def _column(*parts: QWidget) -> QVBoxLayout:
    column = QVBoxLayout()
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(0)
    for part in parts:
        column.addWidget(part)
    return column


def _row() -> QHBoxLayout:
    row = QHBoxLayout()
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(0)
    return row
