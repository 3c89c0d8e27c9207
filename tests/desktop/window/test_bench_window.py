"""The window driven by keys alone, and what it says, offers and asks."""

import os
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import QMimeData, Qt, QUrl
from PySide6.QtGui import QAccessible, QAction, QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QFileDialog,
    QLineEdit,
    QMenu,
    QMessageBox,
    QSpinBox,
    QWidget,
)
from pytestqt.qtbot import QtBot

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Mordant, Varnish
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.bench.look import View
from toneladder_desktop.card.decision import Decision
from toneladder_desktop.sheets.pages_window import SheetsWindow
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")

PLENTY_MS = 60_000
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier


def press(key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """One key, to whatever has the keys."""
    QTest.keyClick(keeper(), key, modifier)


def keeper() -> QWidget:
    """Whatever has the keys."""
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def menu_of(action: QAction) -> QMenu:
    menu = action.menu()
    assert isinstance(menu, QMenu)
    return menu


def answer_file_dialog(qtbot: QtBot, path: Path) -> None:
    """Paste a path into the file dialog that is open, and Enter."""
    qtbot.waitUntil(lambda: isinstance(QApplication.activeModalWidget(), QFileDialog))
    dialog = QApplication.activeModalWidget()
    assert isinstance(dialog, QFileDialog)
    line = dialog.findChild(QLineEdit, "fileNameEdit")
    assert isinstance(line, QLineEdit)
    QGuiApplication.clipboard().setText(str(path))
    QTest.keyClick(line, Qt.Key.Key_A, CTRL)
    QTest.keyClick(line, Qt.Key.Key_V, CTRL)
    window = dialog.parentWidget()
    assert isinstance(window, QWidget)
    gone: list[bool] = []
    dialog.destroyed.connect(lambda: gone.append(True))
    QTest.keyClick(line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bool(gone))
    window.activateWindow()  # a desktop does that, the platform without a screen does not
    qtbot.waitActive(window)


def until_planned(qtbot: QtBot, window: BenchWindow) -> None:
    qtbot.waitUntil(lambda: window.workings.plan is not None, timeout=PLENTY_MS)


def question() -> QMessageBox:
    box = QApplication.activeModalWidget()
    assert isinstance(box, QMessageBox)
    return box


def test_by_keys_alone_a_picture_becomes_a_saved_plate_that_opens_again_the_same(
    window: BenchWindow, picture_file: Path, tmp_path: Path, qtbot: QtBot
) -> None:
    qtbot.waitActive(window)
    press(Qt.Key.Key_O, CTRL)
    answer_file_dialog(qtbot, picture_file)
    until_planned(qtbot, window)
    sides = window.top.plate.sides.line
    assert sides.hasFocus()  # a new plate asks for its size first
    QTest.keyClicks(sides, "9x6 cm")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Up, CTRL)
    press(Qt.Key.Key_Up, CTRL)
    plate = window.bench.plate
    assert plate is not None
    assert (plate.size.width_mm, plate.size.height_mm, plate.tones.count) == (90.0, 60.0, 7)
    press(Qt.Key.Key_Z, CTRL)
    assert window.bench.plate is not None
    assert window.bench.plate.tones.count == 6
    press(Qt.Key.Key_Z, CTRL | SHIFT)
    assert window.bench.plate == plate
    until_planned(qtbot, window)
    press(Qt.Key.Key_S, CTRL)
    with qtbot.waitSignal(window.filing.saved, timeout=PLENTY_MS):
        answer_file_dialog(qtbot, tmp_path / "hill")
    path = tmp_path / "hill.plate"
    assert read_plate(path).plate == plate
    press(Qt.Key.Key_Up, CTRL)
    press(Qt.Key.Key_S, CTRL)
    qtbot.waitUntil(lambda: not window.bench.unsaved, timeout=PLENTY_MS)
    press(Qt.Key.Key_Down, CTRL)
    press(Qt.Key.Key_S, CTRL)
    qtbot.waitUntil(lambda: not window.bench.unsaved, timeout=PLENTY_MS)
    with qtbot.waitSignal(window.filing.opened, timeout=PLENTY_MS):
        press(Qt.Key.Key_O, CTRL)
        answer_file_dialog(qtbot, path)
    assert window.bench.plate == plate
    assert window.bench.undo.count() == 0
    until_planned(qtbot, window)
    press(Qt.Key.Key_P, CTRL)
    sheets = window.findChild(SheetsWindow)
    assert isinstance(sheets, SheetsWindow)
    qtbot.waitUntil(sheets.pdf_button.isEnabled, timeout=PLENTY_MS)
    qtbot.waitActive(sheets)
    for _ in range(10):
        if sheets.pdf_button.hasFocus():
            break
        press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Space)
    answer_file_dialog(qtbot, tmp_path / "hill.pdf")
    qtbot.waitUntil(lambda: "Saved as hill.pdf" in sheets.said.text(), timeout=PLENTY_MS)
    assert len(PdfReader(tmp_path / "hill.pdf").pages) == len(sheets.sheets)


