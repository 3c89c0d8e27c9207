"""The studio book, driven: what is saved is entered, what is wanted is done, trouble is told."""

import os
import sqlite3
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton, QTableWidget
from pytestqt.qtbot import QtBot
from tests.desktop.book.conftest import (
    PLENTY_MS,
    STRIP,
    TALL,
    TRAY,
    Look,
    answer,
    page,
    reading_of,
    shown,
)

from toneladder.bite.values import Metal, Mordant
from toneladder.book.baths import bath_called, list_baths, use_of
from toneladder.book.giving import read_bath
from toneladder.book.opening import open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.prints import proofs_of, pulls_of
from toneladder.book.strips import list_strips
from toneladder.book.values import PlateEntry, PullKind
from toneladder.plate.identity import identity_of
from toneladder.proof.values import ToneReading
from toneladder.quantities import Manner, write_bite
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.book.asked import GiveBath, KeepBath, TakeIn
from toneladder_desktop.book.ledger import Ledger
from toneladder_desktop.book.work import copy_of
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def saved(window: BenchWindow, path: Path, qtbot: QtBot) -> None:
    """Save the open plate, and wait until the book has it."""
    with qtbot.waitSignal(window.keeping.answered, timeout=PLENTY_MS):
        window.workings.save(path)


def plates_shown(window: BenchWindow, qtbot: QtBot, number: int) -> None:
    qtbot.waitUntil(lambda: page(window).plates.ledger.rowCount() == number, timeout=PLENTY_MS)


def baths_shown(window: BenchWindow, qtbot: QtBot, number: int) -> None:
    qtbot.waitUntil(lambda: page(window).baths.ledger.rowCount() == number, timeout=PLENTY_MS)


def test_a_saved_plate_is_in_the_book_with_a_picture_of_its_print(
    planned: BenchWindow, tmp_path: Path, qtbot: QtBot, look: Look
) -> None:
    saved(planned, tmp_path / "hill.plate", qtbot)
    plate = planned.bench.plate
    assert plate is not None
    (kept,) = look(list_plates)
    assert kept.plate.identity == identity_of(plate)
    assert (kept.plate.title, kept.plate.metal) == ("Hill", Metal.COPPER)
    assert kept.plate.path == str(tmp_path / "hill.plate")
    assert (kept.plate.ink, kept.plate.paper) == ("black", "warm white")
    picture = look(lambda book: thumbnail_of(book, identity_of(plate)))
    assert isinstance(picture, bytes)
    assert picture.startswith(b"\x89PNG")


def test_saving_twice_keeps_one_entry_and_a_new_title_changes_it(
    planned: BenchWindow, tmp_path: Path, qtbot: QtBot, look: Look
) -> None:
    saved(planned, tmp_path / "hill.plate", qtbot)
    plate = planned.bench.plate
    assert plate is not None
    planned.bench.change("", replace(plate, title="Hill, second state"))
    saved(planned, tmp_path / "hill.plate", qtbot)
    (kept,) = look(list_plates)
    assert kept.plate.title == "Hill, second state"


def test_a_book_that_cannot_be_written_never_blocks_saving(
    planned: BenchWindow, tmp_path: Path, path: Path, qtbot: QtBot
) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(b"no book at all " * 100)
    with qtbot.waitSignal(planned.keeping.told, timeout=PLENTY_MS) as told:
        planned.workings.save(tmp_path / "hill.plate")
    assert (tmp_path / "hill.plate").is_file()
    assert told.args[0].startswith("The plate is saved, but it is not entered in the studio book.")
    assert told.args[0] in planned.top.notice.sentence.text()


def test_a_window_that_closes_upon_saving_has_entered_the_plate_and_copied_the_book(
    planned: BenchWindow, tmp_path: Path, path: Path, qtbot: QtBot, look: Look
) -> None:
    bench = planned.bench
    assert bench.lying is not None
    bench.lay(replace(bench.lying, path=tmp_path / "hill.plate"), unsaved=True)
    planned.filing.save(planned.close)
    qtbot.waitUntil(lambda: not planned.isVisible(), timeout=PLENTY_MS)
    assert len(look(list_plates)) == 1
    with open_book(copy_of(path)) as copy:
        assert len(list_plates(copy)) == 1


