"""Maps in a PDF, drawn by an independent program, measured as with a steel rule."""

from collections.abc import Iterator
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader
from tests.core.sheets.reading import edges
from tests.desktop.output.test_pdf import needs_poppler, normal, output_of, rendered

from toneladder.picture.opening import open_picture
from toneladder.picture.values import Grid, PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plate.values import Plate
from toneladder.sheets.map_sheet import map_sheets
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Sheet
from toneladder.sheets.marks import Path as Lines
from toneladder.tones.values import ToneChoice
from toneladder_desktop.output.pdf import write_pdf

pytestmark = [pytest.mark.usefixtures("qapp"), needs_poppler]

MADE_ON = date(2026, 3, 16)
HIGH, LONG = PlateSize(260.0, 340.0), PlateSize(380.0, 130.0)
LYING = {
    (A4, HIGH): (A4.turned, 1, 3),
    (A3, HIGH): (A3, 1, 1),
    (LETTER, HIGH): (LETTER, 2, 2),
    (A4, LONG): (A4.turned, 2, 1),
    (A3, LONG): (A3.turned, 1, 1),
    (LETTER, LONG): (LETTER.turned, 2, 1),
}
"""How the pages lie, and into how many columns and rows the plate falls: worked out by hand."""

CELLS = 8
STEP = 3
DPI = 600
PER_MM = DPI / 25.4
on_each = pytest.mark.parametrize(
    ("paper", "size"),
    LYING,
    ids=lambda value: value.name if isinstance(value, Paper) else f"{value.width_mm:g}",
)


@cache
def small() -> Plan:
    y, x = np.mgrid[0:150, 0:200]
    grey = np.clip(128 + 90 * np.sin(x / 31) + 60 * np.cos(y / 19 + x / 45), 0, 255)
    file = BytesIO()
    Image.fromarray(grey.astype(np.uint8)).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="waves.png")
    tones = ToneChoice(count=5, gap_lightness=0.0)
    return plan(picture, Plate("Waves", picture.ref, PlateSize(60, 45), tones=tones))


def grid(size: PlateSize) -> Grid:
    return Grid(int(size.width_mm) * CELLS, int(size.height_mm) * CELLS, float(CELLS))


@cache
def tones(size: PlateSize) -> np.ndarray:
    """Five tones in waves some centimetres long, with a corner of its own at each corner."""
    cells = grid(size)
    y, x = np.mgrid[0 : cells.height, 0 : cells.width].astype(np.float32) / CELLS
    wave = np.sin(x / 23.0 + np.cos(y / 17.0)) + np.cos(y / 31.0 - x / 71.0)
    return np.asarray(np.digitize(wave, [-1.1, -0.3, 0.4, 1.1]), dtype=np.uint8)


@cache
def pages(paper: Paper, size: PlateSize) -> tuple[Sheet, ...]:
    made = small()
    plate = Plate("Waves", made.plate.picture, size)
    cells = tones(size)
    return map_sheets(plate, made.order, cells, grid(size), STEP, made_on=MADE_ON, paper=paper)


def file_of(folder: Path, paper: Paper, size: PlateSize) -> Path:
    path = folder / f"{paper.name} {size.width_mm:g}.pdf"
    if not path.exists():
        write_pdf(pages(paper, size), path)
    return path


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("maps")


@cache
def images(folder: Path, paper: Paper, size: PlateSize) -> list[np.ndarray]:
    """Every page of the map, True where black."""
    return [page < 128 for page in rendered(file_of(folder, paper, size), DPI)]


def middle_of_tick(black: np.ndarray, across: float, along: tuple[float, float]) -> float:
    """Where the upright tick near x = ``across`` mm, between two heights, really stands, mm."""
    rows = slice(round(along[0] * PER_MM), round(along[1] * PER_MM))
    first = round((across - 1.0) * PER_MM)
    columns = black[rows, first : round((across + 1.0) * PER_MM)]
    inked = np.nonzero(columns.all(axis=0))[0]
    assert inked.size
    return float(first + inked.mean() + 0.5) / PER_MM


def ticks(sheet: Sheet) -> Iterator[tuple[bool, float, tuple[float, float]]]:
    """Every tick: whether it is upright, where it stands, from where to where it runs."""
    for mark in sheet.marks:
        if isinstance(mark, Lines) and mark.stroke_mm == 0.25 and mark.fill is None:
            for start, end in (line for line in mark.lines if len(line) == 2):
                if start[0] == end[0] and abs(start[1] - end[1]) < 4.0:
                    yield True, start[0], (min(start[1], end[1]), max(start[1], end[1]))
                elif start[1] == end[1] and abs(start[0] - end[0]) < 4.0:
                    yield False, start[1], (min(start[0], end[0]), max(start[0], end[0]))


def measured(black: np.ndarray, sheet: Sheet) -> tuple[list[float], list[float]]:
    """Edges of the page's own piece as they are printed: x of both sides, y of both."""
    found: dict[tuple[bool, float], list[float]] = {}
    for upright, at, along in ticks(sheet):
        picture = black if upright else black.T
        short = along[0] + 0.3, along[1] - 0.3
        found.setdefault((upright, round(at, 6)), []).append(middle_of_tick(picture, at, short))
    for places in found.values():
        assert max(places) - min(places) <= 1.5 / PER_MM
    sides = [
        [float(np.mean(found[key])) for key in sorted(found) if key[0] is upright]
        for upright in (True, False)
    ]
    return sides[0], sides[1]