def test_tab_reaches_every_part_and_comes_round(planned: BenchWindow, qtbot: QtBot) -> None:
    qtbot.waitActive(planned)
    planned.top.card.open(planned.top.tones)
    planned.top.paper.setFocus()
    seen: list[QWidget] = []
    for _ in range(60):
        press(Qt.Key.Key_Tab)
        widget = keeper()
        if widget in seen:
            break
        seen.append(widget)
    top = planned.top
    for part in (top.paper, top.day, top.day_bar.act, top.header.title, top.tones.number):
        assert part in seen
    assert all(row.head in seen for row in top.card.rows)
    assert all(part in seen for part in planned.caption.parts)
    assert any(top.ladder.isAncestorOf(widget) or widget is top.ladder for widget in seen)


def test_every_control_has_a_name(planned: BenchWindow) -> None:
    planned.top.notice.tell("Something.", (("Do it", int),))
    kinds = (QAbstractButton, QLineEdit, QComboBox, QSpinBox)
    top = planned.top
    controls: set[QWidget] = {top.paper, top.ladder, top.day, top.card}
    for row in top.card.rows:
        top.card.open(row.decision)
        controls |= {
            widget
            for widget in planned.findChildren(QWidget)
            if isinstance(widget, kinds)
            and widget.isVisible()
            and not isinstance(widget.parent(), (QSpinBox, QComboBox))
        }
    assert len(controls) > 30
    for control in controls:
        spoken = QAccessible.queryAccessibleInterface(control)
        assert spoken is not None
        assert spoken.text(QAccessible.Text.Name).strip(), control


def test_every_menu_has_its_own_letters_and_no_key_is_given_twice(window: BenchWindow) -> None:
    for top in window.menuBar().actions():
        letters = [mnemonic(action) for action in menu_of(top).actions()]
        letters = [letter for letter in letters if letter]
        assert len(letters) == len(set(letters)), (top.text(), letters)
    keys = [key for _, key in window.menus.shortcuts()]
    assert len(keys) == len(set(keys))
    assert {"Ctrl+Q", "Ctrl+,", "Ctrl+O", "Ctrl+S", "Ctrl+P", "Ctrl+Z"} <= set(keys)


def mnemonic(action: QAction) -> str:
    _, found, rest = action.text().replace("&&", "").partition("&")
    return rest[:1].lower() if found else ""


def test_undo_says_what_it_takes_back(planned: BenchWindow) -> None:
    planned.add_tones(1)
    assert planned.menus.undo.text() == "&Undo: Make it 6 tones"
    assert planned.top.last_act.text() == "Undo: Make it 6 tones"
    planned.menus.undo.trigger()
    assert planned.menus.redo.text() == "&Redo: Make it 6 tones"
    assert not planned.menus.undo.isEnabled()


