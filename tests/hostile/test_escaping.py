"""Titles, names and notes are what they are, wherever they go: never a formula, tag or command."""

import csv
import io
import json
import re
from dataclasses import replace
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from pypdf import PdfReader
from pypdf.generic import DictionaryObject
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot
from tests.hostile.archives import plate
from tests.hostile.pictures import pictures

import toneladder_desktop
from toneladder.bite.fitting.values import Patch
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.export import order_json
from toneladder.plan.planning import Plan, plan
from toneladder.plate.values import Plate
from toneladder.sheets.documents import Kind, Wanted, documents, order_pages
from toneladder.sheets.marks import A4
from toneladder.sheets.tracing_svg import map_svg, tracing_svg
from toneladder.strip.table import read_table, safe_cell, write_table
from toneladder_desktop.bench.opening import file_name
from toneladder_desktop.fittings.explaining import as_tip
from toneladder_desktop.fittings.label import Label
from toneladder_desktop.output.pdf import pdf_bytes

TITLES = (
    "</title><script>alert(1)</script>",
    "]]><!--&amp;'\"&#0;",
    '=HYPERLINK("http://127.0.0.1/","x")',
    "\u202eetalp\u202c {name} {0.__class__} %s %n \\n",
    "\x1b[31mred\x07\x00\x0b",
    "A" * 4_000,
    "ŵ𝔚Ω水 🜁 e\u0301",
    "../../../etc/passwd",
    ") Tj ET (\\",
)
SVG = "{http://www.w3.org/2000/svg}"


@cache
def planned() -> Plan:
    picture = open_picture(pictures()["png"], name="x")
    return plan(picture, Plate("x", picture.ref, PlateSize(30.0, 22.0)))


def titled(title: str) -> Plan:
    return replace(planned(), plate=replace(planned().plate, title=title))


@pytest.mark.parametrize("title", TITLES, ids=range(len(TITLES)))
def test_a_title_in_an_svg_is_text_and_nothing_else(title: str) -> None:
    usual = ET.fromstring(tracing_svg((), PlateSize(30.0, 22.0), title="x"))  # noqa: S314 (ours)
    for text in (
        tracing_svg((), PlateSize(30.0, 22.0), title=title),
        map_svg((), 1, PlateSize(30.0, 22.0), title=title),
    ):
        root = ET.fromstring(text)  # noqa: S314 (ours)
        shown = root.findtext(f"{SVG}title") or ""
        plain = "".join(letter for letter in title if letter.isprintable())
        assert plain[:40] in "".join(letter for letter in shown if letter.isprintable())
        assert not root.findall(f".//{SVG}script")
    found = ET.fromstring(tracing_svg((), PlateSize(30.0, 22.0), title=title))  # noqa: S314 (ours)
    assert [one.tag for one in found.iter()] == [one.tag for one in usual.iter()]


@pytest.mark.parametrize("title", TITLES, ids=range(len(TITLES)))
def test_a_title_stays_inside_of_its_sheet_and_its_json(title: str) -> None:
    made = titled(title)
    pdf = PdfReader(BytesIO(pdf_bytes(order_pages(made, date(2026, 3, 16), A4))))
    assert len(pdf.pages) >= 1
    for page in pdf.pages:
        assert "/AA" not in page
        assert not page.get("/Annots", DictionaryObject()).get_object()
    assert not {"/OpenAction", "/AA", "/AcroForm"} & set(pdf.root_object)
    json.loads(order_json(made))


def test_documents_of_a_hostile_title_have_plain_names() -> None:
    made = titled(TITLES[7] + TITLES[0])
    wanted = Wanted(made_on=date(2026, 3, 16), paper=A4, kinds=tuple(Kind))
    names = [document.name for document in documents(made, wanted)]
    assert names
    for name in names:
        assert not {"/", "\\", "\0"} & set(name)
        assert name != ".."


@pytest.mark.parametrize("title", TITLES, ids=range(len(TITLES)))
def test_a_suggested_name_stays_in_its_folder(title: str) -> None:
    name = file_name(title, ".plate")
    assert name.endswith(".plate")
    assert not {"/", "\\", "\0", "\n"} & set(name)
    assert not name.startswith(".")
    assert len(name) < 100


def test_no_words_on_the_window_are_taken_for_markup() -> None:
    folder = Path(toneladder_desktop.__file__).parent
    bare = [
        path.name
        for path in folder.rglob("*.py")
        if re.search(r"\bQLabel\(", path.read_text(encoding="utf-8"))
    ]
    assert not bare


def test_a_label_shows_its_words_as_they_are(qtbot: QtBot, tmp_path: Path) -> None:
    text = f"<img src='{tmp_path}/a.png'><h1>&amp;</h1>"
    for label in (Label(text), Label(text, None), Label()):
        qtbot.addWidget(label)
        label.setText(text)
        assert label.textFormat() is Qt.TextFormat.PlainText
        plain = QLabel("<h1>x")
        qtbot.addWidget(plain)
        assert label.sizeHint().width() > 4 * plain.sizeHint().width()
    assert as_tip("<b>x & y") == "<p>&lt;b&gt;x &amp; y</p>"


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_no_cell_of_a_table_is_a_formula(cell: str) -> None:
    assert safe_cell(cell) == f"'{cell}"
    assert safe_cell("a" + cell) == "a" + cell


def test_no_row_of_a_written_table_is_a_formula() -> None:
    patches = (Patch(0.0, 91.0), Patch(1e-9, 0.0, 0.1), Patch(123_456.5, 100.0, 20.0))
    rows = list(csv.reader(io.StringIO(write_table(patches))))
    assert not [cell for row in rows for cell in row if cell[:1] in "=+-@\t\r" and cell]
    found = read_table(write_table(patches)).patches
    assert [patch.total_bite_s for patch in found] == [0.0, 0.0, 123_456.5]


def test_the_plate_of_these_tests_has_something_of_everything() -> None:
    assert plate().evidence.strips
    assert plate().margin_strip
