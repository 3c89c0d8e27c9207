"""The PDF is the sheet: true size, black alone, its letters embedded and its text readable."""

import subprocess
import sys
import unicodedata
from collections.abc import Iterator
from datetime import date
from functools import cache
from io import BytesIO
from pathlib import Path
from shutil import which
from typing import Any

import numpy as np
import pytest
from PIL import Image
from pypdf import PageObject, PdfReader

from toneladder.bite.values import Standing
from toneladder.errors import OutputError
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plate.values import Plate
from toneladder.quantities import write_bite
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Sheet, line
from toneladder.sheets.marks import Path as Lines
from toneladder.sheets.marks import Text as Words
from toneladder.sheets.order_sheet import order_sheet
from toneladder.tones.values import ToneChoice
from toneladder_desktop.output.pdf import write_pdf

pytestmark = pytest.mark.usefixtures("qapp")

MARGIN_MM = 8.0
LEAST_MM = 9.3  # ISO 9241-303, from memory: 16 minutes of arc at two metres
papers = pytest.mark.parametrize("paper", [A4, LETTER], ids=lambda paper: paper.name)
counts = pytest.mark.parametrize("count", range(2, 13))
needs_poppler = pytest.mark.skipif(which("pdftoppm") is None, reason="poppler-utils is missing")


@cache
def planned(count: int) -> Plan:
    y, x = np.mgrid[0:300, 0:400]
    grey = np.clip(128 + 90 * np.sin(x / 61) + 60 * np.cos(y / 37 + x / 90), 0, 255)
    file = BytesIO()
    Image.fromarray(grey.astype(np.uint8)).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="waves.png")
    tones = ToneChoice(count=count, gap_lightness=0.0)
    return plan(picture, Plate("Waves", picture.ref, PlateSize(120, 90), tones=tones))