def test_the_title_marks_what_is_unsaved(planned: BenchWindow) -> None:
    assert not planned.isWindowModified()
    title = planned.top.header.title
    title.setFocus()
    title.selectAll()
    QTest.keyClicks(title, "Hill  at noon")
    QTest.keyClick(title, Qt.Key.Key_Return)
    assert planned.bench.name() == "Hill at noon"
    assert planned.isWindowModified()
    assert planned.windowTitle() == "Hill at noon[*] – Tone Ladder"


def test_the_sample_is_marked_tried_and_left_without_a_question(
    window: BenchWindow, qtbot: QtBot
) -> None:
    window.filing.open_sample()
    until_planned(qtbot, window)
    assert window.top.header.note.text() == "sample plate: try anything"
    assert window.top.header.own.isVisible()
    window.add_tones(1)
    assert not window.bench.unsaved
    assert window.close()


def test_closing_with_changes_asks_with_verbs_and_can_be_thought_better_of(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    planned.add_tones(1)
    assert not planned.close()
    box = question()
    button = QMessageBox.StandardButton
    texts = [box.button(which).text() for which in (button.Save, button.Discard, button.Cancel)]
    assert texts == ["Save", "Discard", "Keep working"]
    box.button(button.Cancel).click()
    assert planned.isVisible()
    planned.close()
    question().button(button.Discard).click()
    qtbot.waitUntil(lambda: not planned.isVisible())


def test_closing_can_save_first(planned: BenchWindow, tmp_path: Path, qtbot: QtBot) -> None:
    planned.add_tones(1)
    planned.bench.now_saved(tmp_path / "hill.plate", planned.bench.plate)  # type: ignore[arg-type]
    planned.add_tones(1)
    planned.close()
    question().button(QMessageBox.StandardButton.Save).click()
    qtbot.waitUntil(lambda: not planned.isVisible(), timeout=PLENTY_MS)
    assert read_plate(tmp_path / "hill.plate").plate == planned.bench.plate


def test_an_error_is_one_sentence_above_the_paper_until_it_is_put_away(
    window: BenchWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    bad = tmp_path / "letter.png"
    bad.write_text("Dear etcher")
    with qtbot.waitSignal(window.workings.failed):
        window.open(bad)
    notice = window.top.notice
    assert notice.isVisible()
    assert notice.sentence.text().startswith("letter.png is not a")
    assert "Traceback" not in notice.sentence.text()
    notice.close_button.click()
    assert not notice.isVisible()


def test_a_picture_dropped_on_an_open_plate_asks_what_it_is_for(
    planned: BenchWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    other = QImage(120, 80, QImage.Format.Format_Grayscale8)
    other.fill(128)
    other.save(str(tmp_path / "other.png"))
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(tmp_path / "other.png"))])
    assert planned.filing.takes(mime)
    before = planned.bench.plate
    with qtbot.waitSignal(planned.workings.opened, timeout=PLENTY_MS):
        planned.filing.open_from(mime)
    assert planned.bench.plate is before
    new, same = planned.top.notice._buttons
    assert (new.text(), same.text()) == ("A new plate", "This plate's picture")
    same.click()
    assert planned.bench.plate is not None
    assert planned.bench.plate.picture.name == "other.png"
    planned.bench.undo.undo()
    assert planned.bench.plate is before


def test_a_copied_picture_can_be_pasted(window: BenchWindow, qtbot: QtBot) -> None:
    image = QImage(90, 60, QImage.Format.Format_RGB32)
    image.fill(0xFF808080)
    QGuiApplication.clipboard().setImage(image)
    with qtbot.waitSignal(window.filing.opened, timeout=PLENTY_MS):
        window.paste()
    assert window.bench.plate is not None
    assert (window.bench.plate.picture.width, window.bench.plate.picture.height) == (90, 60)


def test_nothing_to_paste_is_said(window: BenchWindow) -> None:
    QGuiApplication.clipboard().setText("no picture")
    window.paste()
    assert "no picture to paste" in window.top.notice.sentence.text()


