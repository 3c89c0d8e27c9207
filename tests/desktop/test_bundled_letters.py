"""Qt draws with the bundled letters, and as wide as they are measured."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFont, QFontDatabase, QFontInfo, QFontMetricsF, QImage, QPainter
from PySide6.QtWidgets import QApplication

from toneladder.lettering import Face, font_path, text_width

SENTENCE = "To stop out: office, file, AVA. 1 min 15 s × 20 °C “Tone” ½ ☐ ▲ → ≈ 0.8 µm Ω"
every_face = pytest.mark.parametrize("face", list(Face))


def letters(face: Face, size_px: int) -> QFont:
    assert QFontDatabase.addApplicationFont(str(font_path(face))) >= 0
    font = QFont(face.family)
    font.setPixelSize(size_px)
    font.setBold(face.bold)
    font.setItalic(face.italic)
    font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
    return font


def drawn(text: str, font: QFont) -> bytes:
    image = QImage(64, 64, QImage.Format.Format_Grayscale8)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.setFont(font)
    painter.drawText(8, 48, text)
    painter.end()
    return bytes(image.constBits())


@pytest.mark.usefixtures("qapp")
@every_face
def test_qt_finds_the_face_and_no_other(face: Face) -> None:
    found = QFontInfo(letters(face, 20))
    assert (found.family(), found.bold(), found.italic()) == (face.family, face.bold, face.italic)


@pytest.mark.usefixtures("qapp")
@every_face
def test_every_letter_looks_different_so_none_is_an_empty_box(face: Face) -> None:
    font = letters(face, 40)
    signs = "abgHW0158½°×−…→≈☐✓▲▶"
    assert len({drawn(sign, font) for sign in signs}) == len(signs)
    assert drawn("a", font) != drawn(" ", font)


@every_face
def test_qt_sets_a_line_as_wide_as_it_is_measured(face: Face, qapp: QApplication) -> None:
    assert qapp is not None
    width = QFontMetricsF(letters(face, 1000)).horizontalAdvance(SENTENCE)
    assert width == pytest.approx(text_width(SENTENCE, face, 1000.0), abs=1.0)
