"""Pencil notes in the margin of the paper: seen where there is room, in nobody's way."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from toneladder.picture.values import PlateSize
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.paper.margin_notes import Margin, MarginNotes
from toneladder_desktop.paper.paper import Paper

NOTES = {Margin.TOP_LEFT: "One thing", Margin.TOP_RIGHT: "Another", Margin.RIGHT: "A third"}


@pytest.fixture
def paper(qtbot: QtBot) -> Paper:
    paper = Paper()
    qtbot.addWidget(paper)
    paper.resize(700, 500)
    paper.lay(PlateSize(200.0, 150.0), InkAndPaper())
    paper.show()
    return paper


def written(paper: Paper, notes: MarginNotes) -> tuple[bool, bool, bool]:
    """Whether anything is written above at the left, above at the right, beside."""
    image = QImage(notes.size(), QImage.Format.Format_ARGB32)
    image.fill(Qt.GlobalColor.transparent)
    notes.render(image, renderFlags=QWidget.RenderFlag.DrawChildren)
    plate = paper.plate()

    def ink(left: float, top: float, right: float, bottom: float) -> bool:
        return any(
            image.pixelColor(x, y).alpha() > 0
            for x in range(round(left), round(right))
            for y in range(round(top), round(bottom))
        )

    middle = plate.center().x()
    assert not ink(plate.left(), plate.top(), plate.right(), plate.bottom())
    return (
        ink(plate.left(), 0, middle, plate.top()),
        ink(middle, 0, plate.right(), plate.top()),
        ink(plate.right(), plate.top(), paper.width(), plate.bottom()),
    )


def test_each_note_stands_in_its_margin_and_none_on_the_print(paper: Paper) -> None:
    notes = MarginNotes(paper)
    notes.show_notes(NOTES)
    assert written(paper, notes) == (True, True, True)
    notes.show_notes({Margin.TOP_RIGHT: "Another"})
    assert written(paper, notes) == (False, True, False)


def test_what_has_no_room_is_left_out(paper: Paper) -> None:
    notes = MarginNotes(paper)
    long = "a note that is much longer than the print is wide, " * 3
    notes.show_notes({Margin.TOP_LEFT: long, Margin.TOP_RIGHT: "Another", Margin.RIGHT: long})
    assert written(paper, notes) == (False, True, False)
    paper.zoom(0.05)
    notes.show_notes(NOTES)
    assert written(paper, notes) == (False, False, False)


def test_a_hand_reaches_the_paper_through_them(paper: Paper) -> None:
    notes = MarginNotes(paper)
    notes.show_notes(NOTES)
    assert notes.testAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
    assert notes.accessibleName() == "One thing. Another. A third"
    notes.show_notes({})
    assert notes.isHidden()
