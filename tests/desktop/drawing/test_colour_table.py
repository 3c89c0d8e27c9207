"""Colour tables: each step of the lattice in the colour its tone prints."""

import numpy as np
import pytest
from pytestqt.qtbot import QtBot

from toneladder.optics import lightness, linear_from_srgb
from toneladder.preview.colour import colour_of
from toneladder.preview.values import InkAndPaper
from toneladder_desktop.drawing import colour_table
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_a_table_through_the_lattice_is_the_painting_of_the_tones(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    printing = plan.plate.printing
    through_steps = colour_table.of_steps(plan.chosen, printing, None)[plan.prepared.cleaned]
    through_tones = colour_table.of_tones(plan.chosen, printing, None)[plan.tones]
    assert np.array_equal(through_steps, through_tones)


def test_tones_print_in_their_own_lightness(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    table = colour_table.of_tones(plan.chosen, InkAndPaper(), None)
    light = linear_from_srgb(table / 255.0) @ [0.2126, 0.7152, 0.0722]
    expected = [tone.lightness for tone in plan.order.tones]
    assert lightness(light) == pytest.approx(expected, abs=0.5)  # 8 bits


def test_stopped_after_a_step_open_tones_are_as_dark_as_its_bite(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    whole = colour_table.of_tones(plan.chosen, InkAndPaper(), None)
    after_two = colour_table.of_tones(plan.chosen, InkAndPaper(), 2)
    assert np.array_equal(after_two[:3], whole[:3])
    assert all(np.array_equal(colour, whole[2]) for colour in after_two[3:])
    before = colour_table.of_tones(plan.chosen, InkAndPaper(), 0)
    assert len(np.unique(before, axis=0)) == 1


def test_the_picture_keeps_its_own_greys(planned: BenchWindow, qtbot: QtBot) -> None:
    assert qtbot is not None
    prepared = planned.workings.prepared
    assert prepared is not None
    table = colour_table.of_picture(prepared.lattice)
    assert np.array_equal(table[:, 0], table[:, 1])
    light = linear_from_srgb(table[:, 0] / 255.0)
    assert lightness(light) == pytest.approx(prepared.lattice.lightness(), abs=0.5)


def test_the_table_qt_reads_has_all_its_entries() -> None:
    packed = colour_table.packed(np.array([[1, 2, 3], [255, 254, 253]], dtype=np.uint8))
    assert packed[:3] == [0xFF010203, 0xFFFFFEFD, 0xFF000000]
    assert len(packed) == 256


def test_ink_and_paper_colour_the_ends() -> None:
    # the lightest print is the paper's colour, the darkest the ink's
    sepia = InkAndPaper(ink="#4a2a18", paper="#efe6d0")
    paper_l = float(
        lightness(linear_from_srgb(np.array([0xEF, 0xE6, 0xD0]) / 255.0) @ [0.2126, 0.7152, 0.0722])
    )
    mixed = np.rint(255 * colour_of([paper_l], sepia.ink, sepia.paper))
    assert mixed[0].tolist() == [0xEF, 0xE6, 0xD0]
