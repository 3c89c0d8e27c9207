"""All that a plan brings to paper: every file with its pages, or with its text."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from datetime import date
from enum import StrEnum

from toneladder.borders.arcs import Arc, trace
from toneladder.borders.numbers import Numbered, place_numbers
from toneladder.borders.remedies import Passage
from toneladder.borders.stretches import without_lines
from toneladder.order.companion import companion_with
from toneladder.order.temperatures import bites_by_temperature
from toneladder.plan.memory import Tell, quietly
from toneladder.plan.planning import Plan
from toneladder.plan.softening import passages_in
from toneladder.sheets.guide_sheet import guide_sheets
from toneladder.sheets.lines_sheet import line_sheets
from toneladder.sheets.map_sheet import map_sheets
from toneladder.sheets.marks import A4, BoolArray, Paper, Sheet
from toneladder.sheets.order_sheet import order_sheet
from toneladder.sheets.registration_sheet import registration_sheets
from toneladder.sheets.strip_card import StripCard, strip_card
from toneladder.sheets.tracing_sheet import FIGURE_MM, tracing_sheets
from toneladder.sheets.tracing_svg import map_svg, tracing_svg
from toneladder.strip.planning import StripPlan, telling_strip
from toneladder.wording import say


class Kind(StrEnum):
    """What can be put on paper."""

    ORDER = "order"
    MAPS = "maps"
    TRACING = "tracing"
    GUIDE = "guide"
    LINES = "lines"
    STRIP_CARD = "strip-card"
    REGISTRATION = "registration"


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which sheets, on what paper; the margins are those of the print on the press bed."""

    made_on: date
    paper: Paper = A4
    kinds: Collection[Kind] = tuple(Kind)
    margin_mm: float | None = None
    foot_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Document:
    """One file: its name, and its pages or, if there are none, its text."""

    name: str
    sheets: tuple[Sheet, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class Traced:
    """The borders of a plan as lines, with numbers and soft passages.

    ``arcs`` are all of them; ``to_trace`` leaves out what runs along etched lines.
    """

    arcs: tuple[Arc, ...]
    to_trace: tuple[Arc, ...]
    numbered: Numbered
    passages: tuple[Passage, ...]


def traced(plan: Plan) -> Traced:
    """Trace the tones of ``plan``: what maps and tracing are drawn from."""
    prepared, plate = plan.prepared, plan.plate
    px_per_mm = prepared.grid.px_per_mm
    arcs = trace(plan.tones, px_per_mm)
    passages = passages_in(plate, prepared, plan.tones, len(plan.order.tones), arcs)
    return Traced(
        arcs,
        without_lines(arcs, _etched(plan), px_per_mm),
        place_numbers(plan.tones, px_per_mm, figure_mm=FIGURE_MM),
        passages,
    )


def documents(plan: Plan, wanted: Wanted, tell: Tell = quietly) -> Iterator[Document]:
    """The wanted files of a plan, one after the other, in the order of ``Kind``.

    Parameters
    ----------
    plan : Plan
        The plate, worked out.
    wanted : Wanted
        Which sheets, and on what paper. A plate without pen lines has no sheet of them.
    tell : callable, optional
        Told in a few words what is begun; it may raise to stop the work.
    """
    lines: Traced | None = None
    for kind in Kind:
        if kind not in wanted.kinds:
            continue
        tell(say("Laying out sheets: {kind} …", kind=say(kind.value)))
        if kind in {Kind.MAPS, Kind.TRACING}:
            lines = lines or traced(plan)
            yield from _from_borders(plan, wanted, kind, lines)
        else:
            yield from _from_plan(plan, wanted, kind)


def _from_borders(plan: Plan, wanted: Wanted, kind: Kind, lines: Traced) -> Iterator[Document]:
    plate, order, grid = plan.plate, plan.order, plan.prepared.grid
    made_on, paper = wanted.made_on, wanted.paper
    passages = lines.passages
    if kind is Kind.MAPS:
        for step in order.steps:
            pages = map_sheets(
                plate,
                order,
                plan.tones,
                grid,
                step.step,
                made_on=made_on,
                paper=paper,
                passages=passages,
            )
            yield Document(f"map-{step.step}.pdf", pages)
            drawn = map_svg(lines.arcs, step.step, plate.size, title=plate.title)
            yield Document(f"map-{step.step}.svg", text=drawn)
        return
    arcs, numbered = lines.to_trace, lines.numbered
    pages = tracing_sheets(plate, arcs, numbered, made_on=made_on, paper=paper, passages=passages)
    yield Document("tracing.pdf", pages)
    text = tracing_svg(
        arcs,
        plate.size,
        numbered=numbered,
        passages=passages,
        title=plate.title,
        figure_mm=FIGURE_MM,
    )
    yield Document("tracing.svg", text=text)


def _from_plan(plan: Plan, wanted: Wanted, kind: Kind) -> Iterator[Document]:
    plate, order, grid = plan.plate, plan.order, plan.prepared.grid
    made_on, paper = wanted.made_on, wanted.paper
    etched = _etched(plan)
    if kind is Kind.ORDER:
        yield Document("order.pdf", order_pages(plan, made_on, paper))
    elif kind is Kind.GUIDE:
        pages = guide_sheets(
            plate, order, plan.tones, grid, made_on=made_on, paper=paper, lines=etched
        )
        yield Document("guide.pdf", pages)
    elif kind is Kind.LINES and plan.prepared.lines is not None:
        depth = plan.prepared.lines.depth
        yield Document("lines.pdf", line_sheets(plate, depth, grid, made_on=made_on, paper=paper))
    elif kind is Kind.STRIP_CARD:
        card = StripCard(plate.conditions, strip_for(plan), title=plate.title)
        yield Document("strip-card.pdf", strip_card(card, made_on=made_on, paper=paper))
    elif kind is Kind.REGISTRATION:
        pages = registration_sheets(
            plate,
            made_on=made_on,
            paper=paper,
            margin_mm=wanted.margin_mm,
            foot_mm=wanted.foot_mm,
        )
        yield Document("registration.pdf", pages)


def order_pages(plan: Plan, made_on: date, paper: Paper) -> tuple[Sheet, ...]:
    """The sheet that hangs by the tank; its companion strip is the one of the strip card."""
    order = plan.order
    if order.companion is not None:
        order = replace(order, companion=companion_with(strip_for(plan)))
    return order_sheet(
        plan.plate,
        order,
        plan.tones,
        standing=plan.curve.standing,
        source=plan.curve.source,
        made_on=made_on,
        paper=paper,
        bath_bites=bites_by_temperature(plan.order.steps, plan.plate.conditions.temperature_c),
    )


def strip_for(plan: Plan) -> StripPlan:
    """The patches that tell most about the plan's tones, besides what its strips told."""
    plate = plan.plate
    wanted = [tone.total_bite_s for tone in plan.order.tones[1:]]
    read_before = [patch.total_bite_s for one in plate.evidence.strips for patch in one.patches]
    return telling_strip(plate.conditions, wanted_s=wanted, already_s=read_before)


def _etched(plan: Plan) -> BoolArray | None:
    return None if plan.prepared.lines is None else plan.prepared.lines.mask
