"""``toneladder proof read``: how a pulled proof printed, tone by tone, and what follows from it."""

import argparse
import json
import sys
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path

from toneladder.errors import ProofError, QuantityError
from toneladder.optics import lightness
from toneladder.picture.opening import open_picture
from toneladder.plan.planning import Plan, plan
from toneladder.plan.proofed import regrained, wanted_of
from toneladder.plate.file import read_plate
from toneladder.preview.colour import luminance_of
from toneladder.proof.export import reading_tree
from toneladder.proof.meaning import advice, session_of_proof, strip_of_proof, with_proof
from toneladder.proof.notes import about_places
from toneladder.proof.pulls import Pulls, compare
from toneladder.proof.reading import read_tones
from toneladder.proof.registering import register
from toneladder.proof.values import ProofReading, ToneReading
from toneladder.quantities import read_bite, tone_figure, write_apart, write_bite
from toneladder.strip.values import Strip
from toneladder.wording import say
from toneladder_desktop.command.words import in_celsius, number, read
from toneladder_desktop.output.folder import refuse_replacing

PALEST_PAPER = 60.0


def add_proof_words(words: argparse.ArgumentParser) -> None:
    """The words of ``proof``."""
    commands = words.add_subparsers(required=True, metavar="read")
    what = say("how dark every tone of a plate printed, from a scan of its dry proof")
    one = commands.add_parser("read", help=what, description=what, allow_abbrev=False)
    one.set_defaults(run=read_proof)
    add = one.add_argument
    add("plate", metavar="PLAN.plate")
    add("scan", metavar="SCAN", help=say("a JPEG, PNG or TIFF, best with the paper's margins"))
    add("--second-pull", metavar="SCAN", help=say("of the same plate: tells wiping from biting"))
    add("--json", action="store_true", help=say("for other programs"))
    add(
        "--bites",
        type=read(bites_from),
        metavar="BITES",
        help=say("the totals really given, such as “0:25,1:00,2:30”; as planned if not said"),
    )
    add("--temperature", type=read(in_celsius), help=say("of the bath, such as 20C, 68F"))
    add("--paper", type=read(_paper), help=say("lightness of the bare paper, CIE L*"))
    add("--accept", metavar="NEW.strip", help=say("the bath's strip with this proof added"))
    add("--replace", action="store_true", help=say("replace an older strip"))


def read_proof(chosen: argparse.Namespace) -> int:
    """Read a proof, print what it told, keep it if wished; returns the exit status.

    Raises
    ------
    ToneLadderError
        A plate or a scan that cannot be read, a scan of something else, bites that do not go
        with the tones, a place that cannot be written to.
    """
    out = None if chosen.accept is None else Path(chosen.accept)
    if out is not None:
        refuse_replacing(out, replace=chosen.replace)
    content = read_plate(Path(chosen.plate))
    planned = plan(
        open_picture(content.picture, name=content.plate.picture.name),
        content.plate,
        content.curve,
    )
    bites_s = _totals(planned, chosen.bites)
    paper = chosen.paper
    if paper is None:
        paper = float(lightness(luminance_of(content.plate.printing.paper)))
    reading = _read(Path(chosen.scan), planned, paper)
    pulls = None
    if chosen.second_pull is not None:
        pulls = compare(reading, _read(Path(chosen.second_pull), planned, paper))
        reading = replace(reading, tones=pulls.tones)
    if out is not None:
        _keep(out, _accepted(planned, reading.tones, bites_s, chosen.temperature))
    said = list(_sentences(reading, pulls))
    if chosen.json:
        print(json.dumps({**reading_tree(reading, bites_s), "sentences": said}, indent=1))
    else:
        print(table(reading.tones, bites_s), end="")
        print("\n".join(said))
    if out is not None:
        print(say("The strip is in {file}.", file=out), file=sys.stderr)
    return 0


