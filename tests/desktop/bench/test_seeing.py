"""What the background draws for the paper."""

import numpy as np
import pytest

from toneladder.optics import linear_from_srgb
from toneladder_desktop.bench.look import View
from toneladder_desktop.bench.seeing import seen
from toneladder_desktop.drawing import colour_table
from toneladder_desktop.window.bench_window import BenchWindow

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support")


def test_flat_tones_at_the_grids_own_scale_are_the_table(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    image = seen(plan, View.TONES, None, plan.prepared.grid.px_per_mm)
    table = colour_table.of_tones(plan.chosen, plan.plate.printing, None)
    assert np.abs(image.astype(int) - table[plan.tones]).max() <= 1


def test_the_grain_changes_no_mean(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    flat, grained = (
        linear_from_srgb(seen(plan, view, None, 4.0) / 255.0).mean()
        for view in (View.TONES, View.PREVIEW)
    )
    assert grained == pytest.approx(flat, rel=0.01)


def test_the_picture_smaller_is_as_light_as_the_picture(planned: BenchWindow) -> None:
    plan = planned.workings.plan
    assert plan is not None
    small = seen(plan, View.PICTURE, None, 2.0)
    assert small.shape == (80, 120, 3)
    table = colour_table.of_picture(plan.prepared.lattice)
    whole = linear_from_srgb(table[plan.prepared.asked] / 255.0).mean()
    assert linear_from_srgb(small / 255.0).mean() == pytest.approx(whole, rel=0.01)
