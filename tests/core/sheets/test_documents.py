"""All that a plan brings to paper: the files, their order, nothing laid out in vain."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from tests.core.sheets.conftest import planned
from tests.core.sheets.reading import dots, drawn
from tests.core.sheets.test_order_sheet import outside, overlapping

from toneladder.lines.separating import LineLayer
from toneladder.picture.values import PlateSize
from toneladder.sheets.documents import Document, Kind, Wanted, documents, traced
from toneladder.sheets.marks import A4, LETTER, Paper, Text

TODAY = date(2026, 3, 16)
SIZE = PlateSize(80.0, 60.0)
MAPS = [f"map-{step}.{end}" for step in range(1, 5) for end in ("pdf", "svg")]


def layer_of(depth: np.ndarray) -> LineLayer:
    return LineLayer(depth=depth, ink=np.where(depth > 0, 255, 0).astype(np.uint8), lengths_cm=(5,))


@pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
def test_every_file_is_there_in_order_and_on_its_paper(paper: Paper) -> None:
    found = list(documents(planned(5, SIZE), Wanted(TODAY, paper)))
    assert [document.name for document in found] == [
        "order.pdf",
        *MAPS,
        "tracing.pdf",
        "tracing.svg",
        "guide.pdf",
        "strip-card.pdf",
        "registration.pdf",
    ]
    for document in found:
        assert bool(document.sheets) != bool(document.text)
        for sheet in document.sheets:
            assert sheet.paper == paper
            assert outside(sheet) == []
            assert overlapping(sheet) == []


def test_only_what_is_wanted_is_begun() -> None:
    begun: list[str] = []
    wanted = Wanted(TODAY, kinds=(Kind.GUIDE, Kind.MAPS))
    found = list(documents(planned(5, SIZE), wanted, begun.append))
    assert [document.name for document in found] == [*MAPS, "guide.pdf"]
    assert len(begun) == 2


def test_pen_lines_have_their_sheet_and_are_black_on_the_guide() -> None:
    made = planned(5, SIZE)
    depth = np.zeros(made.tones.shape, dtype=np.uint8)
    depth[200:206, 40:500] = 1
    made = replace(made, prepared=replace(made.prepared, lines=layer_of(depth)))
    found = {it.name: it for it in documents(made, Wanted(TODAY, kinds=(Kind.LINES, Kind.GUIDE)))}
    assert list(found) == ["guide.pdf", "lines.pdf"]
    lines = np.kron(depth[:, ::-1], np.ones((3, 3))) > 0
    assert (dots(drawn(found["lines.pdf"].sheets[0])) == lines).all()
    assert dots(drawn(found["guide.pdf"].sheets[0]))[lines].all()


def test_borders_along_pen_lines_are_not_traced() -> None:
    made = planned(5, SIZE)
    assert len(traced(made).to_trace) == len(traced(made).arcs)
    everywhere = np.ones(made.tones.shape, dtype=np.uint8)
    drawn_over = replace(made, prepared=replace(made.prepared, lines=layer_of(everywhere)))
    assert all(arc.left < 0 for arc in traced(drawn_over).to_trace)


def test_the_tank_sheet_and_the_strip_card_tell_of_one_strip() -> None:
    made = planned(5, SIZE)
    assert made.order.companion is not None
    found = documents(made, Wanted(TODAY, kinds=(Kind.ORDER, Kind.STRIP_CARD)))
    tank, card = (words(document) for document in found)
    line = next(text for text in tank if text.startswith("Its patches"))
    patches = (
        line.removeprefix("Its patches, total bites: 0\u00a0s, ").removesuffix(".").split(", ")
    )
    assert len(patches) == 7
    assert [text for text in card if text in patches][: len(patches)] == patches


def words(document: Document) -> list[str]:
    """Every text of a file's pages, in order."""
    return [
        mark.text for sheet in document.sheets for mark in sheet.marks if isinstance(mark, Text)
    ]
