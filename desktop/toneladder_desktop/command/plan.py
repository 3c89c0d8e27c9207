"""``toneladder plan``: from a picture to the files that go to the tank."""

import argparse
import sys
from dataclasses import replace
from datetime import datetime
from hashlib import sha256
from pathlib import Path

from toneladder.bite.values import Conditions, Varnish
from toneladder.errors import PictureError, PlanError
from toneladder.picture.laying import plate_size_for
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import Crop, Laying, PictureRef
from toneladder.plan.memory import Memory
from toneladder.plan.planning import plan
from toneladder.plate.limits import faults
from toneladder.plate.title import title_of
from toneladder.plate.values import Plate
from toneladder.quantities import read_time_of_day
from toneladder.strip.values import Evidence
from toneladder.tones.values import Brush, Choice, ToneChoice
from toneladder.wording import say
from toneladder_desktop.command.evidence import (
    bath_of,
    evidence_of,
    evidence_words,
    margin_strip_of,
    read_bites,
    require_telling,
)
from toneladder_desktop.command.stages import lines_of, second_grain_of, stage_words
from toneladder_desktop.command.words import (
    bath_words,
    four,
    in_mm,
    length_or_none,
    number,
    one_of,
    plate_size,
    read,
    whole,
)
from toneladder_desktop.output.progress import Telling
from toneladder_desktop.output.results import PAPERS, Wish, require_room, write_results

GAP_TO_MARK = 4.0 / 3.0

_NO_EVIDENCE = Evidence()


def add_words(words: argparse.ArgumentParser) -> None:
    """The words of ``plan``."""
    words.set_defaults(run=run)
    words.add_argument("picture", metavar="PICTURE", help=say("JPEG, PNG, TIFF, WebP, BMP or GIF"))
    words.add_argument("--out", required=True, metavar="FOLDER", help=say("made if missing"))
    words.add_argument("--replace", action="store_true", help=say("replace files of an older plan"))
    words.add_argument("--title", help=say("of the plate (the picture's name)"))
    evidence_words(words)
    _picture_words(words)
    _tone_words(words)
    stage_words(words)
    bath_words(words)
    varnish = one_of({v: say(v.value) for v in Varnish}, Varnish.SPIRIT)
    words.add_argument("--varnish", default=Varnish.SPIRIT, **varnish)
    paper = one_of({name: name for name in PAPERS}, "a4", say("of the sheets"))
    words.add_argument("--paper", default="a4", **paper)
    words.add_argument("--start", type=read(read_time_of_day), help=say("such as 09:30"))


def run(chosen: argparse.Namespace) -> int:
    """Plan, and write everything into the wished folder; returns the exit status.

    Raises
    ------
    ToneLadderError
        Wrong use or bad input, with the sentence to show.
    """
    wish = Wish(
        folder=Path(chosen.out),
        paper=PAPERS[chosen.paper],
        made_on=datetime.now().astimezone().date(),
        replace=chosen.replace,
    )
    require_room(wish)
    telling = Telling(sys.stderr)
    telling(say("Reading the picture …"))
    source = Path(chosen.picture)
    picture = open_picture(source, name=source.name, limit_megapixels=chosen.limit_megapixels)
    evidence = evidence_of(chosen)
    plate = plate_of(chosen, picture, bath_of(chosen, evidence.strips), evidence)
    wrong = faults(plate)
    if wrong:
        raise PlanError(" ".join(wrong))
    memory = Memory()
    require_telling(plate, memory)
    done = plan(picture, plate, memory=memory, tell=telling)
    write_results(done, picture_bytes(source, picture.ref), wish, telling)
    from toneladder.sheets.order_words import standing_sentence
    from toneladder_desktop.output.lacking import boxes_told, words_of

    boxes = boxes_told(words_of(plate))
    for warning in (*done.order.warnings, *([boxes] if boxes else ())):
        print(warning, file=sys.stderr)
    print(standing_sentence(done.curve.standing))
    print(say("The plan is in {folder}. Look at order.pdf first.", folder=wish.folder))
    return 0


