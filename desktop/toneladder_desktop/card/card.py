"""The plate's card at the left: small questions, large answers, one of them open at a time."""

from PySide6.QtCore import QRect, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFontMetrics,
    QKeyEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractButton,
    QFrame,
    QLineEdit,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from toneladder.wording import say
from toneladder_desktop.card.decision import Decision, Facts
from toneladder_desktop.drawing.style import APART, CARD, NEAR, Colours, Type, colours_of, font

_PAD = APART + 2
_FOLDED = 32
_WRAPPED = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap


class Card(QScrollArea):
    """All decisions, one below the other; opening one closes the other."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("The plate's card"))
        self.setFixedWidth(CARD)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.rows: list[Row] = []
        self._inside = _Inside(self)
        self._column = QVBoxLayout(self._inside)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(0)
        self._column.addStretch(1)
        self.setWidget(self._inside)

    def add(self, decision: Decision) -> Decision:
        """Another decision, below those that are there; returns it."""
        row = Row(decision, self._inside)
        row.opened.connect(self._opened)
        row.closed.connect(self._fold)
        self._column.insertWidget(len(self.rows), row)
        self.rows.append(row)
        return decision

    def show_facts(self, facts: Facts) -> None:
        """Bring every answer to what the plate says."""
        for row in self.rows:
            row.show_facts(facts)

    def open(self, decision: Decision) -> None:
        """Open one decision and bring the keys to it."""
        for row in self.rows:
            if row.decision is decision:
                row.set_open(is_open=True)
                first = stops_in(decision)[0]
                first.setFocus(Qt.FocusReason.ShortcutFocusReason)
                if isinstance(first, QLineEdit):
                    first.selectAll()

    def enable(self, *, plate: bool) -> None:
        """Without a plate nothing can be opened; the bodies then need not be told, being many."""
        for row in self.rows:
            row.head.setEnabled(plate)

    def close_all(self) -> None:
        """Close what is open."""
        for row in self.rows:
            row.set_open(is_open=False)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fold or unfold as there is room."""
        super().resizeEvent(event)
        self._fold()

    def _opened(self, opened: QWidget) -> None:
        for row in self.rows:
            if row is not opened:
                row.set_open(is_open=False)
        self._fold()
        QTimer.singleShot(0, opened, lambda: self._bring(opened))

    def _bring(self, row: QWidget) -> None:
        """As much of an opened decision as there is room for, its head first."""
        if not row.isVisible():
            return
        bar, top = self.verticalScrollBar(), row.y()
        lowest = top + row.height() - self.viewport().height()
        bar.setValue(min(max(bar.value(), lowest), top))

    def _fold(self) -> None:
        """The closed heads have as many lines each as there is room for all."""
        is_open = [row for row in self.rows if row.head.isChecked()]
        closed = [row for row in self.rows if row not in is_open]
        taken = sum(row.body_height() + row.head.height_of(3) for row in is_open)
        room = self.viewport().height() - taken
        lines = 3
        while lines > 1 and sum(row.head.height_of(lines) for row in closed) > room:
            lines -= 1
        for row in self.rows:
            row.head.fold(lines if row in closed else 3)


def stops_in(part: QWidget) -> list[QWidget]:
    """What within ``part`` takes the keys by Tab, in the order it was built."""
    tab = Qt.FocusPolicy.TabFocus
    return [
        child
        for child in part.findChildren(QWidget)
        if child.window() is part.window()
        and child.focusPolicy() & tab == tab
        and child.focusProxy() is None
    ]


class Row(QWidget):
    """One decision: its head, and its body when it is open."""

    opened = Signal(object)
    closed = Signal()

    def __init__(self, decision: Decision, parent: QWidget) -> None:
        super().__init__(parent)
        self.decision = decision
        self.head = Head(decision.question(), self)
        self.head.toggled.connect(self._toggled)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addWidget(self.head)
        rows.addWidget(decision)
        decision.setVisible(False)
        decision.fit_buttons()

    def show_facts(self, facts: Facts) -> None:
        """The decision's answer, and its controls, as the plate says."""
        self.head.tell(*self.decision.answer(facts))
        self.decision.show_facts(facts)

    def body_height(self) -> int:
        """What room the body wants."""
        layout = self.decision.layout()
        if layout is not None and layout.hasHeightForWidth():
            return layout.totalHeightForWidth(CARD)
        return self.decision.sizeHint().height()

    def set_open(self, *, is_open: bool) -> None:
        """Open or close the body."""
        self.head.setChecked(is_open)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        colours = colours_of(self)
        painter = QPainter(self)
        is_open = self.head.isChecked()
        width, height = self.width(), self.height()
        if is_open:
            painter.fillRect(self.rect(), QColor(colours.sheet))
            painter.fillRect(0, 0, width, 2, QColor(colours.ink))
            painter.fillRect(0, height - 2, width, 2, QColor(colours.ink))
        else:
            painter.fillRect(width - 1, 0, 1, height, QColor(colours.rule))
            painter.fillRect(0, height - 1, width, 1, QColor(colours.rule))

    def _toggled(self, is_open: bool) -> None:
        self.decision.setVisible(is_open)
        if is_open:
            self.opened.emit(self)
        else:
            self.closed.emit()
        self.update()


