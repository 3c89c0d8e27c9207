"""The studio book's page: plates, baths, and the record of one plate."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QStackedWidget, QVBoxLayout, QWidget

from toneladder.quantities import Manner
from toneladder.wording import say
from toneladder_desktop.book.baths_page import BathsPage
from toneladder_desktop.book.plates_page import PlatesPage
from toneladder_desktop.book.record_page import RecordPage
from toneladder_desktop.book.telling import RecordRead
from toneladder_desktop.drawing.style import FAR, NEAR, Type, font
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.notice import Notice


class BookView(QWidget):
    """The whole page; what it shows comes from outside, what is wanted is said by signals.

    ``turned()`` says that another part of the book is open, ``left()`` that nobody wants it.
    """

    turned = Signal()
    left = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(say("Studio book"))
        self.title = Label(say("Studio book"), self)
        self.subtitle = Label(self)
        self.notice = Notice(self)
        self.plates, self.baths, self.record = PlatesPage(self), BathsPage(self), RecordPage(self)
        self.parts = QStackedWidget(self)
        self.links = {
            self.plates: QPushButton(say("Plates"), self),
            self.baths: QPushButton(say("Baths"), self),
        }
        for part, link in self.links.items():
            link.clicked.connect(lambda _on=False, part=part: self.turn_to(part))
        for part in (self.plates, self.baths):
            part.left.connect(self.left)
        self.record.left.connect(lambda: self.turn_to(self.plates))
        self._lay_out()
        self.turn_to(self.plates)

    def turn_to(self, part: QWidget) -> None:
        """Open a part of the book; what it shows is asked for."""
        self._open(part)
        self.subtitle.setText("")
        self.turned.emit()

    def _open(self, part: QWidget) -> None:
        self.parts.setCurrentWidget(part)
        for other, link in self.links.items():
            link.setProperty("here", other is part)
            link.setAccessibleDescription(say("open") if other is part else "")
            link.style().unpolish(link)
            link.style().polish(link)
        self._give_keys()

    def show_record(self, read: RecordRead, manner: Manner) -> None:
        """The record of a plate."""
        self.record.show_record(read, manner)
        if self.parts.currentWidget() is not self.record:
            self._open(self.record)
        title = read.told.record.kept.plate.title or say("Untitled plate")
        self.subtitle.setText(say("Record of “{title}”", title=title))
        if read.lacking:
            self.notice.tell(read.lacking)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes one back: from a form, from a record, from the book."""
        if event.key() != Qt.Key.Key_Escape:
            super().keyPressEvent(event)
        elif self.parts.currentWidget() is self.record:
            if self.record.filling_in:
                self.record.end()
            else:
                self.turn_to(self.plates)
        elif self.parts.currentWidget() is self.baths and self.baths.filling_in:
            self.baths.end()
        else:
            self.left.emit()

    def showEvent(self, event: QShowEvent) -> None:
        """The keys come to the ledger."""
        super().showEvent(event)
        self._give_keys()

    def _give_keys(self) -> None:
        part = self.parts.currentWidget()
        if part is self.record:
            self.record.back.setFocus(Qt.FocusReason.OtherFocusReason)
        elif part is self.baths:
            self.baths.ledger.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            self.plates.search.setFocus(Qt.FocusReason.OtherFocusReason)

    def _lay_out(self) -> None:
        self.title.setFont(font(Type.TITLE))
        self.subtitle.setObjectName("pencil")
        head = QHBoxLayout()
        head.setContentsMargins(FAR, NEAR, FAR, NEAR)
        head.setSpacing(FAR)
        head.addWidget(self.title)
        for link in self.links.values():
            link.setProperty("link", True)
            head.addWidget(link)
        head.addWidget(self.subtitle, 1)
        for part in (self.plates, self.baths, self.record):
            self.parts.addWidget(part)
        rows = QVBoxLayout(self)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addLayout(head)
        rows.addWidget(self.notice)
        rows.addWidget(self.parts, 1)
