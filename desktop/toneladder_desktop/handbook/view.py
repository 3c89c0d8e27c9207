"""The handbook's window: a search above the chapters, and the page beside them."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from toneladder.handbook.chapters import Chapter
from toneladder.handbook.search import Hit, search, words_of
from toneladder.wording import say
from toneladder_desktop.drawing.style import APART, FAR, NEAR, TIGHT
from toneladder_desktop.fittings.apart import Apart
from toneladder_desktop.handbook.page import ChapterPage

_SIDE = 250
_SIZE = (930, 660)
_STYLE = f"""
QListWidget {{ background: transparent; outline: none; }}
QListWidget::item {{ padding: {TIGHT}px {NEAR}px; border: 2px solid transparent; }}
QListWidget::item:selected {{ background: palette(highlight); color: palette(highlighted-text); }}
QListWidget::item:disabled {{ color: palette(placeholder-text); }}
QListWidget::item:selected:focus {{ border-color: palette(link); }}
"""
_TO_THE_LIST = (Qt.Key.Key_Down, Qt.Key.Key_Return, Qt.Key.Key_Enter)
_HIT = Qt.ItemDataRole.UserRole


class HandbookWindow(Apart):
    """Chapters at the left, or where a word stands; what is picked there is read at the right."""

    def __init__(self, book: Sequence[Chapter], parent: QWidget) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Handbook"))
        self._book = {chapter.name: chapter for chapter in book}
        self.sought = QLineEdit(self)
        self.sought.setPlaceholderText(say("Look for"))
        self.sought.setAccessibleName(say("Look for words in the handbook"))
        self.sought.setClearButtonEnabled(False)
        self.sought.textChanged.connect(self._list)
        self.sought.installEventFilter(self)
        self.list = QListWidget(self)
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setStyleSheet(_STYLE)
        self.list.setWordWrap(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.currentItemChanged.connect(self._picked)
        self.page = ChapterPage(self._book, self)
        self.page.turned.connect(lambda _name: self._follow())
        self._lay_out()
        self._list("")
        for key, act in (
            (QKeySequence.StandardKey.Find, self._seek),
            (QKeySequence.StandardKey.Back, self.page.backward),
        ):
            QShortcut(QKeySequence(key), self, act)

    def read(self, name: str) -> None:
        """Open a chapter by its name."""
        self.sought.clear()
        self.page.read(name)
        self.list.setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc forgets what was looked for, and then closes the book."""
        if event.key() != Qt.Key.Key_Escape:
            super().keyPressEvent(event)
        elif self.sought.text():
            self.sought.clear()
            self.sought.setFocus()
        else:
            self.close()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Down and Enter lead from the search to what it found."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() is QEvent.Type.KeyPress
            and event.key() in _TO_THE_LIST
        ):
            self.list.setFocus()
            return True
        return super().eventFilter(watched, event)

    def _seek(self) -> None:
        self.sought.setFocus()
        self.sought.selectAll()

    def _list(self, words: str) -> None:
        """All chapters, or the places where ``words`` stand; the first of those is opened."""
        self.list.blockSignals(True)
        self.list.clear()
        hits = search(tuple(self._book.values()), words)
        if words.strip():
            self.list.setAccessibleName(say("Found in the handbook"))
            for hit in hits:
                self._add(_words_of(hit), hit)
            if not hits:
                self._add(say("Nowhere in the handbook. Try a shorter word."), None)
        else:
            self.list.setAccessibleName(say("Chapters"))
            for chapter in self._book.values():
                self._add(chapter.title, chapter.name)
        self.list.blockSignals(False)
        if hits:
            self.list.setCurrentRow(0)
        elif not words.strip():
            self._follow()

    def _add(self, words: str, what: Hit | str | None) -> None:
        item = QListWidgetItem(words)
        item.setData(_HIT, what)
        if what is None:
            item.setFlags(Qt.ItemFlag.NoItemFlags)
        self.list.addItem(item)

    def _picked(self, item: QListWidgetItem | None, _before: object = None) -> None:
        what = None if item is None else item.data(_HIT)
        if isinstance(what, Hit):
            wanted = words_of(self.sought.text())
            self.page.read(what.chapter.name, what.heading, wanted)
        elif isinstance(what, str):
            self.page.read(what)

    def _follow(self) -> None:
        """The chapter that is read is the one picked out."""
        if self.sought.text().strip():
            return
        self.list.blockSignals(True)
        for row in range(self.list.count()):
            if self.list.item(row).data(_HIT) == self.page.chapter:
                self.list.setCurrentRow(row)
        self.list.blockSignals(False)

    def _lay_out(self) -> None:
        side = QVBoxLayout()
        side.setContentsMargins(FAR, FAR, APART, 0)
        side.setSpacing(NEAR)
        side.addWidget(self.sought)
        side.addWidget(self.list, 1)
        frame = QWidget(self)
        frame.setFixedWidth(_SIDE)
        frame.setLayout(side)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        row.addWidget(frame)
        row.addWidget(self.page, 1)
        room = self.screen().availableGeometry()
        self.resize(min(_SIZE[0], room.width()), min(_SIZE[1], room.height() - 40))


def _words_of(hit: Hit) -> str:
    title, heading = hit.chapter.title, hit.heading
    place = title if heading == title else say("{title}: {heading}", title=title, heading=heading)
    return f"{place}\n{hit.excerpt}" if hit.excerpt else place
