"""The headless command: from a picture to the files that go to the tank."""

import argparse
import sys
from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import datetime
from importlib.metadata import PackageNotFoundError, version
from math import isfinite, nan
from pathlib import Path
from typing import NoReturn

from toneladder.bite.values import (
    Conditions,
    Fineness,
    GrainKind,
    Metal,
    Mordant,
    Movement,
    Varnish,
)
from toneladder.errors import PlanError, QuantityError, ToneLadderError
from toneladder.picture.laying import plate_size_for
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.plan.planning import plan
from toneladder.plate.limits import faults
from toneladder.plate.values import Plate
from toneladder.quantities import (
    read_length,
    read_size,
    read_strength,
    read_temperature,
    read_time_of_day,
)
from toneladder.tones.values import Brush, Choice, ToneChoice
from toneladder.wording import say
from toneladder_desktop.output.progress import Telling
from toneladder_desktop.output.results import PAPERS, Wish, write_results

GAP_TO_MARK = 4.0 / 3.0


class _Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence; how to use it is told by ``--help``."""

    def error(self, message: str) -> NoReturn:
        raise PlanError(
            say("{reason}. “toneladder plan --help” lists what can be said.", reason=message)
        )


def run(words: Sequence[str]) -> int:
    """Run one headless command; returns the exit status.

    Raises
    ------
    ToneLadderError
        Wrong use or bad input, with the sentence to show.
    """
    chosen = parser().parse_args(words)
    telling = Telling(sys.stderr)
    telling(say("Reading the picture …"))
    source = Path(chosen.picture)
    picture = open_picture(source, name=source.name, limit_megapixels=chosen.limit_megapixels)
    plate = plate_of(chosen, picture)
    wrong = faults(plate)
    if wrong:
        raise PlanError(" ".join(wrong))
    done = plan(picture, plate, tell=telling)
    wish = Wish(
        folder=Path(chosen.out),
        paper=PAPERS[chosen.paper],
        made_on=datetime.now().astimezone().date(),
        replace=chosen.replace,
    )
    write_results(done, source.read_bytes(), wish, telling)
    for warning in done.order.warnings:
        print(warning, file=sys.stderr)
    print(say("The plan is in {folder}.", folder=wish.folder))
    return 0


def plate_of(chosen: argparse.Namespace, picture: Picture) -> Plate:
    """The plate that the command's words describe."""
    ref = picture.ref
    laying = Laying(turn_deg=chosen.turn)
    if chosen.crop is not None:
        laying = replace(laying, crop=crop_of(chosen.crop, ref.width, ref.height))
    size = chosen.plate or plate_size_for(ref.width, ref.height, laying)
    mark = chosen.brush or Brush().mark_mm
    gap = chosen.gap or mark * GAP_TO_MARK
    return Plate(
        title=chosen.title or Path(ref.name).stem.replace("_", " "),
        picture=ref,
        size=size,
        laying=laying,
        squint_mm=chosen.squint,
        tones=ToneChoice(
            count=chosen.tones,
            choice=Choice(chosen.choose),
            gap_lightness=chosen.gap_lightness,
            darkest_kept=not chosen.darkest_free,
        ),
        brush=Brush(mark, gap, chosen.smallest_area),
        conditions=Conditions(
            metal=Metal(chosen.metal),
            mordant=Mordant(chosen.mordant),
            grain=GrainKind(chosen.grain),
            fineness=Fineness(chosen.fineness),
            varnish=Varnish(chosen.varnish),
            movement=Movement(chosen.bath),
            temperature_c=chosen.temperature,
            strength=chosen.strength or "",
        ),
        start=chosen.start,
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


def parser() -> argparse.ArgumentParser:
    """The words of the command line."""
    whole = _Parser(
        prog="toneladder",
        description=say("Plans the tones, bites and stop-outs of an aquatint plate."),
        epilog=say("Without a command the window opens, with the plate or picture named."),
        allow_abbrev=False,
    )
    whole.add_argument("--version", action="version", version=_version())
    commands = whole.add_subparsers(required=True, metavar="plan")
    words = commands.add_parser(
        "plan",
        help=say("from a picture to the stop-out order, headless"),
        description=say("Works out tones, bites and stop-outs, and writes them into a folder."),
        allow_abbrev=False,
    )
    words.add_argument("picture", metavar="PICTURE", help=say("JPEG, PNG, TIFF, WebP, BMP or GIF"))
    words.add_argument("--out", required=True, metavar="FOLDER", help=say("made if missing"))
    words.add_argument("--replace", action="store_true", help=say("replace files of an older plan"))
    words.add_argument("--title", help=say("of the plate (the picture's name)"))
    _picture_words(words)
    _tone_words(words)
    _bath_words(words)
    words.add_argument("--paper", choices=sorted(PAPERS), default="a4", help=say("of the sheet"))
    words.add_argument("--start", type=_read(read_time_of_day), help=say("such as 09:30"))
    return whole


def _picture_words(words: argparse.ArgumentParser) -> None:
    add = words.add_argument
    add("--plate", type=_read(_size), help=say("such as 200x150mm, 8x6in"))
    add(
        "--crop", type=_read(_four), metavar="X,Y,W,H", help=say("shares of the picture, or pixels")
    )
    add("--turn", type=_read(_number), default=0.0, metavar="DEGREES", help=say("clockwise"))
    add("--squint", type=_read(_length_or_none), metavar="MM", help=say("half the brush"))
    add("--limit-megapixels", type=_read(_number), default=400.0, help=say("largest picture read"))


def _tone_words(words: argparse.ArgumentParser) -> None:
    add = words.add_argument
    add("--tones", type=_read(_whole), default=5, help=say("2 to 12, white included (5)"))
    add("--choose", choices=[c.value for c in Choice], default="even", help=say("even steps, or"))
    add("--gap-lightness", type=_read(_number), default=6.0, help=say("least gap, L* (6)"))
    add("--darkest-free", action="store_true", help=say("the darkest tone follows the picture too"))
    add("--brush", type=_read(read_length), help=say("smallest mark, such as 1.5mm"))
    add("--gap", type=_read(read_length), help=say("smallest gap (4/3 of the mark)"))
    add("--smallest-area", type=_read(_number), default=0.0, metavar="MM2", help=say("of a place"))


def _bath_words(words: argparse.ArgumentParser) -> None:
    add, usual = words.add_argument, Conditions()
    add("--metal", choices=[m.value for m in Metal], default=usual.metal)
    add("--mordant", choices=[m.value for m in Mordant], default=usual.mordant)
    add("--grain", choices=[g.value for g in GrainKind], default=usual.grain)
    add("--fineness", choices=[f.value for f in Fineness], default=usual.fineness)
    add("--varnish", choices=[v.value for v in Varnish], default=usual.varnish)
    add("--bath", choices=[m.value for m in Movement], default=usual.movement)
    add("--temperature", type=_read(read_temperature), default=usual.temperature_c)
    add("--strength", type=_read(read_strength), help=say("a label, such as 38 Be"))


def _read(reader: Callable[[str], object]) -> Callable[[str], object]:
    """``reader`` with its sentence handed on to the one that says it."""

    def reading(text: str) -> object:
        try:
            return reader(text)
        except ToneLadderError as fault:
            raise argparse.ArgumentTypeError(str(fault).rstrip(".")) from fault

    return reading


def _size(text: str) -> PlateSize:
    return PlateSize(*read_size(text))


def _length_or_none(text: str) -> float:
    return 0.0 if text.strip() in {"0", "0mm", "0 mm"} else read_length(text)


def _number(text: str) -> float:
    try:
        number = float(text.strip().replace(",", "."))
    except ValueError:
        number = nan
    if not isfinite(number):
        raise QuantityError(say("“{text}” is not a number", text=text[:40]))
    return number


def _whole(text: str) -> int:
    number = _number(text)
    if number != round(number):
        raise QuantityError(say("“{text}” is not a whole number", text=text[:40]))
    return round(number)


def _four(text: str) -> tuple[float, float, float, float]:
    numbers = [_number(piece) for piece in text.split(",")]
    if len(numbers) != 4:
        raise QuantityError(
            say("“{text}” is not four numbers with commas between, X,Y,W,H", text=text[:60])
        )
    x, y, w, h = numbers
    if min(x, y) < 0 or min(w, h) <= 0:
        raise QuantityError(say("“{text}” lies outside the picture", text=text[:60]))
    return x, y, w, h


def _version() -> str:
    try:
        return version("toneladder")
    except PackageNotFoundError:
        return say("from the source folder")
