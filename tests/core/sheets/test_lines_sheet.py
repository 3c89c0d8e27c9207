"""The pen lines at true size, mirrored: all of them, then what is stopped out when."""

import numpy as np
from tests.core.sheets.conftest import MADE_ON, planned
from tests.core.sheets.reading import Bools, dots, drawn
from tests.core.sheets.test_order_sheet import outside, overlapping, words_of

from toneladder.picture.values import PlateSize
from toneladder.sheets.lines_sheet import PALE, line_sheets
from toneladder.sheets.marks import Sheet


def depths(count: int) -> np.ndarray:
    depth = np.zeros((360, 480), dtype=np.uint8)
    for at in range(1, count + 1):
        depth[60 * at : 60 * at + 3 * at, 20:300] = at
        depth[40:340, 40 * at : 40 * at + 3 * at] = at
    return depth


def sheets(count: int) -> tuple[Sheet, ...]:
    made = planned(3, PlateSize(60.0, 45.0))
    return line_sheets(made.plate, depths(count), made.prepared.grid, made_on=MADE_ON)


def mirrored(cells: Bools) -> Bools:
    return np.kron(cells[:, ::-1], np.ones((3, 3))) > 0


def test_lines_of_one_depth_are_one_tracing() -> None:
    (sheet,) = sheets(1)
    assert (dots(drawn(sheet)) == mirrored(depths(1) > 0)).all()
    assert "Line tracing" in words_of(sheet)


def test_finer_lines_are_stopped_out_first_and_the_deepest_never() -> None:
    tracing, first, second = sheets(3)
    assert (dots(drawn(tracing)) == mirrored(depths(3) > 0)).all()
    for done, sheet in enumerate((first, second), start=1):
        black = dots(drawn(sheet))
        assert black[mirrored(depths(3) == done)].all()
        assert not black[mirrored(depths(3) == 0)].any()
        others = mirrored((depths(3) > 0) & (depths(3) != done))
        assert 0.5 * PALE < black[others].mean() < 1.5 * PALE
        assert f"Lines · after line bite {done}" in words_of(sheet)


def test_no_lines_are_an_empty_plate() -> None:
    (sheet,) = sheets(0)
    assert not dots(drawn(sheet)).any()


def test_everything_is_on_the_paper() -> None:
    for sheet in sheets(4):
        assert outside(sheet) == []
        assert overlapping(sheet) == []
