"""What lies under the loupe: places, pixels and cells."""

from hypothesis import given
from hypothesis import strategies as st

from toneladder_desktop.paper.aim import Aim

places = st.floats(0.0, 90.0)
widths = st.sampled_from((1.0, 2.0, 4.0))
GRID = (8.0, (480, 720))


def test_a_glass_of_two_millimetres_in_200_pixels_shows_10_micrometres_to_a_pixel() -> None:
    aim = Aim(45.0, 30.0, 2.0, 200)
    assert aim.um_per_px == 10.0
    assert (aim.left, aim.top) == (4400, 2900)
    assert aim.under(*GRID) == aim.under(8.0, (10_000, 10_000))
    assert (aim.under(*GRID).left, aim.under(*GRID).right) == (352, 368)


@given(places, places, widths)
def test_what_is_drawn_about_it_covers_what_lies_under_it(
    x_mm: float, y_mm: float, width_mm: float
) -> None:
    aim = Aim(x_mm, y_mm, width_mm, 200)
    under, about = aim.under(*GRID), aim.about(*GRID)
    assert 0 <= about.left <= under.left <= under.right <= about.right <= 720
    assert 0 <= about.top <= under.top <= under.bottom <= about.bottom <= 480
    assert about.right - about.left <= 2.0 * width_mm * 8.0 + 8


def test_a_small_move_asks_for_the_same_cells() -> None:
    pieces = {Aim(45.0 + 0.01 * k, 30.0, 2.0, 200).about(*GRID) for k in range(51)}
    assert len(pieces) <= 3
