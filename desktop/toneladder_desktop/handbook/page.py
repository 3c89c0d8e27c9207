"""One chapter as a page: Markdown in the window's own letters, found words marked."""

from collections.abc import Iterator, Mapping
from typing import Any

from PySide6.QtCore import QEvent, QUrl, Signal
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QResizeEvent,
    QTextBlock,
    QTextBlockFormat,
    QTextCharFormat,
    QTextCursor,
    QTextDocument,
    QTextListFormat,
)
from PySide6.QtWidgets import QFrame, QTextBrowser, QTextEdit, QWidget

from toneladder.handbook.chapters import Chapter
from toneladder.handbook.search import plain
from toneladder_desktop.drawing.style import (
    APART,
    FAR,
    NEAR,
    TIGHT,
    WIDE,
    Type,
    colours_of,
    font,
)

_FOCUS = """
QTextBrowser { border: 2px solid transparent; }
QTextBrowser:focus { border-color: palette(link); }
"""
_MEASURE = 600
_LINE_PERCENT = 118.0
_BULLETS = (QTextListFormat.Style.ListDisc, QTextListFormat.Style.ListCircle)
_SPACE = "\u2002"
_MARKDOWN = QTextDocument.ResourceType.MarkdownResource


class ChapterPage(QTextBrowser):
    """Shows one chapter of a book; links lead to others, and there is a way back.

    ``turned(name)`` says which chapter is open now, ``chapter`` holds its name.
    """

    turned = Signal(str)

    def __init__(self, book: Mapping[str, Chapter], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book = book
        self.chapter = ""
        self._heading: str = ""
        self._words: tuple[str, ...] = ()
        self.setOpenLinks(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setStyleSheet(_FOCUS)
        self.anchorClicked.connect(lambda url: self.read(url.toString()))
        self.sourceChanged.connect(self._turn)

    def read(self, name: str, heading: str = "", words: tuple[str, ...] = ()) -> None:
        """Open a chapter, at a heading of it if one is named, with these words marked."""
        if name not in self._book:
            return
        self._heading, self._words = heading, words
        if name == self.chapter:
            self._arrive()
        else:
            self.setSource(QUrl(name), _MARKDOWN)

    def loadResource(self, kind: int, url: QUrl | str) -> Any:  # noqa: ANN401, N802 - Qt's own
        """A chapter's text; nothing is ever fetched from elsewhere."""
        found = self._book.get(QUrl(url).toString())
        return found.text if found is not None and kind == _MARKDOWN.value else None

    def backward(self) -> None:
        """The chapter before, from its beginning."""
        self._heading, self._words = "", ()
        super().backward()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lines stay as long as is good to read."""
        super().resizeEvent(event)
        self._set_margins()

    def changeEvent(self, event: QEvent) -> None:
        """Other colours are worn at once."""
        super().changeEvent(event)
        if event.type() is QEvent.Type.PaletteChange and self.chapter:
            self._mark()

    def _turn(self, url: QUrl) -> None:
        """Another chapter is open; Qt's own source is still the one before."""
        self.chapter = url.toString()
        self.setAccessibleName(self._book[self.chapter].title)
        self._dress()
        self._arrive()
        self.turned.emit(self.chapter)

    def _dress(self) -> None:
        document = self.document()
        document.setIndentWidth(FAR + TIGHT)
        document.setUndoRedoEnabled(False)
        whole = QTextCursor(document)
        whole.beginEditBlock()  # laid out once, not once a block
        for block in self._blocks():
            _dress_block(block)
        whole.endEditBlock()
        self._set_margins()

    def _arrive(self) -> None:
        """At the heading that was named, with the words marked that were looked for."""
        self._mark()
        self._go_to(next((b for b in self._blocks() if _is_heading(b, self._heading)), None))

    def _blocks(self) -> Iterator[QTextBlock]:
        block = self.document().begin()
        while block.isValid():
            yield block
            block = block.next()

    def _go_to(self, block: QTextBlock | None) -> None:
        cursor = QTextCursor(block) if block is not None else QTextCursor(self.document())
        self.setTextCursor(cursor)
        top = 0 if block is None else self.document().documentLayout().blockBoundingRect(block).y()
        self.verticalScrollBar().setValue(max(round(top) - APART, 0))

    def _mark(self) -> None:
        """The words that were looked for, on a tint."""
        colours = colours_of(self)
        look = QTextCharFormat()
        look.setBackground(QColor(colours.tint))
        look.setForeground(QColor(colours.ink))
        found: list[QTextEdit.ExtraSelection] = []
        for block in self._blocks():
            found += (self._selection(block, start, end, look) for start, end in self._at(block))
        self.setExtraSelections(found)

    def _at(self, block: QTextBlock) -> list[tuple[int, int]]:
        """Where words of a block begin with one of those that were looked for."""
        text, places, start = block.text(), [], None
        for at, letter in enumerate(f"{text} "):
            if letter.isalnum():
                start = at if start is None else start
            elif start is not None:
                word = plain(text[start:at])
                if any(word.startswith(wanted) for wanted in self._words):
                    places.append((start, at))
                start = None
        return places

    def _selection(
        self, block: QTextBlock, start: int, end: int, look: QTextCharFormat
    ) -> QTextEdit.ExtraSelection:
        marked = QTextEdit.ExtraSelection()
        cursor = QTextCursor(block)
        cursor.setPosition(block.position() + start)
        cursor.setPosition(block.position() + end, QTextCursor.MoveMode.KeepAnchor)
        marked.cursor, marked.format = cursor, look
        return marked

    def _set_margins(self) -> None:
        frame = self.document().rootFrame()
        shape = frame.frameFormat()
        shape.setMargin(WIDE)
        shape.setRightMargin(max(WIDE, self.viewport().width() - _MEASURE - WIDE))
        frame.setFrameFormat(shape)


def _is_heading(block: QTextBlock, heading: str) -> bool:
    return bool(heading) and block.blockFormat().headingLevel() > 0 and block.text() == heading


def _dress_block(block: QTextBlock) -> None:
    """Letters and spacing of one block, by what it is."""
    level = block.blockFormat().headingLevel()
    shape = QTextBlockFormat()
    shape.setLineHeight(_LINE_PERCENT, QTextBlockFormat.LineHeightTypes.ProportionalHeight.value)
    if level:
        shape.setTopMargin(0 if level == 1 else WIDE)
        shape.setBottomMargin(APART if level == 1 else TIGHT)
    else:
        in_list = block.textList() is not None
        shape.setTopMargin(0)
        shape.setBottomMargin(TIGHT if in_list else NEAR + 2)
    cursor = QTextCursor(block)
    cursor.mergeBlockFormat(shape)
    if level:
        look = QTextCharFormat()
        look.setFont(font(Type.TITLE if level == 1 else Type.HEAD))
        cursor.movePosition(QTextCursor.MoveOperation.EndOfBlock, QTextCursor.MoveMode.KeepAnchor)
        cursor.setCharFormat(look)
    elif (listed := block.textList()) is not None and listed.format().style() in _BULLETS:
        bullet = QTextCharFormat()
        bullet.setFont(font(Type.SMALL))
        cursor.setBlockCharFormat(bullet)
        cursor.insertText(_SPACE)  # Qt draws the dot against the first letter
        shape.setTextIndent(-QFontMetricsF(font(Type.TEXT)).horizontalAdvance(_SPACE))
        cursor.mergeBlockFormat(shape)