def test_a_plate_that_was_open_is_among_the_recent_ones_and_a_missing_one_is_greyed(
    window: BenchWindow, lying: Lying, tmp_path: Path, qtbot: QtBot
) -> None:
    path = tmp_path / "hill.plate"
    curve = starting_curve(lying.plate.conditions)
    write_plate(path, PlateFile(lying.plate, curve, lying.picture))
    with qtbot.waitSignal(window.filing.opened, timeout=PLENTY_MS):
        window.open(path)
    window.recent.add(tmp_path / "gone.plate")
    qtbot.waitUntil(lambda: len(window.recent.files()) == 2, timeout=PLENTY_MS)
    files = menu_of(window.menuBar().actions()[0]).actions()
    menu = menu_of(next(action for action in files if action.text() == "Open &recent"))
    menu.aboutToShow.emit()
    gone, there = menu.actions()[:2]
    qtbot.waitUntil(lambda: not gone.isEnabled(), timeout=PLENTY_MS)
    assert (there.text(), there.isEnabled()) == ("hill.plate", True)
    assert (gone.text(), gone.isEnabled()) == ("gone.plate: not there any more", False)


def test_a_step_chosen_in_the_day_is_shown_on_the_paper_and_in_the_caption(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    planned.top.day.step_chosen.emit(2)
    assert planned.look.step == 2
    assert planned.caption.parts[1].text() == "stopped after step 2"
    assert not planned.top.paper.fine
    qtbot.waitUntil(lambda: planned.top.paper.fine, timeout=PLENTY_MS)


def test_the_caption_and_the_menu_are_one(planned: BenchWindow) -> None:
    planned.look.views.actions()[1].trigger()
    assert planned.look.view is View.TONES
    assert planned.caption.parts[0].text() == "Tones"
    assert planned.caption.parts[0].accessibleName() == "Shown: Tones"
    planned.caption.parts[2].menu().actions()[1].trigger()
    assert planned.top.paper.mirrored


def test_true_size_is_a_millimetre_to_a_millimetre(planned: BenchWindow) -> None:
    planned.showing.measure_screen(5.0)
    planned.showing.true_size()
    assert planned.top.paper.device_px_per_mm == pytest.approx(5.0)
    assert planned.caption.parts[3].text() == "true size"


def choose(choice: QWidget, text: str) -> None:
    """Choose an answer from a list, as a hand does."""
    answers = choice.findChild(QComboBox)
    assert isinstance(answers, QComboBox)
    answers.setCurrentText(text)
    answers.activated.emit(answers.currentIndex())


def test_zinc_takes_its_own_bath_with_it_and_is_refused_the_other(planned: BenchWindow) -> None:
    choose(planned.top.plate.metal, "zinc")
    assert planned.bench.plate is not None
    assert planned.bench.plate.conditions.mordant is Mordant.COPPER_SULPHATE_SALT
    before = planned.bench.plate
    bath = planned.top.bath
    planned.top.card.open(bath)
    choose(bath.mordant, "ferric chloride")
    assert planned.bench.plate is before
    assert bath.refused.isVisible()
    assert bath.refused.text().startswith("Zinc must not go into ferric chloride")
    assert bath.mordant.list.currentText() == "copper sulphate with salt"
    planned.add_tones(1)
    assert bath.refused.isVisible()
    choose(bath.mordant, "nitric acid")
    assert bath.mordant.list.currentText() == "nitric acid"
    assert bath.refused.isHidden()


def test_one_decision_is_open_at_a_time_and_the_others_fold_where_room_is_short(
    planned: BenchWindow,
) -> None:
    card = planned.top.card
    heads = {row.decision: row.head for row in card.rows}
    planned.resize(1280, 620)
    for decision in heads:
        card.open(decision)
        opened = [d for d, head in heads.items() if head.isChecked()]
        assert opened == [decision]
        assert isinstance(decision, Decision)
        assert decision.isVisible()
    closed, opened_head = heads[planned.top.tones], heads[planned.top.printing]
    assert closed.sizeHint().height() < opened_head.sizeHint().height()


def test_numbers_of_tones_are_compared_and_one_is_taken_by_keys(
    planned: BenchWindow, qtbot: QtBot
) -> None:
    qtbot.waitActive(planned)
    press(Qt.Key.Key_H, CTRL)
    assert planned.pages.currentIndex() == 1
    press(Qt.Key.Key_Right)
    press(Qt.Key.Key_Return)
    assert planned.pages.currentIndex() == 0
    assert planned.bench.plate is not None
    assert planned.bench.plate.tones.count == 6
    assert planned.bench.undo.undoText() == "Make it 6 tones"
    planned.how_many.open()
    press(Qt.Key.Key_Escape)
    assert planned.pages.currentIndex() == 0
    assert planned.bench.undo.count() == 1


def test_what_was_used_last_is_where_the_next_plate_begins(
    planned: BenchWindow, make_window: Callable[[], BenchWindow], picture_file: Path, qtbot: QtBot
) -> None:
    plate = planned.bench.plate
    assert plate is not None
    conditions = replace(plate.conditions, varnish=Varnish.ACRYLIC)
    planned.bench.change("Acrylic", replace(plate, conditions=conditions))
    other = make_window()
    with qtbot.waitSignal(other.filing.opened, timeout=PLENTY_MS):
        other.open(picture_file)
    assert other.bench.plate is not None
    assert other.bench.plate.conditions.varnish is Varnish.ACRYLIC


OPENING = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.start import open_window

app = QApplication([])

def look() -> None:
    windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, BenchWindow)]
    if windows and all(w.furnished and w.workings.plan is not None for w in windows):
        assert not any(w.windowIcon().isNull() for w in windows)
        timer.stop()
        print(sorted(w.bench.name() for w in windows), flush=True)
        QApplication.closeAllWindows()

