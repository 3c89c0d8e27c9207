"""Tracing and stop-out map as SVG: lines and areas in millimetres, mirrored as on the plate.

One unit of the drawing is a millimetre. A border is one path, whichever areas share it.
"""

import re
from collections.abc import Iterable, Sequence
from xml.etree import ElementTree as ET

from toneladder.borders.arcs import OUTSIDE, Arc, rings
from toneladder.borders.labels import place_labels
from toneladder.borders.numbers import Number, Numbered
from toneladder.borders.remedies import Passage
from toneladder.borders.room import Room
from toneladder.borders.stretches import soft_stretches
from toneladder.borders.values import Remedy
from toneladder.lettering import Face, text_width
from toneladder.optics import FloatArray
from toneladder.picture.values import PlateSize
from toneladder.sheets.figures import figure, figures
from toneladder.wording import say

_NO_LETTER = re.compile("[^\t\n\r -\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 has no place for, section 2.2."""

_LINE_MM = 0.2
_EDGE_MM = 0.3
_LEADER_MM = 0.1
_DOT_MM, _DOTS_APART_MM = 0.4, 1.2
_REMEDY_MM = 1.6
_FIGURE_EM = 0.72  # height of a figure in the letters that most programs have; from memory
_COVERED_LINE_MM, _COVERED_APART_MM = 0.15, 1.3  # an eighth of ink


def tracing_svg(
    arcs: Sequence[Arc],
    size: PlateSize,
    *,
    numbered: Numbered | None = None,
    passages: Sequence[Passage] = (),
    title: str = "",
    figure_mm: float = 2.4,
) -> str:
    """The borders of a plate, with the numbers of its tones.

    Parameters
    ----------
    arcs : sequence of Arc
        Everything that was traced; those along etched lines may be left out.
    size : PlateSize
        The drawing is as large, and mirrored about its width.
    numbered : Numbered, optional
        Where tones are named; remedies stand where it left room.
    passages : sequence of Passage
        Found on the same arcs; their stretches are dotted.
    title : str
        Name of the plate.
    figure_mm : float
        Height of the figures for which numbers were placed.

    Returns
    -------
    str
        An SVG file. Its classes: ``edge``, ``border``, ``soft``, ``remedy``, ``leader``,
        ``number``; ``data-tones`` names the tones on either side of a border.
    """
    root = _drawing(size, say("Tracing: {title}", title=title))
    hard, soft = soft_stretches(arcs, passages)
    _lines(root, "edge", _EDGE_MM, (arc for arc in arcs if arc.left == OUTSIDE), size)
    _lines(root, "border", _LINE_MM, (arc for arc in hard if arc.left != OUTSIDE), size)
    dotted = _lines(root, "soft", _DOT_MM, soft, size)
    dotted.set("stroke-dasharray", f"0.01 {_DOTS_APART_MM}")
    dotted.set("stroke-linecap", "round")
    if numbered is not None:
        _numbers(root, numbered.numbers, size, figure_mm)
        _remedies(root, passages, numbered.room, size)
    return _text_of(root)


def map_svg(arcs: Sequence[Arc], step: int, size: PlateSize, *, title: str = "") -> str:
    """What step ``step`` stops out, over what is covered already.

    Parameters
    ----------
    arcs : sequence of Arc
        Everything that was traced.
    step : int, >= 1
        Step n stops out tone n - 1.
    size : PlateSize
        The drawing is as large, and mirrored about its width.
    title : str
        Name of the plate.

    Returns
    -------
    str
        An SVG file. Its classes: ``covered`` (wide lines), ``new`` (black) and ``edge``.
    """
    root = _drawing(size, say("Stop-out map of step {step}: {title}", step=step, title=title))
    _covered_pattern(root)
    areas = (("covered", range(step - 1), "url(#wide-lines)"), ("new", (step - 1,), "#000"))
    for name, tones, fill in areas:
        outline = "".join(_path(_mirrored(ring, size), closed=True) for ring in rings(arcs, tones))
        if outline:
            attributes = {"class": name, "d": outline, "fill": fill, "fill-rule": "evenodd"}
            ET.SubElement(root, "path", attributes)
    _lines(root, "edge", _EDGE_MM, (arc for arc in arcs if arc.left == OUTSIDE), size)
    return _text_of(root)


def _drawing(size: PlateSize, title: str) -> ET.Element:
    width, height = figure(size.width_mm), figure(size.height_mm)
    root = ET.Element(
        "svg",
        {
            "xmlns": "http://www.w3.org/2000/svg",
            "width": f"{width}mm",
            "height": f"{height}mm",
            "viewBox": f"0 0 {width} {height}",
        },
    )
    ET.SubElement(root, "title").text = _NO_LETTER.sub("\N{REPLACEMENT CHARACTER}", title)
    ET.SubElement(root, "desc").text = say(
        "Mirrored, as on the plate: left here is left on the plate. One unit is one millimetre."
    )
    return root


def _lines(
    root: ET.Element, name: str, stroke_mm: float, arcs: Iterable[Arc], size: PlateSize
) -> ET.Element:
    group = ET.SubElement(
        root,
        "g",
        {
            "class": f"{name}s",
            "fill": "none",
            "stroke": "#000",
            "stroke-width": figure(stroke_mm),
            "stroke-linejoin": "round",
        },
    )
    for arc in arcs:
        outline = _path(_mirrored(arc.points, size), closed=arc.closed)
        path = ET.SubElement(group, "path", {"class": name, "d": outline})
        if arc.left != OUTSIDE:
            path.set("data-tones", f"{arc.left} {arc.right}")
    return group


def _remedies(root: ET.Element, passages: Sequence[Passage], room: Room, size: PlateSize) -> None:
    group = ET.SubElement(root, "g", _lettering("remedies", _REMEDY_MM))
    treated = [passage for passage in passages if passage.remedy is not Remedy.NONE]
    places = place_labels(
        treated, room, lambda passage: [_label_mm(text) for text in _forms(passage)]
    )
    for passage in treated:
        if passage.number in places:
            form, (x, y) = places[passage.number]
            text = _forms(passage)[form]
            _letters(group, "remedy", text, size.width_mm - x, y + _REMEDY_MM / 2.0)


def _forms(passage: Passage) -> tuple[str, str]:
    """The label of a passage: its number with its remedy, or where room is short its number."""
    return f"{passage.number} {say(passage.remedy.value)}", str(passage.number)


def _label_mm(text: str) -> tuple[float, float]:
    """Width and height of a label, with some air for letters that are not ours."""
    return text_width(text, Face.SANS, _REMEDY_MM / _FIGURE_EM) * 1.1, _REMEDY_MM * 1.5


def _numbers(
    root: ET.Element, numbers: Sequence[Number], size: PlateSize, figure_mm: float
) -> None:
    leaders = ET.SubElement(
        root, "g", {"class": "leaders", "stroke": "#000", "stroke-width": figure(_LEADER_MM)}
    )
    group = ET.SubElement(root, "g", _lettering("numbers", figure_mm))
    for number in numbers:
        x = size.width_mm - number.x_mm
        _letters(group, "number", str(number.tone), x, number.y_mm + figure_mm / 2.0)
        for to_x, to_y in number.leaders:
            away = (number.x_mm - to_x, number.y_mm - to_y)
            share = 1.0 - number.radius_mm / max(float((away[0] ** 2 + away[1] ** 2) ** 0.5), 1e-9)
            start, end = size.width_mm - to_x - share * away[0], to_y + share * away[1]
            ET.SubElement(
                leaders,
                "line",
                {
                    "class": "leader",
                    "x1": figure(start),
                    "y1": figure(end),
                    "x2": figure(size.width_mm - to_x),
                    "y2": figure(to_y),
                },
            )


def _covered_pattern(root: ET.Element) -> None:
    apart = figure(_COVERED_APART_MM)
    pattern = ET.SubElement(
        ET.SubElement(root, "defs"),
        "pattern",
        {
            "id": "wide-lines",
            "width": apart,
            "height": apart,
            "patternUnits": "userSpaceOnUse",
            "patternTransform": "rotate(45)",
        },
    )
    stripe = {"width": figure(_COVERED_LINE_MM), "height": apart, "fill": "#000"}
    ET.SubElement(pattern, "rect", stripe)


def _lettering(name: str, figure_mm: float) -> dict[str, str]:
    return {
        "class": name,
        "font-family": "sans-serif",
        "font-size": figure(figure_mm / _FIGURE_EM),
        "text-anchor": "middle",
    }


def _letters(group: ET.Element, name: str, text: str, x: float, y: float) -> None:
    ET.SubElement(group, "text", {"class": name, "x": figure(x), "y": figure(y)}).text = text


def _mirrored(points: FloatArray, size: PlateSize) -> FloatArray:
    """``points`` as they lie on the plate; the mirror stands at the plate's own width."""
    return points * (-1.0, 1.0) + (size.width_mm, 0.0)


def _path(points: FloatArray, *, closed: bool) -> str:
    numbers = figures(points.ravel())
    places = "L".join(map(" ".join, zip(numbers[::2], numbers[1::2], strict=True)))
    return f"M{places}{'Z' if closed else ''}"


def _text_of(root: ET.Element) -> str:
    ET.indent(root, " ")
    return ET.tostring(root, encoding="unicode", xml_declaration=False) + "\n"
