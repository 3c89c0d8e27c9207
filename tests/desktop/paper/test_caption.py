"""The caption: its words, short where there is little room, readable on any paper."""

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QMenu
from pytestqt.qtbot import QtBot

from toneladder_desktop.drawing.style import SURROUND
from toneladder_desktop.paper.caption import Caption

LONG = ("Preview", "stopped after step 5", "as printed", "71 % of true size")
SHORT = ("Preview", "step 5", "as printed", "71 %")


@pytest.fixture
def caption(qtbot: QtBot) -> Caption:
    caption = Caption()
    qtbot.addWidget(caption)
    caption.hang([(name, QMenu(caption)) for name in ("Shown", "Stopped", "Side", "Scale")])
    return caption


def texts(caption: Caption) -> tuple[str, ...]:
    return tuple(part.text() for part in caption.parts)


def test_where_there_is_room_it_says_everything(caption: Caption) -> None:
    caption.tell(LONG, SHORT, 800)
    assert texts(caption) == LONG
    assert caption.sizeHint().width() <= 800


def test_where_there_is_little_room_it_is_short_but_spoken_whole(caption: Caption) -> None:
    caption.tell(LONG, SHORT, 380)
    assert texts(caption) == SHORT
    assert caption.sizeHint().width() <= 380
    assert caption.parts[1].accessibleName() == "Stopped: stopped after step 5"


@pytest.mark.parametrize("paper", ["#f4efe3", "#efe6d0", "#101010", "#777777", "#808080"])
def test_it_can_be_read_on_any_paper(caption: Caption, paper: str) -> None:
    """WCAG 2.2, 1.4.3: large text has at least 3:1; on usual papers it is far more."""
    caption.lie_on(QColor(paper), 0, caption.width())
    lights = sorted(
        (0.2126 * red + 0.7152 * green + 0.0722 * blue)
        for red, green, blue in (
            [((part + 0.055) / 1.055) ** 2.4 for part in (c.redF(), c.greenF(), c.blueF())]
            for c in (caption.ink(), QColor(paper))
        )
    )
    assert (lights[1] + 0.05) / (lights[0] + 0.05) >= 4.0


def test_a_part_without_words_is_left_out(caption: Caption) -> None:
    caption.tell(("Picture", "", "as printed", "71 %"), ("Picture", "", "as printed", "71 %"), 900)
    assert [part.isHidden() for part in caption.parts] == [False, True, False, False]
    caption.tell(LONG, SHORT, 900)
    assert not caption.parts[1].isHidden()


def test_a_caption_wider_than_its_paper_goes_on_over_the_surround(caption: Caption) -> None:
    caption.tell(LONG, SHORT, 900)
    caption.resize(caption.sizeHint())
    caption.lie_on(QColor("#F4EFE3"), 40, caption.width() - 40)
    image = caption.grab().toImage()
    assert image.pixelColor(60, 1).name() == "#f4efe3"
    assert image.pixelColor(3, 1).name() == SURROUND.lower()
