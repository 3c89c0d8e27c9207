"""Finds the command that was meant, and runs it."""

import argparse
from collections.abc import Callable, Sequence

from toneladder.wording import say
from toneladder_desktop.command.handbook import add_handbook_words
from toneladder_desktop.command.plan import add_words
from toneladder_desktop.command.proof import add_proof_words
from toneladder_desktop.command.sheets import add_sheets_words
from toneladder_desktop.command.strip import add_curve_words, add_strip_words
from toneladder_desktop.command.tank import add_tank_words
from toneladder_desktop.command.words import Parser
from toneladder_desktop.output.built_from import built_from


def run(words: Sequence[str]) -> int:
    """Run one headless command; returns the exit status.

    Raises
    ------
    ToneLadderError
        Wrong use or bad input, with the sentence to show.
    """
    chosen = parser().parse_args(words)
    command: Callable[[argparse.Namespace], int] = chosen.run
    return command(chosen)


def parser() -> argparse.ArgumentParser:
    """The words of the command line."""
    whole = Parser(
        prog="toneladder",
        description=say("Plans the tones, bites and stop-outs of an aquatint plate."),
        epilog=say("Without a command the window opens, with the plate or picture named."),
        allow_abbrev=False,
    )
    which = say("tell which version this is")
    whole.add_argument("--version", action="version", version=built_from(), help=which)
    names = "plan | sheets | strip | curve | tank | proof | handbook"
    commands = whole.add_subparsers(required=True, metavar=names)

    def command(name: str, what: str, add: Callable[[argparse.ArgumentParser], None]) -> None:
        add(commands.add_parser(name, help=what, description=what, allow_abbrev=False))

    command("plan", say("from a picture to the stop-out order"), add_words)
    command("sheets", say("maps, tracing and all else on paper"), add_sheets_words)
    command("strip", say("from readings to a test strip"), add_strip_words)
    command("curve", say("the bite curve of a strip"), add_curve_words)
    command("tank", say("what would be said at the tank"), add_tank_words)
    command("proof", say("how a pulled proof printed, tone by tone"), add_proof_words)
    command("handbook", say("a chapter to read, or where words stand"), add_handbook_words)
    return whole
