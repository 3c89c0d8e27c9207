"""What is preferred is kept, and a spoilt file is no obstacle."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.order.values import Rates
from toneladder.quantities import Manner
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.drawing.style import Scheme

pytestmark = pytest.mark.usefixtures("qapp")


def test_what_is_preferred_is_there_the_next_day(tmp_path: Path, qtbot: QtBot) -> None:
    file = tmp_path / "preferences.ini"
    preferences = Preferences(file)
    zinc = Conditions(metal=Metal.ZINC, mordant=Mordant.COPPER_SULPHATE_SALT)
    with qtbot.waitSignal(preferences.changed):
        preferences.change(
            language="de",
            manner=Manner(",", imperial=True, fahrenheit=True),
            scheme=Scheme.DARK,
            paper="letter",
            screen_px_per_mm=5.25,
            ladder_key=False,
            conditions=zinc,
            rates=Rates(fill_cm2_per_min=2.5, dry_min=30.0),
            least_gain=0.25,
            steady=True,
        )
    assert Preferences(file).now == preferences.now


def test_a_wish_that_holds_already_is_no_change(tmp_path: Path, qtbot: QtBot) -> None:
    preferences = Preferences(tmp_path / "preferences.ini")
    preferences.change(paper="letter")
    with qtbot.assertNotEmitted(preferences.changed):
        preferences.change(paper="letter")


@pytest.mark.parametrize(
    "text",
    [
        "scheme=purple",
        "language=klingonisch",
        "metal=wood",
        "screen_px_per_mm=a lot",
        "pace_place_s=-1",
        "pace_dry_min=nan",
        "least_gain=7",
        "\x00\x01",
        "[General",
        "",
    ],
)
def test_a_spoilt_file_gives_what_is_usual(tmp_path: Path, qapp: QApplication, text: str) -> None:
    assert qapp is not None
    file = tmp_path / "preferences.ini"
    usual = Preferences(tmp_path / "none.ini").now
    file.write_text(f"[General]\n{text}\n")
    assert Preferences(file).now == usual


@pytest.mark.parametrize("measured", ["nan", "inf", "-1", "1e308", "none"])
def test_a_screen_that_cannot_be_is_not_believed(tmp_path: Path, measured: str) -> None:
    file = tmp_path / "preferences.ini"
    file.write_text(f"[General]\nscreen_px_per_mm={measured}\n")
    assert Preferences(file).now.screen_px_per_mm == 0.0
