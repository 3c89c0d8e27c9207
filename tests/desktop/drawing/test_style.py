"""Contrasts of the table of colours, and the letters."""

import re
from dataclasses import fields
from itertools import product

import pytest
from PySide6.QtGui import QFontInfo, QPalette
from PySide6.QtWidgets import QApplication, QWidget

from toneladder_desktop.drawing.style import (
    DARK,
    LIGHT,
    ON_SURROUND,
    SURROUND,
    Colours,
    Scheme,
    Type,
    colours_for,
    colours_of,
    font,
    palette_of,
    style_sheet_of,
)

both = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])


def light(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it, written out here from its text."""
    parts = [int(colour[k : k + 2], 16) / 255.0 for k in (1, 3, 5)]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((light(one), light(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_measure_of_contrast_is_right_at_both_ends() -> None:
    # WCAG 2.2, success criterion 1.4.3: from 1:1 to 21:1; #777777 on white is 4.48 (from memory)
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)


@both
def test_text_has_at_least_four_and_a_half_to_one(colours: Colours) -> None:
    """WCAG 2.2, 1.4.3."""
    grounds = (colours.ground, colours.sheet, colours.tint)
    for text, ground in product((colours.ink, colours.pencil, colours.accent), grounds):
        assert contrast(text, ground) >= 4.5, (text, ground)
    assert contrast(colours.on_accent, colours.accent) >= 4.5
    assert contrast(ON_SURROUND, SURROUND) >= 4.5


@both
def test_edges_that_mean_something_have_at_least_three_to_one(colours: Colours) -> None:
    """WCAG 2.2, 1.4.11."""
    for mark, ground in product((colours.edge, colours.accent), (colours.ground, colours.sheet)):
        assert contrast(mark, ground) >= 3.0, (mark, ground)


@both
def test_a_widget_knows_what_it_wears(colours: Colours, qapp: QApplication) -> None:
    assert qapp is not None
    widget = QWidget()
    widget.setPalette(palette_of(colours))
    assert colours_of(widget) is colours
    role = QPalette.ColorRole
    assert widget.palette().color(role.WindowText).name().upper() == colours.ink
    assert widget.palette().color(role.Accent).name().upper() == colours.accent


@both
def test_the_sheet_knows_no_colour_that_is_not_in_the_table(colours: Colours) -> None:
    known = {getattr(colours, field.name) for field in fields(colours)}
    used = set(re.findall(r"#[0-9A-Fa-f]{6}\b", style_sheet_of(colours)))
    assert used
    assert used <= known


@pytest.mark.parametrize("kind", list(Type))
def test_every_kind_of_text_is_set_in_its_bundled_letters(kind: Type, qapp: QApplication) -> None:
    assert qapp is not None
    face, size = kind.value
    found = QFontInfo(font(kind))
    assert (found.family(), found.pixelSize()) == (face.family, size)
    assert size >= 13


def test_a_scheme_can_be_chosen_over_the_desktops(qapp: QApplication) -> None:
    assert colours_for(Scheme.DARK, qapp) is DARK
    assert colours_for(Scheme.LIGHT, qapp) is LIGHT
    assert colours_for(Scheme.SYSTEM, qapp) in {LIGHT, DARK}