@cache
def sheets(count: int, paper: Paper) -> tuple[Sheet, ...]:
    made = planned(count)
    bites = tuple(step.bite_s for step in made.order.steps)
    return order_sheet(
        made.plate,
        made.order,
        made.tones,
        standing=Standing.UNTESTED,
        source=made.curve.source,
        made_on=date(2026, 3, 16),
        paper=paper,
        bath_bites={18.0: tuple(1.1 * bite for bite in bites), 22.0: bites},
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("sheets")


@pytest.fixture
def order_pdf(folder: Path, count: int, paper: Paper) -> Path:
    path = folder / f"{count}-{paper.name}.pdf"
    if not path.exists():
        write_pdf(sheets(count, paper), path)
    return path


def normal(text: str) -> str:
    return " ".join(unicodedata.normalize("NFKC", text).split())


def output_of(*command: str | Path) -> str:
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


def rendered(path: Path, dpi: int) -> list[np.ndarray]:
    """Pages as grey values, drawn by an independent program without smoothing."""
    stem = path.with_suffix("")
    plain = ["-aa", "no", "-aaVector", "no"]
    subprocess.run(["pdftoppm", "-gray", "-r", str(dpi), *plain, path, stem], check=True)
    pages = sorted(stem.parent.glob(f"{stem.name}-*.pgm"))
    arrays = [np.asarray(Image.open(page)) for page in pages]
    for page in pages:
        page.unlink()
    return arrays


def drawn(page: PageObject) -> Iterator[tuple[str, tuple[float, ...], np.ndarray]]:
    """Operators of a page with their numbers and the matrix in force, in points."""
    matrix, kept = np.eye(3), []
    contents = page.get_contents()
    assert contents is not None
    for operands, operator in contents.operations:
        name = operator.decode()
        numbers = tuple(float(it) for it in operands if isinstance(it, int | float))
        if name == "q":
            kept.append(matrix)
        elif name == "Q":
            matrix = kept.pop()
        elif name == "cm":
            a, b, c, d, e, f = numbers
            matrix = np.array([[a, b, 0], [c, d, 0], [e, f, 1]]) @ matrix
        yield name, numbers, matrix


@counts
@papers
@needs_poppler
def test_nothing_is_printed_in_the_margins(order_pdf: Path, paper: Paper, count: int) -> None:
    pages = rendered(order_pdf, 150)
    assert len(pages) == len(sheets(count, paper))
    margin = round(MARGIN_MM * 150 / 25.4)
    for page in pages:
        assert (page < 255).any()
        middle = page[margin:-margin, margin:-margin]
        assert (page < 255).sum() == (middle < 255).sum()


@counts
@papers
@needs_poppler
def test_the_digits_of_every_bite_measure_nine_millimetres_and_more(
    order_pdf: Path, paper: Paper, count: int
) -> None:
    per_mm = 300 / 25.4
    measured = []
    for page, sheet in zip(rendered(order_pdf, 300), sheets(count, paper), strict=True):
        for text in sheet.marks:
            if not (isinstance(text, Words) and text.size_mm > 15.0):
                continue
            size = text.size_mm
            rows = slice(round((text.y - size) * per_mm), round((text.y + 0.1 * size) * per_mm))
            columns = slice(round(text.x * per_mm), round((text.x + text.width) * per_mm))
            inked = np.nonzero((page[rows, columns] < 128).any(axis=1))[0]
            # from the foot up to the first white row: a rule may lie above
            run = np.nonzero(np.diff(inked[::-1]) != -1)[0]
            measured.append((run[0] + 1 if run.size else inked.size) / per_mm)
    steps = planned(count).order.steps
    digits = [part for step in steps for part in write_bite(step.bite_s).split() if part.isdigit()]
    assert len(measured) == len(digits)
    assert min(measured) >= LEAST_MM


@counts
@papers
@needs_poppler
def test_every_bite_can_be_read_out_of_the_pdf(order_pdf: Path, count: int) -> None:
    read = [normal(line) for line in output_of("pdftotext", order_pdf, "-").splitlines()]
    by_poppler = normal(output_of("pdftotext", "-raw", order_pdf, "-"))
    by_pypdf = normal(" ".join(page.extract_text() for page in PdfReader(order_pdf).pages))
    order = planned(count).order
    for step in order.steps:
        bite = normal(write_bite(step.bite_s))
        assert bite in read
        assert f"{bite} makes tone {step.step} ·" in by_pypdf
        assert f"makes tone {step.step} ·" in by_poppler
    for sentence in (*order.cautions, *order.warnings, *order.after):
        assert normal(sentence) in by_poppler
        assert normal(sentence) in by_pypdf


@papers
@needs_poppler
@pytest.mark.parametrize("count", [5])
def test_the_letters_are_embedded(order_pdf: Path) -> None:
    fonts = output_of("pdffonts", order_pdf).splitlines()[2:]
    assert {font.split()[0].split("+")[-1] for font in fonts} >= {
        "ToneLadderSans-Regular",
        "ToneLadderSans-Bold",
        "ToneLadderSerif-Bold",
    }
    # embedded, subset, unicode
    assert all(font.split()[-5] == "yes" and font.split()[-3] == "yes" for font in fonts)


@counts
@papers
def test_the_ink_is_black_and_nothing_else(order_pdf: Path) -> None:
    for page in PdfReader(order_pdf).pages:
        colours = {
            numbers
            for name, numbers, _ in drawn(page)
            if name in {"g", "G", "rg", "RG", "k", "K", "sc", "SC", "scn", "SCN"}
        }
        assert colours <= {(0.0, 0.0, 0.0), (1.0, 1.0, 1.0)}
        for image in page.images:
            assert image.image is not None
            found = image.image.convert("RGB").getcolors()
            assert found is not None
            assert {colour for _, colour in found} <= {(0, 0, 0), (255, 255, 255)}


@papers
@needs_poppler
@pytest.mark.parametrize("count", [5, 12])
def test_a_page_without_pictures_has_no_grey_dot(order_pdf: Path, count: int, paper: Paper) -> None:
    plain = rendered(order_pdf, 300)[-1]
    assert len(planned(count).order.steps) >= 4
    assert set(np.unique(plain)) == {0, 255}
    assert sheets(count, paper)[-1].page > 1


@papers
@pytest.mark.parametrize("count", [5])
def test_pictures_are_kept_without_loss(order_pdf: Path, count: int, paper: Paper) -> None:
    pages = PdfReader(order_pdf).pages
    images = [image for page in pages for image in page.images]
    assert len(images) == count - 1
    shown = [mark for mark in sheets(count, paper)[0].marks if hasattr(mark, "packed")]
    for image, mark in zip(images, shown, strict=True):
        assert image.image is not None
        grey = np.asarray(image.image.convert("L"))
        assert set(np.unique(grey)) <= {0, 255}
        assert np.packbits(grey == 0, axis=1).tobytes() == mark.packed


@pytest.mark.parametrize("paper", [A4, A3, LETTER], ids=lambda paper: paper.name)
@needs_poppler
def test_a_hundred_millimetres_are_a_hundred_millimetres(tmp_path: Path, paper: Paper) -> None:
    path = tmp_path / "bar.pdf"
    bar = line((20.0, 30.0), (120.0, 30.0), 2.0)
    write_pdf([Sheet(paper, (bar,), "bar", 1, 1)], path)
    page = PdfReader(path).pages[0]
    ends = [
        (np.array([*numbers, 1.0]) @ matrix)[:2] * 25.4 / 72
        for name, numbers, matrix in drawn(page)
        if name in {"m", "l"}
    ]
    assert ends[1][0] - ends[0][0] == pytest.approx(100.0, abs=0.001)
    assert ends[0][0] == pytest.approx(20.0, abs=0.001)
    assert float(page.mediabox.height) * 25.4 / 72 - ends[0][1] == pytest.approx(30.0, abs=0.001)
    black = rendered(path, 600)[0] < 128
    dot = 25.4 / 600
    columns, rows = np.nonzero(black.any(axis=0))[0], np.nonzero(black.any(axis=1))[0]
    assert len(columns) * dot == pytest.approx(100.0, abs=1.01 * dot)
    assert columns[0] * dot == pytest.approx(20.0, abs=1.01 * dot)
    assert len(rows) * dot == pytest.approx(2.0, abs=1.01 * dot)
    assert rows[0] * dot == pytest.approx(29.0, abs=1.01 * dot)


@pytest.mark.parametrize("paper", [A4, A3, LETTER], ids=lambda paper: paper.name)
def test_the_page_is_the_paper(tmp_path: Path, paper: Paper) -> None:
    path = tmp_path / "page.pdf"
    write_pdf([Sheet(paper, (), "empty", number, 2) for number in (1, 2)], path)
    reader = PdfReader(path)
    assert len(reader.pages) == 2
    for page in reader.pages:
        # whole points: a third of a millimetre
        assert float(page.mediabox.width) * 25.4 / 72 == pytest.approx(paper.width_mm, abs=0.36)
        assert float(page.mediabox.height) * 25.4 / 72 == pytest.approx(paper.height_mm, abs=0.36)
    assert reader.metadata is not None
    assert reader.metadata.title == "empty"


def test_pages_may_be_of_different_papers(tmp_path: Path) -> None:
    path = tmp_path / "mixed.pdf"
    write_pdf([Sheet(A4, (), "mixed", 1, 2), Sheet(A3, (), "mixed", 2, 2)], path)
    widths = [round(float(page.mediabox.width)) for page in PdfReader(path).pages]
    assert widths == [595, 842]


def test_what_cannot_be_written_leaves_all_as_it_was(tmp_path: Path) -> None:
    sheet = Sheet(A4, (Lines((((10.0, 10.0), (20.0, 20.0)),), stroke_mm=1.0),), "x", 1, 1)
    path = tmp_path / "order.pdf"
    path.mkdir()
    with pytest.raises(OutputError, match=r"order\.pdf could not be written"):
        write_pdf([sheet], path)
    assert list(tmp_path.iterdir()) == [path]
    with pytest.raises(OutputError, match=r"order\.pdf could not be written"):
        write_pdf([sheet], tmp_path / "missing" / "order.pdf")


def test_a_pdf_is_written_without_a_display(tmp_path: Path) -> None:
    program = (
        "import sys\n"
        "from pathlib import Path\n"
        "from toneladder.lettering import Face\n"
        "from toneladder.sheets.marks import A4, Sheet, Text\n"
        "from toneladder_desktop.output.pdf import write_pdf\n"
        "text = Text(20, 20, 'dry', Face.SANS, 5.0)\n"
        "for name in sys.argv[1:]:\n"
        "    write_pdf([Sheet(A4, (text,), 'dry', 1, 1)], Path(name))\n"
    )
    paths = [tmp_path / "first.pdf", tmp_path / "second.pdf"]
    environment: dict[str, Any] = {"PYTHONPATH": ":".join(sys.path), "PATH": "/usr/bin:/bin"}
    subprocess.run([sys.executable, "-c", program, *paths], check=True, env=environment)
    for path in paths:
        assert normal(PdfReader(path).pages[0].extract_text()) == "dry"
