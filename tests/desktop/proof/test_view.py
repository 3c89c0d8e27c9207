"""The proof's page: a scan is laid over the plan, read, and the bath learns from it."""

from pathlib import Path

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot
from tests.core.proof.drawing import Look, draw

from toneladder.quantities import Manner, write_temperature
from toneladder_desktop.proof.content import content_of, headline
from toneladder_desktop.proof.view import BITE, ProofView
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 60_000
DARKER = 4.0

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


@pytest.fixture
def page(planned: BenchWindow, qtbot: QtBot) -> ProofView:
    qtbot.waitUntil(lambda: planned.workings.plan is not None, timeout=PLENTY_MS)
    planned.proofs.open()
    view = planned.pages.currentWidget()
    assert isinstance(view, ProofView)
    return view


@pytest.fixture
def scan(planned: BenchWindow, page: ProofView, tmp_path: Path) -> Path:
    """A proof whose tones, but for white, printed 4 L* darker than planned."""
    assert page is not None
    plan = planned.workings.plan
    assert plan is not None
    printed = np.array([tone.lightness for tone in plan.order.tones])
    printed[1:] -= DARKER
    file = tmp_path / "proof.png"
    px_per_mm = plan.prepared.grid.px_per_mm
    file.write_bytes(draw(plan.tones, printed, px_per_mm, Look(dpi=150, turn=1.5), seed=3).data)
    return file


def read(page: ProofView, scan: Path, qtbot: QtBot) -> None:
    page.scan_dropped.emit(scan)
    qtbot.waitUntil(page.take.isEnabled, timeout=PLENTY_MS)


def test_a_proof_is_read_and_what_strayed_is_said_first(
    page: ProofView, scan: Path, qtbot: QtBot
) -> None:
    assert not page.take.isEnabled()
    read(page, scan, qtbot)
    assert "darker than planned" in page.subtitle.text()
    item = page.table.item(2, 3)
    assert item is not None
    assert "0.4" in item.text()
    assert len(page.board.corners) == 4
    assert "burnish" in page.said.text().lower()


def test_the_bath_learns_from_a_proof_and_undo_forgets_it(
    page: ProofView, scan: Path, planned: BenchWindow, qtbot: QtBot
) -> None:
    read(page, scan, qtbot)
    page.take.click()
    assert planned.bench.plate is not None
    strips = planned.bench.plate.evidence.strips
    assert len(strips) == 1
    assert planned.pages.currentWidget() is planned.top
    planned.bench.undo.undo()
    assert planned.bench.plate.evidence.strips == ()


def test_what_was_really_bitten_is_typed_before_anything_is_learnt(
    page: ProofView, scan: Path, planned: BenchWindow, qtbot: QtBot
) -> None:
    read(page, scan, qtbot)
    item = page.table.item(1, BITE)
    assert item is not None
    item.setText("soon")
    assert not page.take.isEnabled()
    item = page.table.item(1, BITE)
    assert item is not None
    item.setText("1 min 5 s")
    page.take.click()
    assert planned.bench.plate is not None
    patches = planned.bench.plate.evidence.strips[0].patches
    assert patches[1].total_bite_s == 65.0


def test_a_scan_of_something_else_is_said_and_corners_can_be_marked(
    page: ProofView, planned: BenchWindow, tmp_path: Path, qtbot: QtBot
) -> None:
    other = tmp_path / "other.png"
    blank = np.zeros((300, 400), np.uint8)
    other.write_bytes(draw(blank, np.array([92.0, 40.0]), 8.0, Look(dpi=100), seed=1).data)
    page.scan_dropped.emit(other)
    qtbot.waitUntil(lambda: not page.notice.isHidden(), timeout=PLENTY_MS)
    assert "does not look like this plate" in page.notice.sentence.text()
    assert len(page.board.corners) == 4
    assert planned.bench.undo.count() == 0
    before = page.board.corners
    corner = page.board.px(before[0]).toPoint()
    QTest.mousePress(page.board, Qt.MouseButton.LeftButton, pos=corner)
    QTest.mouseMove(page.board, corner + QPoint(9, 7))
    with qtbot.waitSignal(page.corners_marked):
        QTest.mouseRelease(page.board, Qt.MouseButton.LeftButton, pos=corner + QPoint(9, 7))
    assert page.board.corners != before


def test_leaving_changes_nothing(page: ProofView, planned: BenchWindow) -> None:
    QTest.keyClick(page, Qt.Key.Key_Escape)
    assert planned.pages.currentWidget() is planned.top
    assert planned.bench.undo.count() == 0


def test_before_a_scan_the_next_act_is_said(planned: BenchWindow, page: ProofView) -> None:
    assert page is not None
    plan = planned.workings.plan
    assert plan is not None
    assert "second or third pull" in headline(content_of(plan.order), Manner())


def test_bites_are_those_of_a_bath_as_planned_and_the_column_says_so(
    page: ProofView, planned: BenchWindow
) -> None:
    assert planned.bench.plate is not None
    head = page.table.horizontalHeaderItem(BITE)
    assert head is not None
    bath = write_temperature(planned.bench.plate.conditions.temperature_c)
    assert head.text() == f"Really bitten, as at {bath}"