timer = QTimer(interval=100)
timer.timeout.connect(look)
timer.start()
sys.exit(open_window([Path(name) for name in sys.argv[1:]]))
"""


HALFWAY = """
import sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from toneladder_desktop.window.bench_window import BenchWindow
from toneladder_desktop.window.start import open_window

app = QApplication([])

def look() -> None:
    for window in QApplication.topLevelWidgets():
        if isinstance(window, BenchWindow) and hasattr(window, "bench"):
            timer.stop()
            print(window.furnished, hasattr(window, "menus"), flush=True)
            window.close()

timer = QTimer(interval=0)
timer.timeout.connect(look)
timer.start()
sys.exit(open_window([]))
"""


def test_a_window_that_is_closed_while_it_is_filled_ends_well() -> None:
    done = subprocess.run(
        [sys.executable, "-c", HALFWAY],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, done.stdout, done.stderr) == (0, "False False\n", "")


@pytest.mark.parametrize("named", [False, True], ids=["the sample", "two pictures"])
def test_the_program_opens_what_was_named_or_the_sample_and_ends_well(
    picture_file: Path,
    named: bool,
) -> None:
    done = subprocess.run(
        [sys.executable, "-c", OPENING, *([str(picture_file)] * 2 if named else [])],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        capture_output=True,
        text=True,
        check=False,
    )
    names = ["Hill and sun", "Hill and sun"] if named else ["Breakwater at dusk"]
    assert (done.returncode, done.stdout) == (0, f"{names}\n"), done.stderr
    assert "Traceback" not in done.stderr


def test_heavy_libraries_wait_for_the_first_request() -> None:
    """The window is there before what works the plate out is loaded."""
    code = (
        "import sys; import toneladder_desktop.window.furnishing; "
        "print([m for m in ('numpy', 'scipy', 'PIL', 'skimage', 'pint', 'pydantic') "
        "if m in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    assert done.stdout == "[]\n"
