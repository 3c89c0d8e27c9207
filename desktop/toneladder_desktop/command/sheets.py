"""``toneladder sheets``: everything that a plate brings to paper, at true size."""

import argparse
import sys
from datetime import datetime
from pathlib import Path

from toneladder.errors import PlanError
from toneladder.picture.opening import open_picture
from toneladder.plan.planning import Plan, plan
from toneladder.plate.file import read_plate
from toneladder.sheets.documents import Kind, Wanted
from toneladder.wording import say, say_number
from toneladder_desktop.command.words import in_mm, one_of, read
from toneladder_desktop.output.papers import write_sheets
from toneladder_desktop.output.progress import Telling
from toneladder_desktop.output.results import PAPERS


def add_sheets_words(words: argparse.ArgumentParser) -> None:
    """The words of ``sheets``."""
    words.set_defaults(run=run)
    add = words.add_argument
    add("plate", metavar="PLAN.plate")
    add("--out", required=True, metavar="FOLDER", help=say("made if missing"))
    paper = one_of({name: name for name in PAPERS}, "a4", say("of the sheets"))
    add("--paper", default="a4", **paper)
    add(
        "--only",
        type=read(kinds),
        metavar="KINDS",
        help=say("some of {kinds}, with commas between (all)", kinds=", ".join(Kind)),
    )
    add("--replace", action="store_true", help=say("replace sheets of an older plan"))
    add("--margin", type=read(in_mm), help=say("bare paper round the print, such as 60mm"))
    add("--foot", type=read(in_mm), help=say("bare paper below the print, if larger"))


def run(chosen: argparse.Namespace) -> int:
    """Plan the plate, and write its sheets; returns the exit status.

    Raises
    ------
    ToneLadderError
        Wrong use or bad input, with the sentence to show.
    """
    telling = Telling(sys.stderr)
    content = read_plate(Path(chosen.plate))
    telling(say("Reading the picture …"))
    picture = open_picture(content.picture, name=content.plate.picture.name)
    done = plan(picture, content.plate, content.curve, tell=telling)
    wanted = Wanted(
        made_on=datetime.now().astimezone().date(),
        paper=PAPERS[chosen.paper],
        kinds=_possible(done, chosen.only),
        margin_mm=chosen.margin,
        foot_mm=chosen.foot,
    )
    names = write_sheets(done, wanted, Path(chosen.out), telling, replace=chosen.replace)
    from toneladder_desktop.output.lacking import boxes_told, words_of

    boxes = boxes_told(words_of(done.plate))
    if boxes:
        print(boxes, file=sys.stderr)
    print(
        say_number(
            "{n} file is in {folder}.", "{n} files are in {folder}.", len(names), folder=chosen.out
        )
    )
    return 0


def kinds(text: str) -> tuple[Kind, ...]:
    """The kinds of sheets named in ``text``, with commas between.

    >>> kinds("maps, order")
    (<Kind.MAPS: 'maps'>, <Kind.ORDER: 'order'>)
    """
    names = [name.strip() for name in text.split(",") if name.strip()]
    unknown = [name for name in names if name not in set(Kind)]
    if unknown or not names:
        raise PlanError(
            say(
                "“{text}” names no kind of sheet; there are {kinds}",
                text=", ".join(unknown)[:60],
                kinds=", ".join(Kind),
            )
        )
    return tuple(Kind(name) for name in names)


def _possible(done: Plan, asked: tuple[Kind, ...] | None) -> tuple[Kind, ...]:
    """What was asked for, or all that this plate has."""
    if asked == (Kind.LINES,) and done.prepared.lines is None:
        raise PlanError(
            say(
                "This plate has no pen lines of their own, so there is no sheet of them. Nothing "
                "was written. Ask for other sheets."
            )
        )
    return tuple(Kind) if asked is None else asked