def picture_bytes(source: Path, ref: PictureRef) -> bytes:
    """The picture's file, which goes into the plate's as it is.

    Raises
    ------
    PictureError
        It is gone, or another than the one that was opened.
    """
    try:
        data = source.read_bytes()
    except OSError:
        data = b""
    if sha256(data).hexdigest() != ref.sha256:
        raise PictureError(
            say(
                "{name} was changed or taken away while the plan was made. Nothing was written. "
                "Plan again when the picture lies still.",
                name=ref.name,
            )
        )
    return data


def plate_of(
    chosen: argparse.Namespace,
    picture: Picture,
    conditions: Conditions,
    evidence: Evidence = _NO_EVIDENCE,
) -> Plate:
    """The plate that the command's words describe."""
    ref = picture.ref
    laying = Laying(turn_deg=chosen.turn)
    if chosen.crop is not None:
        laying = replace(laying, crop=crop_of(chosen.crop, ref.width, ref.height))
    mark = chosen.brush or Brush().mark_mm
    patches = tuple(bite for bite in chosen.patches if bite > 0.0)
    return Plate(
        title=chosen.title or title_of(ref.name),
        picture=ref,
        size=chosen.plate or plate_size_for(ref.width, ref.height, laying),
        laying=laying,
        squint_mm=chosen.squint,
        keeps_edges=chosen.keep_edges,
        tones=ToneChoice(
            count=len(patches) + 1 if patches else chosen.tones,
            choice=Choice.STRIP if patches else Choice(chosen.choose),
            gap_lightness=chosen.gap_lightness,
            darkest_kept=not chosen.darkest_free,
            patches_s=patches,
        ),
        brush=Brush(mark, chosen.gap or mark * GAP_TO_MARK, chosen.smallest_area),
        conditions=replace(conditions, varnish=Varnish(chosen.varnish)),
        start=chosen.start,
        lines=lines_of(chosen),
        second_grain=second_grain_of(chosen),
        evidence=evidence,
        margin_strip=margin_strip_of(chosen),
        grained_on=chosen.grained_on or "",
    )


def crop_of(numbers: tuple[float, float, float, float], width: int, height: int) -> Crop:
    """A crop from four numbers: shares of the picture if none is above 1, else pixels.

    >>> crop_of((0, 0, 50, 100), 200, 200)
    Crop(x=0.0, y=0.0, width=0.25, height=0.5)
    """
    x, y, w, h = numbers
    if max(numbers) > 1.0:
        x, y, w, h = x / width, y / height, w / width, h / height
    return Crop(x, y, w, h)


def _picture_words(words: argparse.ArgumentParser) -> None:
    add = words.add_argument
    add("--plate", type=read(plate_size), help=say("such as 200x150mm, 8x6in"))
    add("--crop", type=read(four), metavar="X,Y,W,H", help=say("shares of the picture, or pixels"))
    add("--turn", type=read(number), default=0.0, metavar="DEGREES", help=say("clockwise"))
    add("--squint", type=read(length_or_none), metavar="MM", help=say("half the brush"))
    add("--keep-edges", action="store_true", help=say("squint without softening edges"))
    add("--limit-megapixels", type=read(number), default=400.0, help=say("largest picture read"))


def _tone_words(words: argparse.ArgumentParser) -> None:
    add = words.add_argument
    add("--tones", type=read(whole), default=5, help=say("2 to 12, white included (5)"))
    ways = {"even": say("even"), "picture": say("picture"), "strip": say("strip")}
    add("--choose", default="even", **one_of(ways, "even", say("how the tones are chosen")))
    add(
        "--patches",
        type=read(read_bites),
        default=(),
        metavar="BITES",
        help=say("of the strip that become tones, such as 0:15,1:00,4:00"),
    )
    add("--gap-lightness", type=read(number), default=6.0, help=say("least gap, L* (6)"))
    add("--darkest-free", action="store_true", help=say("the darkest tone follows the picture too"))
    add("--brush", type=read(in_mm), help=say("smallest mark, such as 1.5mm"))
    add("--gap", type=read(in_mm), help=say("smallest gap (4/3 of the mark)"))
    add("--smallest-area", type=read(number), default=0.0, metavar="MM2", help=say("of a place"))
