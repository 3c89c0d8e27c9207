"""The files of one plan: all of them, or none."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from toneladder.order.temperatures import bites_by_temperature
from toneladder.plan.export import lines_png, order_json, tones_png
from toneladder.plan.planning import Plan
from toneladder.plan.previewing import preview_of
from toneladder.plate.file import PlateFile, write_plate
from toneladder.preview.preview import preview_png
from toneladder.sheets.documents import order_pages
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Sheet
from toneladder.sheets.order_text import order_text
from toneladder.wording import say
from toneladder_desktop.output.display import draw_without_display
from toneladder_desktop.output.folder import all_or_none, refuse_overwriting, require_folder

PAPERS = {"a3": A3, "a4": A4, "letter": LETTER}
FILES = ("order.pdf", "order.json", "order.txt", "tones.png", "preview.png", "plan.plate")
LINES = "lines.png"
"""Written only where lines are bitten first."""


@dataclass(frozen=True, slots=True)
class Wish:
    """Where a plan goes and on what paper."""

    folder: Path
    paper: Paper
    made_on: date
    replace: bool


def write_results(plan: Plan, picture: bytes, wish: Wish, tell: Callable[[str], object]) -> None:
    """Write every file of ``plan`` into the wished folder, or leave it as it was.

    Raises
    ------
    OutputError
        Files are there already, or the folder cannot be written to.
    """
    require_room(wish)
    older = {LINES} if wish.replace and plan.prepared.lines is None else set()
    with all_or_none(wish.folder, older) as unfinished:
        _fill(unfinished, plan, picture, wish, tell)


def require_room(wish: Wish) -> None:
    """Refuse a folder that cannot take the files, before any work is done for it.

    Raises
    ------
    OutputError
        Files are there already and are not to be replaced, or the folder is a file.
    """
    if wish.replace:
        require_folder(wish.folder)
    else:
        refuse_overwriting(wish.folder, (*FILES, LINES))


def sheets_of(plan: Plan, paper: Paper, made_on: date) -> tuple[Sheet, ...]:
    """The sheet that hangs by the tank."""
    return order_pages(plan, made_on, paper)


def _fill(
    folder: Path, plan: Plan, picture: bytes, wish: Wish, tell: Callable[[str], object]
) -> None:
    tell(say("Drawing the preview …"))
    preview = preview_png(preview_of(plan))
    (folder / "preview.png").write_bytes(preview)
    (folder / "tones.png").write_bytes(tones_png(plan))
    if (lines := lines_png(plan)) is not None:
        (folder / LINES).write_bytes(lines)
    (folder / "order.json").write_text(order_json(plan), encoding="utf-8")
    text = order_text(
        plan.plate,
        plan.order,
        standing=plan.curve.standing,
        source=plan.curve.source,
        made_on=wish.made_on,
        bath_bites=bites_by_temperature(plan.order.steps, plan.plate.conditions.temperature_c),
    )
    (folder / "order.txt").write_text(text, encoding="utf-8")
    tell(say("Laying out the sheet …"))
    draw_without_display()
    from toneladder_desktop.output.pdf import write_pdf

    write_pdf(sheets_of(plan, wish.paper, wish.made_on), folder / "order.pdf")
    write_plate(folder / "plan.plate", PlateFile(plan.plate, plan.curve, picture, preview))
