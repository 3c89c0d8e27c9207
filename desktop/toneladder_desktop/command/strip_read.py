"""``toneladder strip read``: from a scan or a photograph of a printed strip to a strip."""

import argparse
import sys
from pathlib import Path

from toneladder.bite.starting_points import require_safe_pair
from toneladder.bite.values import Conditions
from toneladder.errors import QuantityError
from toneladder.quantities import name_tone, read_bite, write_apart, write_bite, write_number
from toneladder.scans.values import Reading
from toneladder.wording import say
from toneladder_desktop.command.evidence import strip_day_words
from toneladder_desktop.command.words import bath_words, conditions_of, number, read
from toneladder_desktop.output.folder import refuse_replacing

PALEST_PAPER = 60.0


def add_read_words(words: argparse.ArgumentParser) -> None:
    """The words of ``strip read``."""
    from toneladder.scans.greys import read_grey_scale
    from toneladder.scans.page import BARE_PAPER

    words.set_defaults(run=read_scan)
    add = words.add_argument
    add("scan", metavar="SCAN", help=say("a JPEG, PNG or TIFF of the dry print"))
    add(
        "--bites",
        type=read(bites_from),
        required=True,
        help=say("the total bite of every patch, such as “0,0:15,0:30,1:00”"),
    )
    add("--out", required=True, metavar="STRIP.strip")
    add("--replace", action="store_true", help=say("replace an older strip"))
    add(
        "--wedge",
        type=read(read_grey_scale),
        metavar="DENSITIES",
        help=say("of a grey scale in the same scan: its densities, or “21x0.15”"),
    )
    add(
        "--paper",
        type=read(_paper),
        help=say("lightness of the bare paper, CIE L*; {usual}", usual=write_number(BARE_PAPER)),
    )
    add("--photograph", action="store_true", help=say("it was photographed, not scanned"))
    add("--wet", action="store_true", help=say("the print was wet"))
    strip_day_words(words)
    bath_words(words)


def read_scan(chosen: argparse.Namespace) -> int:
    """Find the strip on a scan, read it, keep it; returns the exit status.

    Raises
    ------
    ToneLadderError
        A picture that cannot be read, no strip on it, or one of another number of patches; a
        pair that must not meet; a place that cannot be written to.
    """
    from toneladder.picture.opening import open_picture
    from toneladder.scans.finding import find_strip
    from toneladder.scans.reading import read_patches
    from toneladder.strip.curve import fit_strips
    from toneladder.strip.file import write_strip
    from toneladder.strip.values import Dryness, Means, Strip

    conditions = conditions_of(chosen, Conditions())
    require_safe_pair(conditions.metal, conditions.mordant)
    out = Path(chosen.out)
    refuse_replacing(out, replace=chosen.replace)
    source = Path(chosen.scan)
    light = open_picture(source, name=source.name).light
    found = find_strip(light, patches=len(chosen.bites), scale=chosen.wedge)
    reading = read_patches(
        light,
        found,
        chosen.bites,
        scale=chosen.wedge,
        paper=chosen.paper,
        photograph=chosen.photograph,
    )
    strip = Strip(
        conditions,
        reading.patches,
        dryness=Dryness.WET if chosen.wet else Dryness.DRY,
        means=Means.PHOTOGRAPH if chosen.photograph else Means.SCAN,
        grained_on=chosen.grained_on or "",
    )
    remarks = (*reading.remarks, *fit_strips([strip]).remarks)
    write_strip(out, strip)
    print(reading_text(reading), end="")
    for remark in remarks:
        print(remark, file=sys.stderr)
    print(say("The strip is in {file}.", file=out))
    return 0


def bites_from(text: str) -> tuple[float, ...]:
    """Seconds of typed bites with commas between.

    Raises
    ------
    QuantityError
        One cannot be read, there are none, or they neither grow nor shrink along the strip.
    """
    pieces = [piece.strip() for piece in text.split(",")]
    if len(pieces) < 2 or not all(pieces):
        raise QuantityError(
            say("“{text}” is not a row of bites with commas between", text=text[:60])
        )
    bites = [read_bite(piece) for piece in pieces]
    if bites not in (sorted(bites), sorted(bites, reverse=True)):
        later = next(n for n in range(1, len(bites)) if bites[n] < bites[n - 1])
        raise QuantityError(
            say(
                "The bites neither grow nor shrink along the strip: {bite} stands before {after}."
                " Nothing was changed. Write them as they lie on the strip.",
                bite=write_bite(bites[later - 1]),
                after=write_bite(bites[later]),
            )
        )
    return tuple(bites)


def reading_text(reading: Reading) -> str:
    """The patches to be read by a person: bite, darkness and how surely it is known."""
    rows = [
        (
            write_bite(patch.total_bite_s),
            name_tone(patch.lightness),
            write_apart(patch.spread),
        )
        for patch in reading.patches
    ]
    widths = [max(len(row[column]) for row in rows) for column in range(3)]
    return "".join(
        say(
            "{bite}   {tone} ± {spread}\n",
            bite=bite.rjust(widths[0]),
            tone=darkness.rjust(widths[1]),
            spread=spread,
        )
        for bite, darkness, spread in rows
    )


def _paper(text: str) -> float:
    found = number(text)
    if not PALEST_PAPER <= found <= 100.0:
        raise QuantityError(
            say(
                "Bare paper has a lightness between {least} and 100, and “{text}” was given",
                least=write_number(PALEST_PAPER),
                text=text[:40],
            )
        )
    return found