def test_a_damaged_book_is_never_copied_over_a_good_copy(window: BenchWindow, filled: Path) -> None:
    good = copy_of(filled)
    good.write_bytes(b"yesterday's copy")
    os.utime(good, (1e9, 1e9))
    filled.write_bytes(filled.read_bytes()[:5000])
    window.close()
    assert good.read_bytes() == b"yesterday's copy"


def test_an_empty_book_says_what_will_be_in_it_and_is_not_begun_by_looking(
    window: BenchWindow, path: Path, qtbot: QtBot
) -> None:
    window.book.open()
    view = page(window)
    qtbot.waitUntil(view.plates.empty.isVisible, timeout=PLENTY_MS)
    assert view.plates.empty.text().startswith("No plate was kept yet")
    assert not view.plates.open.isEnabled()
    window.book.open_baths()
    qtbot.waitUntil(view.baths.empty.isVisible, timeout=PLENTY_MS)
    assert view.baths.empty.text().startswith("No bath was kept yet")
    assert not path.exists()


def test_rows_are_found_chosen_and_opened_by_keys_alone(
    window: BenchWindow, filled: Path, picture_file: Path, qtbot: QtBot
) -> None:
    with open_book(filled) as book:
        entry = PlateEntry("hill", "Hill", str(picture_file), 2e9, Metal.COPPER, 6)
        keep_plate(book, entry)
    (act,) = [a for a in window.menus.actions if a.text().replace("&", "") == "Studio book"]
    assert isinstance(act, QAction)
    assert not act.shortcut().isEmpty()
    act.trigger()
    plates_shown(window, qtbot, 3)
    plates = page(window).plates
    assert plates.search.hasFocus()
    QTest.keyClicks(plates.search, "hill")
    plates_shown(window, qtbot, 1)
    QTest.keyClick(plates.search, Qt.Key.Key_Return)
    assert plates.ledger.hasFocus()
    QTest.keyClick(plates.ledger, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: window.bench.plate is not None, timeout=PLENTY_MS)
    assert window.pages.currentWidget() is window.top


