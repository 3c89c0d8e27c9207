"""``toneladder strip plan``: which bites to give a strip, and its card."""

import argparse
import sys
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from toneladder.bite.values import Conditions
from toneladder.order.companion import how_to_step
from toneladder.plate.file import PlateFile
from toneladder.quantities import write_bite, write_minutes
from toneladder.strip.planning import USUAL_PATCHES, StripPlan, doubling_strip, telling_strip
from toneladder.wording import say
from toneladder_desktop.command.words import (
    bath_words,
    conditions_of,
    one_of,
    plate_size,
    read,
    whole,
)
from toneladder_desktop.output.folder import refuse_replacing
from toneladder_desktop.output.results import PAPERS


def add_plan_words(words: argparse.ArgumentParser) -> None:
    """The words of ``strip plan``."""
    words.set_defaults(run=plan_strip)
    add = words.add_argument
    add("--patches", type=read(whole), default=USUAL_PATCHES, help=say("3 to 16, one unbitten (8)"))
    add(
        "--telling",
        action="store_true",
        help=say("the patches that leave least doubt, instead of bites that double"),
    )
    add(
        "--plan",
        metavar="PLAN.plate",
        help=say("for this plate: its bath, and patches that tell most about its tones"),
    )
    add("--size", type=read(plate_size), help=say("of the strip (120x30mm)"))
    add(
        "--out",
        metavar="CARD.pdf",
        help=say("the strip card, to print at 100 %").replace("%", "%%"),
    )
    add("--replace", action="store_true", help=say("replace an older card"))
    paper = one_of({name: name for name in PAPERS}, "a4", say("of the card"))
    add("--paper", default="a4", **paper)
    bath_words(words)


def plan_strip(chosen: argparse.Namespace) -> int:
    """Print the bites of a strip, and write its card if it is wished for; returns the exit status.

    Raises
    ------
    ToneLadderError
        A pair that must not meet, too few or too many patches, a place that cannot be written to.
    """
    file = None if chosen.plan is None else _plate_file(Path(chosen.plan))
    own = Conditions() if file is None else file.plate.conditions
    conditions = conditions_of(chosen, own)
    if file is None:
        make = telling_strip if chosen.telling else doubling_strip
        planned = make(conditions, chosen.patches)
    else:
        planned = _strip_for(file, conditions, chosen.patches)
    title = "" if file is None else file.plate.title
    if chosen.out is not None:
        _write_card(chosen, conditions, planned, title)
    for remark in planned.remarks:
        print(remark, file=sys.stderr)
    print(strip_text(planned), end="")
    if chosen.out is not None:
        print(say("The strip card is in {file}.", file=chosen.out))
    return 0


def strip_text(planned: StripPlan) -> str:
    """The strip in plain sentences: its stays, how to step it, how long it takes."""
    lines = [say("Patch 1: never bitten. Cover it first.")]
    last = len(planned.stays_s)
    for at, stay in enumerate(planned.stays_s, start=1):
        values = {
            "patch": at + 1,
            "stay": write_bite(stay),
            "total": write_bite(planned.bites_s[at]),
        }
        if at == last:
            lines.append(say("Patch {patch}: bite {stay}, {total} in all. Done.", **values))
        else:
            lines.append(
                say("Patch {patch}: bite {stay}, then cover it: {total} in all.", **values)
            )
    lines += how_to_step()
    lines.append(
        say(
            "{bath} in the bath, about {time} with all lifts.",
            bath=write_bite(planned.bath_s),
            time=write_minutes(planned.work_min),
        )
    )
    return "\n".join(lines) + "\n"


def _plate_file(path: Path) -> PlateFile:
    from toneladder.plate.file import read_plate

    return read_plate(path)


def _strip_for(file: PlateFile, conditions: Conditions, patches: int) -> StripPlan:
    """The patches that tell most about the tones of a plate, besides what its strips told."""
    from toneladder.picture.opening import open_picture
    from toneladder.plan.planning import plan

    plate = file.plate
    picture = open_picture(file.picture, name=plate.picture.name)
    tones = plan(picture, plate, file.curve).order.tones
    read_before = [patch.total_bite_s for one in plate.evidence.strips for patch in one.patches]
    wanted = [tone.total_bite_s for tone in tones[1:]]
    return telling_strip(conditions, patches, wanted_s=wanted, already_s=read_before)


def _write_card(
    chosen: argparse.Namespace, conditions: Conditions, planned: StripPlan, title: str
) -> None:
    from toneladder.sheets.strip_card import StripCard, strip_card
    from toneladder_desktop.output.display import draw_without_display

    path = Path(chosen.out)
    refuse_replacing(path, replace=chosen.replace)
    card = StripCard(conditions, planned, title=title)
    if chosen.size is not None:
        card = replace(card, size=chosen.size)
    today = datetime.now().astimezone().date()
    sheets = strip_card(card, made_on=today, paper=PAPERS[chosen.paper])
    draw_without_display()
    from toneladder_desktop.output.pdf import write_pdf

    write_pdf(sheets, path)
