"""A grid over a picture that is turned."""

import numpy as np
import pytest

from toneladder.picture import turning
from toneladder.picture.turning import Askew


def laid(askew: Askew, columns: int, rows: int) -> tuple[np.ndarray, float]:
    cells, nothing = np.empty((rows, columns), np.float32), 0.0
    for band, light, beside in askew.bands(columns, rows):
        cells[band] = light
        nothing += beside
    return cells, nothing


@pytest.mark.parametrize("pitch", [0.3, 1.7, 5.3])
def test_bands_do_not_show(pitch: float, monkeypatch: pytest.MonkeyPatch) -> None:
    raster = np.random.default_rng(0).integers(0, 65536, (80, 90), dtype=np.uint16)
    askew = Askew(raster, (45.0, 40.0), (12 * pitch, 10 * pitch), pitch, 17.0)
    whole, nothing = laid(askew, 24, 20)
    monkeypatch.setattr(turning, "_BAND_CELLS", 60)
    again, also = laid(askew, 24, 20)
    assert np.abs(again - whole).max() < 0.1
    assert also == pytest.approx(nothing)


def test_fine_detail_is_averaged_and_does_not_flicker() -> None:
    raster = np.zeros((400, 400), np.uint16)
    raster[::2] = 60000  # one pixel black, one white
    cells, _ = laid(Askew(raster, (200.0, 200.0), (80.0, 80.0), 8.0, 30.0), 20, 20)
    assert cells == pytest.approx(30000, rel=0.03)