def table(tones: Iterable[ToneReading], bites_s: Sequence[float]) -> str:
    """The tones to be read by a person."""
    rows = [(say("tone"), say("bite"), say("planned"), say("printed"), say("spread"), say("off"))]
    for tone in tones:
        off = tone.difference
        by = write_apart(off)
        word = say("{by} lighter", by=by) if off > 0 else say("{by} darker", by=by)
        rows.append(
            (
                str(tone.tone),
                write_bite(bites_s[tone.tone]) if bites_s[tone.tone] else "–",
                tone_figure(tone.planned_lightness),
                tone_figure(tone.printed_lightness),
                write_apart(tone.spread),
                word if abs(off) >= 0.5 else "–",
            )
        )
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    return "".join(
        "  ".join(cell.rjust(width) for cell, width in zip(row, widths, strict=True)) + "\n"
        for row in rows
    )


def bites_from(text: str) -> tuple[float, ...]:
    """Seconds of typed total bites with commas between.

    Raises
    ------
    QuantityError
        One cannot be read.
    """
    return tuple(read_bite(piece.strip()) for piece in text.split(","))


def _read(scan: Path, planned: Plan, paper: float) -> ProofReading:
    """One pull, laid on the plan and read."""
    light = open_picture(scan, name=scan.name).light
    px_per_mm = planned.prepared.grid.px_per_mm
    laid = register(light, planned.tones, px_per_mm, dpi=resolution(scan))
    wanted = wanted_of(planned)
    return read_tones(light, laid, planned.tones, px_per_mm, wanted, paper=paper)


def resolution(scan: Path) -> float | None:
    """Pixels to the inch that a file says it has, None if it says nothing that can be."""
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(scan) as image:
            across, down = (float(part) for part in image.info.get("dpi", (0.0, 0.0)))
    except (OSError, ValueError, TypeError, ZeroDivisionError, UnidentifiedImageError):
        return None
    if not 50.0 <= across <= 5000.0 or abs(across - down) > 0.01 * across:
        return None
    return across


def _totals(planned: Plan, said: tuple[float, ...] | None) -> tuple[float, ...]:
    """Total bite of every tone, the white first: as said, else as given at the tank, or planned.

    Raises
    ------
    ProofError
        If there are not as many bites as tones.
    """
    tones = planned.order.tones
    if said is None:
        given = planned.plate.given_s
        return given if len(given) == len(tones) else tuple(t.total_bite_s for t in tones)
    whole = said if said[0] == 0.0 else (0.0, *said)
    if len(whole) != len(tones):
        raise ProofError(
            say(
                "{bites} bites were given and the plate has {tones} tones, white included. Nothing"
                " was changed. Give the total bite of every tone that was bitten.",
                bites=len(said),
                tones=len(tones),
            )
        )
    return whole


def _accepted(
    planned: Plan,
    tones: Sequence[ToneReading],
    bites_s: Sequence[float],
    temperature_c: float | None,
) -> Strip:
    """The bath's newest strip with this proof added, or a strip of this proof alone."""
    plate = planned.plate
    warm = plate.conditions.temperature_c if temperature_c is None else temperature_c
    name = say("proof of {title}", title=plate.title or plate.picture.name)
    session = session_of_proof(
        tones, bites_s, temperature_c=warm, name=name[:200], regrained=regrained(plate)
    )
    pair = (plate.conditions.metal, plate.conditions.mordant)
    own = [
        strip
        for strip in plate.evidence.strips
        if (strip.conditions.metal, strip.conditions.mordant) == pair
    ]
    return with_proof(own[-1], session) if own else strip_of_proof(session, plate.conditions)


def _keep(out: Path, strip: Strip) -> None:
    """Write a strip from which a curve can be drawn, and tell what the fit has to say of it."""
    from toneladder.strip.curve import fit_strips
    from toneladder.strip.file import write_strip

    for remark in fit_strips([strip]).remarks:
        print(remark, file=sys.stderr)
    write_strip(out, strip)


def _sentences(reading: ProofReading, pulls: Pulls | None) -> Iterable[str]:
    yield from reading.notes
    for tone in reading.tones:
        if tone.note:
            yield say("Tone {n}: {note}", n=tone.tone, note=tone.note)
    if pulls is None:
        yield from about_places(reading.places)
    else:
        yield from pulls.sentences()
    yield from advice(reading.tones)


def _paper(text: str) -> float:
    found = number(text)
    if not PALEST_PAPER <= found <= 100.0:
        raise QuantityError(say("“{text}” is not the lightness of paper, 60 to 100", text=text))
    return found
