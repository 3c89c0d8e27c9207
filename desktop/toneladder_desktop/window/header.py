"""The head of the bench: the plate's title, and whether it is the sample."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QFocusEvent, QFontMetrics, QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLineEdit, QPushButton, QSizePolicy, QWidget

from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, NEAR, WIDE, Type, font
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.fittings.undo_through import UndoThrough

HEIGHT = 48
_LONGEST = 4000
_LEAST = 64


class Header(QWidget):
    """The plate's title, which can be written over, and what belongs to the sample."""

    renamed = Signal(str)
    own_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedHeight(HEIGHT)
        self._shown = ""
        self.title = QLineEdit(self)
        self.title.setAccessibleName(say("The plate's title"))
        self.title.setToolTip(say("The plate's title; write over it to rename"))
        self.title.setFont(font(Type.TITLE))
        self.title.setObjectName("title")
        self.title.setMaxLength(_LONGEST)
        self.title.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.title.returnPressed.connect(self._commit)
        self.title.textEdited.connect(self._widen)
        self.title.installEventFilter(self)
        UndoThrough(self.title, lambda: self.title.text() == self._shown)
        self.note = Label(self)
        self.note.setFont(font(Type.NOTE))
        self.note.setObjectName("pencil")
        self.own = QPushButton(say("Open your own picture"), self)
        self.own.clicked.connect(self.own_wanted)
        row = QHBoxLayout(self)
        row.setContentsMargins(NEAR - 2, 0, APART, 0)
        row.setSpacing(APART)
        row.addWidget(self.title)
        row.addWidget(self.note)
        row.addStretch(1)
        row.addWidget(self.own)

    def show_plate(self, title: str, note: str, *, sample: bool) -> None:
        """The open plate's title, and a note to it."""
        if title != self._shown or not self.title.hasFocus():
            self._shown = title
            self.title.setText(title)
        self.note.setText(note)
        self.own.setVisible(sample)
        self._widen()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """The whole title while it is written; Esc brings the old one back."""
        if isinstance(event, QFocusEvent):
            if event.type() is QEvent.Type.FocusIn:
                self.title.setText(self._shown)
            else:
                self._commit()
        elif (
            isinstance(event, QKeyEvent)
            and event.type() is QEvent.Type.KeyPress
            and event.key() == Qt.Key.Key_Escape
        ):
            self.title.setText(self._shown)
            return True
        return super().eventFilter(watched, event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """The title has what room is left."""
        super().resizeEvent(event)
        self._widen()

    def _widen(self) -> None:
        """As wide as the title, if there is room; else it is cut in its middle."""
        metrics = QFontMetrics(self.title.font())
        text = self.title.text() if self.title.hasFocus() else self._shown
        taken = self.note.sizeHint().width() + self.own.sizeHint().width() + 3 * WIDE
        room = max(_LEAST, self.width() - taken)
        self.title.setFixedWidth(max(_LEAST, min(metrics.horizontalAdvance(text) + WIDE, room)))
        if not self.title.hasFocus():
            shown = metrics.elidedText(text, Qt.TextElideMode.ElideMiddle, room - WIDE)
            self.title.setText(shown)
            self.title.setCursorPosition(0)

    def _commit(self) -> None:
        title = " ".join(self.title.text().split())
        if title != self._shown:
            self._shown = title
            self.renamed.emit(title)
        self._widen()