@on_each
def test_the_corners_of_the_plate_lie_true_to_a_tenth_of_a_millimetre(
    folder: Path, paper: Paper, size: PlateSize
) -> None:
    pieces = []
    for black, sheet in zip(images(folder, paper, size), pages(paper, size), strict=True):
        (left, right), (top, foot) = measured(black, sheet)
        upright, level = edges(sheet)
        assert (left, right) == pytest.approx(upright, abs=0.1)
        assert (top, foot) == pytest.approx(level, abs=0.1)
        pieces.append((right - left, foot - top))
    _, columns, rows = LYING[paper, size]
    assert len(pieces) == columns * rows
    width, height = size.width_mm, size.height_mm
    assert sum(wide for wide, _ in pieces[:columns]) == pytest.approx(width, abs=0.1)
    assert sum(high for _, high in pieces[::columns]) == pytest.approx(height, abs=0.1)


@on_each
def test_the_check_bar_measures_fifty_millimetres(
    folder: Path, paper: Paper, size: PlateSize
) -> None:
    for black, sheet in zip(images(folder, paper, size), pages(paper, size), strict=True):
        bar = next(
            mark
            for mark in sheet.marks
            if isinstance(mark, Lines)
            and mark.fill is not None
            and len(mark.lines) == 3
            and mark.lines[0][1][0] - mark.lines[0][0][0] == pytest.approx(10.0)
        )
        (x, y), foot = bar.lines[0][0], bar.lines[0][2][1]
        row = black[round((y + foot) / 2 * PER_MM)]
        inked = np.nonzero(row[: round((x + 51.0) * PER_MM)])[0]
        assert (inked[-1] + 1 - inked[0]) / PER_MM == pytest.approx(50.0, abs=0.1)


@on_each
def test_pieces_cut_at_their_ticks_show_the_tones_to_a_cell(
    folder: Path, paper: Paper, size: PlateSize
) -> None:
    from scipy import ndimage

    whole = np.zeros((grid(size).height, grid(size).width), dtype=bool)
    x = y = 0.0
    for black, sheet in zip(images(folder, paper, size), pages(paper, size), strict=True):
        (left, right), (top, foot) = edges(sheet)
        rows = np.arange(np.ceil(y * 8 - 0.5), np.ceil((y + foot - top) * 8 - 0.5)).astype(int)
        columns = np.arange(np.ceil(x * 8 - 0.5), np.ceil((x + right - left) * 8 - 0.5)).astype(int)
        down = ((top + (rows + 0.5) / 8.0 - y) * PER_MM).astype(int)
        along = ((left + (columns + 0.5) / 8.0 - x) * PER_MM).astype(int)
        whole[np.ix_(rows, columns)] = black[np.ix_(down, along)]
        x += right - left
        if x > size.width_mm - 1e-6:
            x, y = 0.0, y + foot - top
    assert y == pytest.approx(size.height_mm)
    back = whole[:, ::-1]
    now, covered = tones(size) == STEP - 1, tones(size) < STEP - 1
    bare = ndimage.binary_erosion(~now & ~covered, np.ones((3, 3)), border_value=1)
    assert not back[bare].any()
    depth = ndimage.distance_transform_cdt(np.pad(now, 1, mode="edge"), "chessboard")[1:-1, 1:-1]
    assert back[(depth >= 2) & (depth <= 3)].all()
    assert 0.4 < back[depth > 8].mean() < 0.6
    assert 0.04 < back[covered].mean() < 0.12


@on_each
def test_nothing_is_printed_in_the_margins(folder: Path, paper: Paper, size: PlateSize) -> None:
    margin = round(8.0 * PER_MM)
    for black in images(folder, paper, size):
        assert black.sum() == black[margin:-margin, margin:-margin].sum()


@on_each
def test_the_page_is_the_paper_turned_where_that_takes_fewer(
    folder: Path, paper: Paper, size: PlateSize
) -> None:
    lies = LYING[paper, size][0]
    for page in PdfReader(file_of(folder, paper, size)).pages:
        sides = float(page.mediabox.width), float(page.mediabox.height)
        assert sides == pytest.approx(
            (lies.width_mm / 25.4 * 72, lies.height_mm / 25.4 * 72), abs=0.51
        )
        assert page.rotation == 0


@on_each
def test_the_words_can_be_read_out_of_the_pdf(folder: Path, paper: Paper, size: PlateSize) -> None:
    path = file_of(folder, paper, size)
    words = normal(output_of("pdftotext", "-layout", path, "-"))
    count = len(pages(paper, size))
    for number in range(1, count + 1):
        assert f"16 March 2026 · page {number} of {count} · true size, 1 : 1" in words
    assert words.count("Mirrored, as on the plate. The bite makes tone 3.") == count
    assert words.count("Map · step 3: stop out tone 2") == count
    assert words.count("paint now covered already open metal, bites") == count


@on_each
def test_a_page_weighs_less_than_three_megabytes(
    folder: Path, paper: Paper, size: PlateSize
) -> None:
    weight = file_of(folder, paper, size).stat().st_size
    assert weight < 3_000_000 * len(pages(paper, size))


def test_dots_stay_one_bit_deep(folder: Path) -> None:
    listed = output_of("pdfimages", "-list", file_of(folder, A4, LONG)).splitlines()[2:]
    assert {(row.split()[5], row.split()[7]) for row in listed} == {("gray", "1")}
