"""The words for what is bitten apart from the tones: lines first, and a second grain."""

import argparse

from toneladder.errors import PlanError
from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.wording import say
from toneladder_desktop.command.evidence import read_bites
from toneladder_desktop.command.words import in_mm, read, whole


def stage_words(words: argparse.ArgumentParser) -> None:
    """The words for lines and second grain; what is not said is None."""
    add = words.add_argument
    add(
        "--lines",
        type=read(in_mm),
        nargs="?",
        const=Lines().widest_mm,
        metavar="WIDTH",
        help=say("bite pen lines first, up to this width (1mm)"),
    )
    add("--line-depths", type=read(whole), metavar="N", help=say("1 to 4 line bites (1)"))
    add(
        "--line-bites",
        type=read(read_bites),
        metavar="BITES",
        help=say("total bites of the line depths, finest first, such as 15:00,60:00"),
    )
    add("--lines-painted-over", action="store_true", help=say("before the tones are bitten"))
    add(
        "--second-grain",
        type=read(whole),
        nargs="?",
        const=SecondGrain().darkest,
        metavar="N",
        help=say("a fresh grain for the N darkest tones (1)"),
    )


def lines_of(chosen: argparse.Namespace) -> Lines | None:
    """What the words say of lines, or None.

    Raises
    ------
    PlanError
        If something is said of lines, but not that there are any.
    """
    bites = chosen.line_bites or ()
    if chosen.lines is None:
        if bites or chosen.line_depths is not None or chosen.lines_painted_over:
            raise PlanError(
                say(
                    "Something is said of lines, but not that lines are bitten first. Nothing was"
                    " written. Say --lines, too."
                )
            )
        return None
    depths = max(len(bites), 1) if chosen.line_depths is None else chosen.line_depths
    return Lines(
        widest_mm=chosen.lines,
        depths=depths,
        bites_s=bites,
        stopped_out=chosen.lines_painted_over,
    )


def second_grain_of(chosen: argparse.Namespace) -> SecondGrain | None:
    """What the words say of a second grain, or None."""
    return None if chosen.second_grain is None else SecondGrain(darkest=chosen.second_grain)
