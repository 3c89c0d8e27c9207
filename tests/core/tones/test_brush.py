"""A brush can paint what is left, and cleaning again changes nothing."""

from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import ndimage
from skimage import data
from skimage.filters import gaussian
from skimage.morphology import reconstruction

from toneladder.tones.brush import clean, closing, disc_cells, disc_runs, opening, paintable

PHOTOGRAPHS = ("camera", "coffee", "chelsea", "astronaut", "rocket")
BRUSHES = ((4.0, 16 / 3), (12.0, 16.0), (16.0, 64 / 3))


@cache
def lattice(name: str, sigma: float) -> NDArray[np.uint8]:
    """A photograph shipped with scikit-image (CC0 or public domain), squinted at."""
    picture = np.asarray(getattr(data, name)())
    grey = picture.mean(axis=2) if picture.ndim == 3 else picture
    squinted: NDArray[np.uint8] = np.rint(gaussian(grey.astype(float), sigma)).astype(np.uint8)
    return squinted


def footprint(diameter: float) -> NDArray[np.bool_]:
    rows = disc_runs(diameter)
    reach = rows[-1][0]
    disc = np.zeros((2 * reach + 1, 2 * reach + 1), dtype=bool)
    for dy, half in rows:
        disc[reach + dy, reach - half : reach + half + 1] = True
    return disc


@pytest.mark.parametrize("diameter", [1.0, 3.0, 4.0, 7.5, 12.0])
def test_opening_and_closing_are_those_of_a_general_library(diameter: float) -> None:
    # beside scipy.ndimage, with a border that is never the extreme
    cells = lattice("camera", 0.5)[::3, ::3]
    disc = footprint(diameter)
    low = ndimage.grey_erosion(cells, footprint=disc, mode="constant", cval=255)
    opened = ndimage.grey_dilation(low, footprint=disc, mode="constant", cval=0)
    assert np.array_equal(opening(cells, diameter), opened)
    high = ndimage.grey_dilation(cells, footprint=disc, mode="constant", cval=0)
    closed = ndimage.grey_erosion(high, footprint=disc, mode="constant", cval=255)
    assert np.array_equal(closing(cells, diameter), closed)
    assert disc.sum() == disc_cells(diameter)


def test_what_holds_no_mark_is_removed_as_a_general_library_removes_it() -> None:
    # beside scikit-image's own reconstruction
    cells = lattice("coffee", 1.0)
    closed = closing(opening(cells, 12.0), 16.0)
    marker = opening(closed, 12.0)
    expected = reconstruction(marker, closed, footprint=np.ones((3, 3)))
    assert np.array_equal(clean(cells, 12.0, 16.0), expected.astype(np.uint8))


@pytest.mark.parametrize("name", PHOTOGRAPHS)
@pytest.mark.parametrize(("mark", "gap"), BRUSHES)
def test_cleaning_again_changes_nothing(name: str, mark: float, gap: float) -> None:
    cleaned = clean(lattice(name, mark / 2), mark, gap)
    assert np.array_equal(clean(cleaned, mark, gap), cleaned)


@pytest.mark.parametrize("name", PHOTOGRAPHS)
@pytest.mark.parametrize(("mark", "gap"), BRUSHES)
def test_every_covered_and_open_place_holds_the_brush(name: str, mark: float, gap: float) -> None:
    cleaned = clean(lattice(name, mark / 2), mark, gap)
    for parting in np.unique(np.linspace(20, 235, 12).astype(int)):
        covered = cleaned >= parting
        assert not places_without(covered, mark)
        assert not places_without(~covered, gap)


def places_without(cells: NDArray[np.bool_], diameter: float) -> int:
    """How many separate places hold no whole disc (as far as the plate reaches)."""
    pieces, number = ndimage.label(cells, structure=np.ones((3, 3)))
    inside = ndimage.binary_erosion(cells, structure=footprint(diameter), border_value=1)
    return int(number) - len(np.setdiff1d(np.unique(pieces[inside]), [0]))


def test_cleaning_commutes_with_parting() -> None:
    cells = lattice("chelsea", 3.0)
    for parting in (60, 120, 180):
        covered = (cells >= parting).astype(np.uint8) * 255
        assert np.array_equal(clean(covered, 6.0, 8.0) > 0, clean(cells, 6.0, 8.0) >= parting)


def test_pen_hatching_keeps_its_mean_grey_when_it_is_squinted_at() -> None:
    # lines of one cell in four, finer than any brush
    hatching = np.full((200, 200), 255.0)
    hatching[:, ::4] = 0.0
    squinted = np.rint(gaussian(hatching, 6.0)).astype(np.uint8)
    cleaned = clean(squinted, 12.0, 16.0)
    assert abs(cleaned[30:-30, 30:-30].mean() - hatching.mean()) < 2.0


@pytest.mark.parametrize("name", PHOTOGRAPHS)
def test_giving_back_what_the_brush_took_keeps_the_local_mean_and_stays_paintable(
    name: str,
) -> None:
    cells = lattice(name, 3.0)
    once, kept = clean(cells, 12.0, 16.0), paintable(cells, 12.0, 16.0)
    assert np.array_equal(clean(kept, 12.0, 16.0), kept)

    def off(cleaned: NDArray[np.uint8]) -> float:
        missed = ndimage.uniform_filter(cleaned.astype(float) - cells, 36)
        return float(np.sqrt(np.mean(missed**2)))

    assert off(kept) < 0.6 * off(once)
