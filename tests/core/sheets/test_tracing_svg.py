"""The drawing read back: as XML, and filled again from its own paths."""

import itertools
import re
from collections.abc import Iterator
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy import ndimage
from skimage.draw import line as drawn_line
from skimage.draw import polygon2mask

from toneladder.borders.arcs import OUTSIDE, Arc, trace
from toneladder.borders.numbers import place_numbers
from toneladder.borders.remedies import Passage
from toneladder.borders.soft import soft_passages
from toneladder.borders.values import Soft
from toneladder.optics import FloatArray
from toneladder.picture.values import PlateSize
from toneladder.sheets.tracing_svg import map_svg, tracing_svg
from toneladder.tones.parting import ToneArray

PX = 8.0
SVG = "{http://www.w3.org/2000/svg}"
# The plate is a little wider than its cells: the mirror stands at the plate's own width.
SIZE = PlateSize(30.05, 20.0)


def hills() -> ToneArray:
    noise = np.random.default_rng(11).normal(size=(160, 240))
    height = ndimage.gaussian_filter(noise, 7.0)
    tones: ToneArray = np.digitize(height, np.quantile(height, [0.3, 0.5, 0.7])).astype(np.uint8)
    return tones


def read(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314  # written by ourselves a moment ago


def paths(root: ET.Element, name: str) -> Iterator[tuple[FloatArray, bool]]:
    """Points of every subpath of a class, and whether it is closed."""
    for element in root.iter(f"{SVG}path"):
        if element.get("class") == name:
            for subpath in re.findall(r"M([^MZ]*)(Z?)", element.get("d", "")):
                points = [pair.split() for pair in subpath[0].split("L")]
                yield np.array(points, dtype=np.float64), bool(subpath[1])


def on_grid(points: FloatArray) -> FloatArray:
    """Rows and columns of the grid, as the print is seen."""
    return np.stack([points[:, 1], SIZE.width_mm - points[:, 0]], axis=1) * PX


@pytest.fixture(scope="module")
def tones() -> ToneArray:
    return hills()


@pytest.fixture(scope="module")
def arcs(tones: ToneArray) -> tuple[Arc, ...]:
    return trace(tones, PX)


@pytest.fixture(scope="module")
def passages(arcs: tuple[Arc, ...]) -> tuple[Passage, ...]:
    lightness = 50.0 + np.cumsum(np.linspace(0.0, 8.0, 240))[None, :] / PX * np.ones((160, 1))
    return soft_passages(arcs, lightness, PX, Soft(shortest_mm=3.0), 4)


def test_one_unit_is_one_millimetre(arcs: tuple[Arc, ...]) -> None:
    root = read(tracing_svg(arcs, SIZE, title="Hills"))
    assert root.tag == f"{SVG}svg"
    assert root.get("viewBox") == "0 0 30.05 20"
    assert (root.get("width"), root.get("height")) == ("30.05mm", "20mm")
    assert root.findtext(f"{SVG}title") == "Tracing: Hills"


def test_every_border_is_one_path(arcs: tuple[Arc, ...]) -> None:
    root = read(tracing_svg(arcs, SIZE))
    borders = [arc for arc in arcs if arc.left != OUTSIDE]
    drawn = [path for path in root.iter(f"{SVG}path") if path.get("class") == "border"]
    assert len(drawn) == len(borders)
    assert {p.get("data-tones") for p in drawn} == {f"{a.left} {a.right}" for a in borders}
    ends = [tuple(np.round(points[0], 3)) for points, _ in paths(root, "border")]
    for (x, y), arc in zip(ends, borders, strict=True):
        assert (x, y) == pytest.approx((30.05 - arc.points[0, 0], arc.points[0, 1]), abs=6e-4)


def fields(root: ET.Element, fine: int) -> NDArray[np.int32]:
    """The fields between all lines, drawn ``fine`` dots to the cell; 0 on lines."""
    lines = np.zeros((160 * fine + 1, 240 * fine + 1), dtype=np.bool_)
    for name in ("edge", "border", "soft"):
        for points, closed in paths(root, name):
            dots = np.rint(on_grid(points) * fine).astype(int)
            ring = np.vstack([dots, dots[:1]]) if closed else dots
            for (r0, c0), (r1, c1) in itertools.pairwise(ring):
                lines[drawn_line(r0, c0, r1, c1)] = True
    labels, _ = ndimage.label(~lines)
    return np.asarray(labels, dtype=np.int32)


@pytest.mark.parametrize("dotted", [False, True])
def test_the_lines_enclose_the_cells_of_every_tone(
    tones: ToneArray, arcs: tuple[Arc, ...], passages: tuple[Passage, ...], *, dotted: bool
) -> None:
    root = read(tracing_svg(arcs, SIZE, passages=passages if dotted else ()))
    fine = 16
    of_cell = fields(root, fine)[fine // 2 :: fine, fine // 2 :: fine][:160, :240]
    agree = np.zeros(tones.shape, dtype=np.bool_)
    for field in np.unique(of_cell[of_cell > 0]):
        inside = of_cell == field
        agree |= inside & (tones == np.bincount(tones[inside]).argmax())
    assert agree.mean() >= 0.995
    for tone in range(4):
        off = ~agree & (tones == tone)
        home = ndimage.distance_transform_edt(~(agree & (tones == tone)))
        assert home[off].max(initial=0.0) <= 0.5 * PX


@pytest.mark.parametrize("step", [1, 2, 3])
def test_a_map_mirrored_back_equals_the_cells_of_its_step(
    tones: ToneArray, arcs: tuple[Arc, ...], step: int
) -> None:
    root = read(map_svg(arcs, step, SIZE, title="Hills"))
    for name, wanted in (("new", tones == step - 1), ("covered", tones < step - 1)):
        filled = np.zeros(tones.shape, dtype=np.bool_)
        for ring, closed in paths(root, name):
            assert closed
            filled ^= polygon2mask(tones.shape, on_grid(ring) - 0.5)
        assert np.array_equal(filled, wanted)
    (new,) = (p for p in root.iter(f"{SVG}path") if p.get("class") == "new")
    assert new.get("fill-rule") == "evenodd"


def test_soft_passages_are_dotted_and_not_drawn_twice(
    tones: ToneArray, arcs: tuple[Arc, ...], passages: tuple[Passage, ...]
) -> None:
    assert passages
    numbered = place_numbers(tones, PX, figure_mm=1.6)
    root = read(tracing_svg(arcs, SIZE, passages=passages, numbered=numbered))
    (group,) = (g for g in root.iter(f"{SVG}g") if g.get("class") == "softs")
    assert group.get("stroke-dasharray")
    soft = np.concatenate([points for points, _ in paths(root, "soft")])
    hard = np.concatenate([points[1:-1] for points, _ in paths(root, "border")])
    assert not set(map(tuple, soft.tolist())) & set(map(tuple, hard.tolist()))
    words = [t.text or "" for t in root.iter(f"{SVG}text") if t.get("class") == "remedy"]
    may_be = {p.number: {str(p.number), f"{p.number} {p.remedy.value}"} for p in passages}
    assert words
    assert all(word in may_be[int(word.split()[0])] for word in words)


def test_numbers_stand_mirrored_in_their_tones_and_leaders_reach_them(
    tones: ToneArray, arcs: tuple[Arc, ...]
) -> None:
    numbered = place_numbers(tones, PX, figure_mm=1.6)
    numbers = numbered.numbers
    root = read(tracing_svg(arcs, SIZE, numbered=numbered, figure_mm=1.6))
    texts = [t for t in root.iter(f"{SVG}text") if t.get("class") == "number"]
    assert len(texts) == len(numbers)
    for text, number in zip(texts, numbers, strict=True):
        middle = np.array([[float(text.get("x", "")), float(text.get("y", "")) - 0.8]])
        row, column = on_grid(middle)[0].astype(int)
        if not number.leaders:
            assert tones[row, column] == number.tone == int(text.text or "")
    leaders = [line for line in root.iter(f"{SVG}line") if line.get("class") == "leader"]
    pointed = [(number.tone, point) for number in numbers for point in number.leaders]
    assert len(leaders) == len(pointed) > 0
    for leader, (tone, _) in zip(leaders, pointed, strict=True):
        end = np.array([[float(leader.get("x2", "")), float(leader.get("y2", ""))]])
        row, column = on_grid(end)[0].astype(int)
        assert tones[row, column] == tone


def test_a_title_may_hold_anything(arcs: tuple[Arc, ...]) -> None:
    title = 'Cliff & <foam> "two" ]]>'
    root = read(tracing_svg(arcs, SIZE, title=title))
    assert root.findtext(f"{SVG}title") == f"Tracing: {title}"