class Head(QAbstractButton):
    """Question, answer and note; pressing it opens or closes what decides them."""

    def __init__(self, question: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setCheckable(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self._shown_lines = 3
        self._ringed = False
        self._question, self._answer, self._note = question, "", ""
        self.setText(question)
        self.tell("", "")

    def tell(self, answer: str, note: str) -> None:
        """What is decided now."""
        self._answer, self._note = answer, note
        self.updateGeometry()
        self.setAccessibleName(
            say("{question}: {answer}; {note}", question=self._question, answer=answer, note=note)
        )
        self.update()

    def fold(self, lines: int) -> None:
        """Question, answer and note below each other; the first two; or those side by side."""
        if lines != self._shown_lines:
            self._shown_lines = lines
            self.updateGeometry()
            self.update()

    def height_of(self, lines: int) -> int:
        """Its height with so many lines."""
        if lines == 1:
            return _FOLDED + (self._lines()[0][1] if self._is_long() else 0)
        return sum(height for _, height in self._lines()[:lines]) + 2 * NEAR

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A note may need other lines in another width."""
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def sizeHint(self) -> QSize:
        """What room it would like."""
        return QSize(CARD, self.height_of(self._shown_lines))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens as the space bar does; the arrows go along the heads."""
        if event.key() in {Qt.Key.Key_Return, Qt.Key.Key_Enter}:
            self.click()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """A frame shows where the keys go, unless it was a hand that came here."""
        self._ringed = event.reason() is not Qt.FocusReason.MouseFocusReason
        super().focusInEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """The frame goes with the keys."""
        self._ringed = False
        super().focusOutEvent(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        colours = colours_of(self)
        painter = QPainter(self)
        if self.underMouse() and not self.isChecked():
            painter.fillRect(self.rect().adjusted(0, 1, -1, -1), QColor(colours.sheet))
        if self._shown_lines == 1:
            self._paint_folded(painter, colours)
        else:
            self._paint_full(painter, colours)
        if self._ringed:
            painter.setPen(QColor(colours.accent))
            for inset in (3, 4):
                painter.drawRect(self.rect().adjusted(inset, inset, -inset - 1, -inset - 1))

    def _paint_folded(self, painter: QPainter, colours: Colours) -> None:
        box = QRect(_PAD, 0, self.width() - 2 * _PAD, self.height())
        painter.setFont(font(Type.SMALL))
        painter.setPen(QColor(colours.pencil))
        line = box.adjusted(0, 0, 0, _FOLDED - self.height())
        painter.drawText(
            line, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, self._question
        )
        if self._is_long():
            box.setTop(box.top() + self._lines()[0][1])
        else:
            box.setLeft(box.left() + painter.fontMetrics().horizontalAdvance(self._question) + NEAR)
        painter.setPen(QColor(colours.ink))
        text = painter.fontMetrics().elidedText(
            self._answer, Qt.TextElideMode.ElideMiddle, box.width()
        )
        painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, text)

    def _paint_full(self, painter: QPainter, colours: Colours) -> None:
        top = NEAR
        texts = (self._question, self._answer, self._note)
        inks = (colours.pencil, colours.ink, colours.pencil)
        rows = list(zip(self._lines(), texts, inks, strict=True))[: self._shown_lines]
        for (kind, height), text, ink in rows:
            painter.setFont(font(kind))
            painter.setPen(QColor(ink))
            box = QRect(_PAD, top, self._room(), height)
            metrics = painter.fontMetrics()
            words = [
                metrics.elidedText(word, Qt.TextElideMode.ElideMiddle, box.width())
                for word in text.split(" ")
            ]
            painter.drawText(box, _WRAPPED, " ".join(words))
            top += height

    def _lines(self) -> tuple[tuple[Type, int], ...]:
        """Letters and height of question, answer and note; what is long has lines of its own."""
        lines = []
        for kind, text in (
            (Type.SMALL, self._question),
            (Type.ANSWER, self._answer),
            (Type.SMALL, self._note),
        ):
            metrics = QFontMetrics(font(kind))
            room = QRect(0, 0, self._room(), metrics.height())
            needed = metrics.boundingRect(room, _WRAPPED, text).height()
            lines.append((kind, max(metrics.height(), needed) + 1))
        return tuple(lines)

    def _is_long(self) -> bool:
        """Whether question and answer have no room beside each other."""
        wide = QFontMetrics(font(Type.SMALL)).horizontalAdvance
        return wide(self._question) + NEAR + wide(self._answer) > self._room()

    def _room(self) -> int:
        return self.width() - 2 * _PAD


class _Inside(QWidget):
    """The card's ground, with the rule that parts it from the paper; never wider than the card."""

    def minimumSizeHint(self) -> QSize:
        """What its rows need in height."""
        return QSize(0, super().minimumSizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        """Draw it."""
        painter = QPainter(self)
        last = self.findChildren(Row)[-1]
        bottom = last.geometry().bottom() + 1
        painter.fillRect(
            self.width() - 1, bottom, 1, self.height() - bottom, QColor(colours_of(self).rule)
        )
