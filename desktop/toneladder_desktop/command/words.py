"""The words of a command line, read as people write them, refused in one sentence."""

import argparse
from collections.abc import Callable, Mapping
from math import isfinite, nan
from typing import NoReturn, TypedDict

from toneladder.bite.values import (
    Conditions,
    Fineness,
    GrainKind,
    Metal,
    Mordant,
    Movement,
)
from toneladder.errors import PlanError, QuantityError, ToneLadderError
from toneladder.picture.values import PlateSize
from toneladder.quantities import read_length, read_size, read_strength, read_temperature
from toneladder.wording import say


class Parser(argparse.ArgumentParser):
    """Says what is wrong in one sentence; how to use it is told by ``--help``."""

    def _check_value(self, action: argparse.Action, value: object) -> None:
        if action.choices is not None and value not in action.choices:
            known = ", ".join(map(str, action.choices))
            raise argparse.ArgumentError(action, _none_of(str(value), known))

    def error(self, message: str) -> NoReturn:
        """Refuse the words of the command line."""
        raise PlanError(
            say(
                "{reason}. “{program} --help” lists what can be said.",
                reason=message,
                program=self.prog,
            )
        )


def bath_words(words: argparse.ArgumentParser) -> None:
    """Metal, mordant, ground and bath; what is not said is None."""
    add = words.add_argument
    usual = Conditions()
    add("--metal", **one_of({m: say(m.value) for m in Metal}, usual.metal))
    add("--mordant", **one_of({m: say(m.value) for m in Mordant}, usual.mordant))
    add("--grain", **one_of({g: say(g.value) for g in GrainKind}, usual.grain))
    add("--fineness", **one_of({f: say(f.value) for f in Fineness}, usual.fineness))
    add("--bath", **one_of({m: say(m.value) for m in Movement}, usual.movement))
    add("--temperature", type=read(in_celsius), help=say("of the bath, such as 20C, 68F"))
    add("--strength", type=read(read_strength), help=say("a label, such as 38 Be"))


def conditions_of(chosen: argparse.Namespace, usual: Conditions) -> Conditions:
    """``usual`` with what was said of metal, mordant, ground and bath."""
    return Conditions(
        metal=Metal(chosen.metal or usual.metal),
        mordant=Mordant(chosen.mordant or usual.mordant),
        grain=GrainKind(chosen.grain or usual.grain),
        fineness=Fineness(chosen.fineness or usual.fineness),
        varnish=usual.varnish,
        movement=Movement(chosen.bath or usual.movement),
        temperature_c=usual.temperature_c if chosen.temperature is None else chosen.temperature,
        strength=usual.strength if chosen.strength is None else chosen.strength,
    )


def read(reader: Callable[[str], object]) -> Callable[[str], object]:
    """``reader`` with its sentence handed on to the one that says it."""

    def reading(text: str) -> object:
        try:
            return reader(text)
        except ToneLadderError as fault:
            raise argparse.ArgumentTypeError(str(fault).rstrip(".")) from fault

    return reading


class Answers(TypedDict):
    """What argparse is told of a word with few answers."""

    type: Callable[[str], object]
    help: str


def one_of(answers: Mapping[str, str], usual: str = "", told: str = "") -> Answers:
    """A word with few answers, typed in English or in the language spoken, capitals or not.

    Parameters
    ----------
    answers : mapping
        From every answer, as files have it, to the word for it in the language spoken.
    usual : str, optional
        The answer where none is given.
    told : str, optional
        What the answers are for, if that needs telling.
    """
    typed = {_plain(answer): answer for answer in answers}
    typed |= {_plain(spoken): answer for answer, spoken in answers.items()}
    known = ", ".join(answers.values())

    def reading(text: str) -> str:
        answer = typed.get(_plain(text))
        if answer is None:
            raise QuantityError(_none_of(text, known))
        return answer

    lines = say("{known} (usually {usual})", known=known, usual=answers[usual]) if usual else known
    if told:
        lines = say("{told}: {answers}", told=told, answers=lines)
    return {"type": read(reading), "help": lines}


def _none_of(text: str, known: str) -> str:
    return say(
        "“{text}” is none of these: {known}. Nothing was changed", text=text[:40], known=known
    )


def _plain(word: str) -> str:
    return " ".join(word.casefold().split())


def in_mm(text: str) -> float:
    """A length; a number alone is in millimetres, whatever is preferred."""
    return read_length(text, "mm")


def in_celsius(text: str) -> float:
    """A temperature; a number alone is in degrees Celsius, whatever is preferred."""
    return read_temperature(text, "c")


def plate_size(text: str) -> PlateSize:
    """A plate's width and height."""
    return PlateSize(*read_size(text, "mm"))


def length_or_none(text: str) -> float:
    """A length that may be nothing at all, mm."""
    return 0.0 if text.strip() in {"0", "0mm", "0 mm"} else read_length(text, "mm")


def number(text: str) -> float:
    """A finite number, with a decimal point or comma."""
    try:
        found = float(text.strip().replace(",", "."))
    except ValueError:
        found = nan
    if not isfinite(found):
        raise QuantityError(say("“{text}” is not a number", text=text[:40]))
    return found


def whole(text: str) -> int:
    """A whole number."""
    found = number(text)
    if found != round(found):
        raise QuantityError(say("“{text}” is not a whole number", text=text[:40]))
    return round(found)


def four(text: str) -> tuple[float, float, float, float]:
    """X,Y,W,H of a piece of the picture."""
    numbers = [number(piece) for piece in text.split(",")]
    if len(numbers) != 4:
        raise QuantityError(
            say("“{text}” is not four numbers with commas between, X,Y,W,H", text=text[:60])
        )
    x, y, w, h = numbers
    if min(x, y) < 0 or min(w, h) <= 0:
        raise QuantityError(say("“{text}” lies outside the picture", text=text[:60]))
    return x, y, w, h