def test_a_plate_whose_file_is_gone_says_so_and_still_has_its_record(
    window: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    assert filled.exists()
    window.book.open()
    plates_shown(window, qtbot, 2)
    plates = page(window).plates
    plates.ledger.choose("gone")
    told = shown(plates.ledger, 1, 2)
    assert "herons.plate any more" in told
    assert not plates.open.isEnabled()
    plates.record.click()
    view = page(window)
    qtbot.waitUntil(lambda: view.parts.currentWidget() is view.record, timeout=PLENTY_MS)
    assert view.record.identity == "gone"
    assert "herons.plate" in view.notice.sentence.text()
    QTest.keyClick(view.record, Qt.Key.Key_Escape)
    assert view.parts.currentWidget() is view.plates
    QTest.keyClick(view.plates.ledger, Qt.Key.Key_Escape)
    assert window.pages.currentWidget() is window.top


def test_a_plate_is_forgotten_only_after_a_question(
    window: BenchWindow, filled: Path, qtbot: QtBot, look: Look
) -> None:
    assert filled.exists()
    window.book.open()
    plates_shown(window, qtbot, 2)
    ledger = page(window).plates.ledger
    ledger.choose("gone")
    QTest.keyClick(ledger, Qt.Key.Key_Delete)
    answer(qtbot, "Leave it")
    assert len(look(list_plates)) == 2
    QTest.keyClick(ledger, Qt.Key.Key_Delete)
    answer(qtbot, "Forget the plate")
    plates_shown(window, qtbot, 1)


def test_a_bath_is_begun_changed_and_retired(window: BenchWindow, qtbot: QtBot, look: Look) -> None:
    window.book.open_baths()
    baths = page(window).baths
    baths.new.click()
    form = baths.form
    form.keep()
    form.fields["name"].line.setText("Small tank")
    form.fields["made_on"].line.setText("12.1.2026")
    form.fields["litres"].line.setText("2,5")
    form.keep_button.click()
    baths_shown(window, qtbot, 1)
    (kept,) = look(list_baths)
    assert (kept.bath.name, kept.bath.made_on, kept.bath.litres) == (
        "Small tank",
        "2026-01-12",
        2.5,
    )
    baths.change.click()
    form.fields["name"].line.setText("Small tank, second lot")
    form.keep_button.click()
    qtbot.waitUntil(lambda: shown(baths.ledger, 0, 0) == "Small tank, second lot")
    baths.retire.click()
    answer(qtbot, "Retire the bath")
    qtbot.waitUntil(lambda: not baths.retire.isEnabled(), timeout=PLENTY_MS)
    (kept,) = look(list_baths)
    assert kept.bath.retired_on


def test_a_bath_with_a_name_that_is_taken_stays_in_the_form_with_a_sentence(
    window: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    assert filled.exists()
    window.book.open_baths()
    baths_shown(window, qtbot, 2)
    view = page(window)
    view.baths.new.click()
    view.baths.form.fields["name"].line.setText("TALL TANK")
    view.baths.form.keep_button.click()
    qtbot.waitUntil(view.notice.isVisible, timeout=PLENTY_MS)
    assert "give this one another name" in view.notice.sentence.text()
    assert view.baths.filling_in
    QTest.keyClick(view.baths.form.fields["note"].line, Qt.Key.Key_Escape)
    assert not view.baths.filling_in


def test_a_bath_is_given_and_taken_in_again_under_another_name_if_it_must(
    window: BenchWindow, filled: Path, tmp_path: Path, qtbot: QtBot, look: Look
) -> None:
    window.book.open_baths()
    baths_shown(window, qtbot, 2)
    file = tmp_path / "tall.bath"
    tall = look(lambda book: bath_called(book, "Tall tank"))
    assert tall is not None
    window.keeping.do(GiveBath(tall.id, file))
    qtbot.waitUntil(file.exists, timeout=PLENTY_MS)
    assert read_bath(file).strips[0].patches == STRIP.patches
    window.keeping.do(KeepBath(replace(TALL, made_on="2025-01-01"), tall.id))
    window.keeping.do(TakeIn(file))
    view = page(window)
    offer = "Take it in as “Tall tank 2”"

    def offered() -> list[str]:
        return [button.text() for button in view.notice._buttons]

    qtbot.waitUntil(lambda: offer in offered(), timeout=PLENTY_MS)
    view.notice._buttons[0].click()
    baths_shown(window, qtbot, 3)
    assert filled.exists()


def test_the_open_plate_stands_on_a_strip_of_the_book_and_one_step_takes_it_back(
    laid: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    assert filled.exists()
    laid.book.open_baths()
    baths_shown(laid, qtbot, 2)
    baths = page(laid).baths
    baths.choose(1)
    qtbot.waitUntil(lambda: baths.strips.rowCount() == 1, timeout=PLENTY_MS)
    assert "9 March 2026" in shown(baths.strips, 0, 0)
    baths.take_strip.click()
    qtbot.waitUntil(lambda: laid.pages.currentWidget() is laid.top, timeout=PLENTY_MS)
    plate = laid.bench.plate
    assert plate is not None
    assert plate.bath == "Tall tank"
    assert plate.evidence.strips == (replace(STRIP, bath="Tall tank"),)
    laid.bench.undo.undo()
    assert laid.bench.plate is not None
    assert not laid.bench.plate.evidence.strips


def test_a_strip_of_a_bath_for_another_metal_is_refused(
    laid: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    plate = laid.bench.plate
    assert plate is not None
    conditions = replace(plate.conditions, metal=Metal.ZINC, mordant=Mordant.COPPER_SULPHATE_SALT)
    laid.bench.change("", replace(plate, conditions=conditions))
    laid.book.open_baths()
    baths_shown(laid, qtbot, 2)
    view = page(laid)
    view.baths.choose(1)
    qtbot.waitUntil(view.baths.take_strip.isEnabled, timeout=PLENTY_MS)
    view.baths.take_strip.click()
    qtbot.waitUntil(view.notice.isVisible, timeout=PLENTY_MS)
    assert "is for copper in ferric chloride" in view.notice.sentence.text()
    assert laid.bench.plate is not None
    assert not laid.bench.plate.evidence.strips
    assert filled.exists()


def test_a_strip_the_plate_stands_on_is_kept_with_the_plates_bath(
    laid: BenchWindow, filled: Path, qtbot: QtBot, look: Look
) -> None:
    plate = laid.bench.plate
    assert plate is not None
    laid.bench.change("", replace(plate, bath="Tall tank"))
    other = replace(STRIP, bitten_on="2026-03-20")
    with qtbot.waitSignal(laid.keeping.answered, timeout=PLENTY_MS):
        laid.strips.taken.emit(other)
    lines = look(lambda book: list_strips(book, 1))
    assert [line.bitten_on for line in lines] == ["2026-03-20", "2026-03-09"]
    assert look(lambda book: use_of(book, 1)).strips == 1
    assert filled.exists()


def test_an_accepted_proof_is_kept_with_the_plate_and_the_nearest_one_is_the_best(
    laid: BenchWindow, tmp_path: Path, qtbot: QtBot, look: Look
) -> None:
    plate = laid.bench.plate
    assert plate is not None
    for off in (4.0, 1.0, 2.0):
        tone = ToneReading(1, 80.0, 80.0 + off, 0.5, 100, 79.0, 86.0)
        laid.proofs.accepted.emit(reading_of(tone), Path("/scans/hill.tif"))
    laid.workings.save(tmp_path / "hill.plate")

    def kept() -> list[tuple[float, bool]]:
        proofs = look(lambda book: proofs_of(book, identity_of(plate)))
        return [(one.proof.miss, one.best) for one in proofs]

    wanted = [(4.0, False), (1.0, True), (2.0, False)]
    qtbot.waitUntil(lambda: kept() == wanted, timeout=PLENTY_MS)


def test_a_damaged_book_can_be_set_aside_and_nothing_of_it_is_lost(
    window: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    torn = filled.read_bytes()[:100] + b"\x00" * 40_000
    filled.write_bytes(torn)
    window.book.open()
    view = page(window)
    qtbot.waitUntil(view.notice.isVisible, timeout=PLENTY_MS)
    assert "is damaged" in view.notice.sentence.text()
    view.notice._buttons[0].click()
    qtbot.waitUntil(lambda: "A fresh studio book" in view.notice.sentence.text(), timeout=PLENTY_MS)
    (aside,) = filled.parent.glob("*set aside*.sqlite")
    assert aside.read_bytes() == torn


def test_a_book_of_a_later_version_is_told_and_left_alone(
    window: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    with sqlite3.connect(filled) as connection:
        connection.execute("PRAGMA user_version = 999")
    connection.close()
    window.book.open()
    view = page(window)
    qtbot.waitUntil(view.notice.isVisible, timeout=PLENTY_MS)
    assert "later version of Tone Ladder" in view.notice.sentence.text()
    assert not view.notice._buttons


@pytest.fixture
def recorded(planned: BenchWindow, tmp_path: Path, qtbot: QtBot) -> BenchWindow:
    """A window that shows the record of its plate."""
    saved(planned, tmp_path / "hill.plate", qtbot)
    planned.book.open_record()
    qtbot.waitUntil(lambda: planned.pages.currentWidget() is not planned.top, timeout=PLENTY_MS)
    return planned


def test_the_record_shows_the_plan_and_says_that_nothing_was_bitten_yet(
    recorded: BenchWindow,
) -> None:
    view = page(recorded)
    assert view.parts.currentWidget() is view.record
    plan = recorded.workings.plan
    assert plan is not None
    (bites,) = (one for one in view.findChildren(Ledger) if one.accessibleName() == "Bites")
    assert bites.rowCount() == len(plan.order.steps)
    assert shown(bites, 0, 1) == write_bite(plan.order.steps[0].bite_s)


def test_a_plate_that_was_never_saved_has_no_record_and_says_what_to_do(
    laid: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    laid.book.open_record()
    qtbot.waitUntil(laid.top.notice.isVisible, timeout=PLENTY_MS)
    assert "Save the plate, then try again." in laid.top.notice.sentence.text()
    assert filled.exists()
    saved(laid, filled.with_name("new.plate"), qtbot)
    qtbot.waitUntil(laid.top.notice.isHidden, timeout=PLENTY_MS)


def test_from_its_record_one_comes_back_to_the_open_plate_with_all_its_undos(
    recorded: BenchWindow, qtbot: QtBot
) -> None:
    recorded.pages.setCurrentIndex(0)
    recorded.add_tones(1)
    changed = recorded.bench.plate
    assert recorded.top.header.note.text() == "hill.plate, changed since"
    recorded.book.open_record()
    qtbot.waitUntil(lambda: recorded.pages.currentWidget() is not recorded.top, timeout=PLENTY_MS)
    view = page(recorded)
    qtbot.waitUntil(lambda: view.record.open.text() == "Back to the plate", timeout=PLENTY_MS)
    view.record.open.click()
    assert recorded.pages.currentWidget() is recorded.top
    assert recorded.bench.plate is changed
    assert recorded.bench.undo.canUndo()


def test_prints_are_noted_counted_on_and_removed(
    recorded: BenchWindow, qtbot: QtBot, look: Look
) -> None:
    plate = recorded.bench.plate
    assert plate is not None
    record = page(recorded).record
    record.note.click()
    kinds = list(PullKind)
    record.form.choices["kind"].list.activated.emit(kinds.index(PullKind.EDITION))
    for name, text in (("number", "3"), ("edition", "20"), ("paper", "rag"), ("pulled_on", "")):
        record.form.fields[name].line.setText(text)
    record.form.keep_button.click()
    qtbot.waitUntil(lambda: record.pulls.rowCount() == 1, timeout=PLENTY_MS)
    assert record.counted.text() == "1 edition print"
    assert not record.filling_in
    record.note.click()
    assert (record.form.value.number, record.form.value.paper) == (4, "rag")
    record.form.keep_button.click()
    qtbot.waitUntil(lambda: record.pulls.rowCount() == 2, timeout=PLENTY_MS)
    pulls = look(lambda book: pulls_of(book, identity_of(plate)))
    assert [kept.pull.number for kept in pulls] == [3, 4]
    QTest.keyClick(record.pulls, Qt.Key.Key_Delete)
    answer(qtbot, "Remove the note")
    qtbot.waitUntil(lambda: record.pulls.rowCount() == 1, timeout=PLENTY_MS)


def test_a_wrong_number_keeps_the_form_open_with_its_fault(
    recorded: BenchWindow, look: Look
) -> None:
    plate = recorded.bench.plate
    assert plate is not None
    record = page(recorded).record
    record.note.click()
    record.form.fields["number"].line.setText("third")
    record.form.keep_button.click()
    assert record.filling_in
    assert record.form.fields["number"].fault.text()
    assert not look(lambda book: pulls_of(book, identity_of(plate)))
    QTest.keyClick(record.form.fields["note"].line, Qt.Key.Key_Escape)
    assert not record.filling_in


def test_the_record_sheet_is_written_as_a_pdf(
    recorded: BenchWindow, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, qtbot: QtBot
) -> None:
    to = tmp_path / "record.pdf"
    monkeypatch.setattr(
        "toneladder_desktop.window.book_wishes.ask_where_to_put_pdf",
        lambda _window, _suggestion, take: take(to),
    )
    page(recorded).record.sheet.click()
    said = page(recorded).notice.sentence
    qtbot.waitUntil(lambda: "record.pdf" in said.text(), timeout=PLENTY_MS)
    text = " ".join(page_.extract_text() for page_ in pypdf.PdfReader(to).pages)
    assert "Hill" in text
    assert "Planned bite" in " ".join(text.split())


def test_an_edition_is_reckoned_while_it_is_typed_with_a_comma_too(
    recorded: BenchWindow,
) -> None:
    edition = page(recorded).record.edition
    # 60 × 40 mm with 50 mm all round; 10 + 1 + 3 prints, one in ten spoilt: 16 sheets
    assert edition.answer.text().replace("\xa0", " ").startswith("16 sheets of 160 × 140 mm")
    edition.fields["margin_mm"].line.setText("6,5 cm")
    edition.fields["margin_mm"].commit()
    assert "190 × 170 mm" in edition.answer.text().replace("\xa0", " ")
    edition.fields["prints"].line.setText("0")
    edition.fields["prints"].commit()
    assert "Nothing was reckoned." in edition.answer.text()


def test_a_bath_of_the_book_is_chosen_on_the_card_and_another_metals_refused(
    laid: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    top = laid.top
    top.card.open(top.bath)
    names = top.bath.kept.list
    qtbot.waitUntil(lambda: names.count() == 3, timeout=PLENTY_MS)
    assert [names.itemText(n) for n in range(3)] == ["none of them", TALL.name, TRAY.name]
    names.activated.emit(1)
    plate = laid.bench.plate
    assert plate is not None
    assert (plate.bath, plate.conditions.strength) == ("Tall tank", "38 °Bé")
    assert top.bath.keep.isHidden()
    names.activated.emit(2)
    assert laid.bench.plate == plate
    assert "is for zinc" in top.bath.refused.text()
    assert names.currentText() == "Tall tank"
    top.bath.mordant.list.activated.emit(list(Mordant).index(Mordant.FERRIC_CITRIC))
    assert laid.bench.plate is not None
    assert laid.bench.plate.bath == ""
    assert filled.exists()


def test_keep_this_bath_begins_one_like_the_plates_and_the_plate_takes_its_name(
    laid: BenchWindow, qtbot: QtBot, look: Look
) -> None:
    top = laid.top
    top.card.open(top.bath)
    top.bath.keep.click()
    form = page(laid).baths.form
    assert form.value.metal is Metal.COPPER
    form.fields["name"].line.setText("Bath by the window")
    form.keep_button.click()
    qtbot.waitUntil(
        lambda: laid.bench.plate is not None and laid.bench.plate.bath == "Bath by the window",
        timeout=PLENTY_MS,
    )
    assert look(lambda book: bath_called(book, "bath by the window")) is not None
    laid.bench.undo.undo()
    assert laid.bench.plate is not None
    assert laid.bench.plate.bath == ""


def test_everything_on_the_page_has_a_name_for_a_screen_reader(
    recorded: BenchWindow, lying: Lying
) -> None:
    assert lying.plate.title
    view = page(recorded)
    for kind in (QComboBox, QLineEdit, QTableWidget):
        for widget in view.findChildren(kind):
            if not isinstance(widget.parent(), QComboBox):
                assert widget.accessibleName(), widget
    assert all(button.text() for button in view.findChildren(QPushButton))


def test_numbers_are_written_with_a_comma_where_somebody_likes_it(
    laid: BenchWindow, filled: Path, qtbot: QtBot
) -> None:
    laid.preferences.change(manner=Manner(decimal=","))
    laid.book.open_baths()
    baths_shown(laid, qtbot, 2)
    baths = page(laid).baths
    baths.begin(replace(TALL, litres=2.5), laid.preferences.now.manner, 1)
    assert baths.form.fields["litres"].line.text() == "2,5"
    assert filled.exists()
