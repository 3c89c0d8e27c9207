"""Scale and place of the plate in the view."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.picture.values import PlateSize
from toneladder_desktop.paper.framing import (
    FOOT_PX,
    LARGEST,
    SMALLEST,
    SURROUND_PX,
    Framing,
    fitted,
    snapped,
)

VIEW = (739.0, 519.0)
sizes = st.builds(PlateSize, st.floats(20.0, 900.0), st.floats(20.0, 900.0))
pixels = st.tuples(st.floats(0.0, 739.0), st.floats(0.0, 519.0))


@given(sizes)
def test_a_fitted_print_lies_within_the_view_with_paper_and_caption(size: PlateSize) -> None:
    framing = fitted(VIEW, size)
    plate = framing.plate(VIEW, size)
    margin = framing.margin_mm * framing.px_per_mm
    assert plate.left - margin >= SURROUND_PX - 0.01
    assert plate.top - margin >= SURROUND_PX - 0.01
    assert plate.top + plate.height + FOOT_PX <= VIEW[1] - SURROUND_PX + 0.01
    assert plate.width / plate.height == pytest.approx(size.width_mm / size.height_mm)


def test_the_whole_sheet_shows_its_true_margins() -> None:
    size = PlateSize(200.0, 150.0)
    framing = fitted(VIEW, size, margin_mm=50.0)
    assert framing.margin_mm == 50.0
    assert framing.px_per_mm == pytest.approx((519.0 - 2 * SURROUND_PX) / 250.0)


@given(sizes, pixels, st.floats(0.3, 3.0))
def test_what_lies_under_the_pointer_stays_there(
    size: PlateSize, at: tuple[float, float], factor: float
) -> None:
    framing = fitted(VIEW, size)
    nearer = framing.zoomed(factor, VIEW, *at)
    assert nearer.place(VIEW, *at) == pytest.approx(framing.place(VIEW, *at), abs=1e-6)


def test_zooming_ends_at_both_ends() -> None:
    framing = Framing(4.0, 50.0, 50.0, 10.0)
    assert framing.zoomed(1e9, VIEW, 0.0, 0.0).px_per_mm == LARGEST
    assert framing.zoomed(1e-9, VIEW, 0.0, 0.0).px_per_mm == SMALLEST


def test_the_paper_cannot_be_pushed_out_of_sight() -> None:
    size = PlateSize(100.0, 100.0)
    framing = Framing(4.0, 50.0, 50.0, 10.0).moved(1e6, -1e6, size)
    assert (framing.x_mm, framing.y_mm) == (0.0, 100.0)


@given(sizes, st.sampled_from((1.0, 1.25, 1.5, 2.0)))
def test_the_plate_lies_on_whole_device_pixels_as_large_as_it_is(
    size: PlateSize, ratio: float
) -> None:
    framing = fitted(VIEW, size)
    box = framing.plate(VIEW, size)
    left, _, width, height = snapped(box, ratio)
    assert left == pytest.approx(box.left * ratio, abs=0.51)
    assert (width, height) == pytest.approx((box.width * ratio, box.height * ratio), abs=1.0)
