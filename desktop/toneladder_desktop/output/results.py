"""The files of one plan: all of them, or none."""

import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from toneladder.errors import OutputError
from toneladder.order.temperatures import bites_by_temperature
from toneladder.plan.export import order_json, tones_png
from toneladder.plan.planning import Plan
from toneladder.plan.previewing import preview_of
from toneladder.plate.file import PlateFile, write_plate
from toneladder.preview.preview import preview_png
from toneladder.sheets.marks import A3, A4, LETTER, Paper, Sheet
from toneladder.sheets.order_sheet import order_sheet
from toneladder.sheets.order_text import order_text
from toneladder.wording import say
from toneladder.writing import said_plainly
from toneladder_desktop.output.display import draw_without_display

PAPERS = {"a3": A3, "a4": A4, "letter": LETTER}
FILES = ("order.pdf", "order.json", "order.txt", "tones.png", "preview.png", "plan.plate")


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
    folder = wish.folder
    with said_plainly(folder):
        _refuse_overwriting(wish)
        new = not folder.exists()
        folder.mkdir(parents=True, exist_ok=True)
        unfinished = Path(tempfile.mkdtemp(prefix=".unfinished-", dir=folder))
        try:
            _fill(unfinished, plan, picture, wish, tell)
            for name in FILES:
                (unfinished / name).replace(folder / name)
        except BaseException:
            shutil.rmtree(unfinished, ignore_errors=True)
            if new:
                shutil.rmtree(folder, ignore_errors=True)
            raise
        unfinished.rmdir()


def sheets_of(plan: Plan, paper: Paper, made_on: date) -> tuple[Sheet, ...]:
    """The sheet that hangs by the tank."""
    return order_sheet(
        plan.plate,
        plan.order,
        plan.tones,
        standing=plan.curve.standing,
        source=plan.curve.source,
        made_on=made_on,
        paper=paper,
        bath_bites=bites_by_temperature(plan.order.steps, plan.plate.conditions.temperature_c),
    )


def _refuse_overwriting(wish: Wish) -> None:
    if wish.folder.exists() and not wish.folder.is_dir():
        raise OutputError(
            say("{name} is a file, not a folder. Name another folder.", name=wish.folder.name)
        )
    there = [name for name in FILES if (wish.folder / name).exists()]
    if there and not wish.replace:
        raise OutputError(
            say(
                "{folder} already holds {files}. Nothing was changed. Name another folder, or say "
                "--replace.",
                folder=wish.folder,
                files=", ".join(there),
            )
        )


def _fill(
    folder: Path, plan: Plan, picture: bytes, wish: Wish, tell: Callable[[str], object]
) -> None:
    tell(say("Drawing the preview …"))
    preview = preview_png(preview_of(plan))
    (folder / "preview.png").write_bytes(preview)
    (folder / "tones.png").write_bytes(tones_png(plan))
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
