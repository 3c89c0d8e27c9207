"""What somebody typed, made plain: clean text, and the numbers in it."""

import re
import unicodedata
from fractions import Fraction

from toneladder.errors import QuantityError
from toneladder.wording import say

MOST_LETTERS = 60
_SHOWN = 24

NUMBER = r"\d+(?:[.,]\d+)*(?:\s+\d+\s*/\s*\d+|\s*/\s*\d+)?|[.,]\d+"
"""A number as typed, inside a larger pattern: 8, 8.5, 8,5, .5, 1/2, 8 1/2."""

_VULGAR = re.compile("[¼½¾⅐-⅞]")
_MIXED = re.compile(r"(?:(?P<whole>\d+)\s+)?(?P<over>\d+)\s*/\s*(?P<under>\d+)")
_DECIMAL = re.compile(r"\d*(?:[.,]\d+)?")
_PERHAPS_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}")


def clean(text: str, example: str) -> str:
    """``text`` in lower case with plain spaces and plain fractions.

    Raises
    ------
    QuantityError
        It is empty, far too long or holds control characters; ``example`` shows what to type.
    """
    if len(text) > MOST_LETTERS:
        raise QuantityError(
            say(
                "{typed} is too long to be read. Nothing was changed. Write it like {example}.",
                typed=quoted(text),
                example=example,
            )
        )
    if any(unicodedata.category(letter) == "Cc" and letter != "\t" for letter in text):
        raise unreadable(text, example)
    text = _VULGAR.sub(lambda found: " " + unicodedata.normalize("NFKC", found[0]), text)
    text = unicodedata.normalize("NFKC", text).replace("\N{FRACTION SLASH}", "/")
    text = " ".join(text.replace("\N{MINUS SIGN}", "-").lower().split())
    if not text:
        raise QuantityError(say("Nothing was written. Write it like {example}.", example=example))
    return text


def number(text: str, example: str) -> float:
    """The value of a number as people write it, with a decimal point or comma or a fraction.

    Raises
    ------
    QuantityError
        It is no number, or it can be read in two ways.
    """
    text = text.strip()
    if mixed := _MIXED.fullmatch(text):
        if int(mixed["under"]) == 0:
            raise unreadable(text, example)
        return float(int(mixed["whole"] or 0) + Fraction(int(mixed["over"]), int(mixed["under"])))
    if _PERHAPS_THOUSANDS.fullmatch(text):
        point, whole = text.replace(",", "."), text.replace(",", "")
        raise QuantityError(
            say(
                "{typed} can be read as {point} or as {whole}. Nothing was changed. "
                "Write {point} or {whole}.",
                typed=quoted(text),
                point=point,
                whole=whole,
            )
        )
    if not _DECIMAL.fullmatch(text) or not text.strip(".,"):
        raise unreadable(text, example)
    return float(text.replace(",", "."))


def unreadable(text: str, example: str) -> QuantityError:
    """The error for something that means nothing here."""
    return QuantityError(
        say(
            "{typed} cannot be read. Nothing was changed. Write it like {example}.",
            typed=quoted(text),
            example=example,
        )
    )


def outside(text: str, least: str, most: str) -> QuantityError:
    """The error for a quantity that can be read and cannot be meant."""
    return QuantityError(
        say(
            "{typed} is outside {least} to {most}. Nothing was changed. Write a value in between.",
            typed=quoted(text),
            least=least,
            most=most,
        )
    )


def quoted(text: str) -> str:
    """What was typed, short and printable, in the quotation marks of the language."""
    shown = " ".join(text[:MOST_LETTERS].split())
    if len(shown) > _SHOWN:
        shown = shown[: _SHOWN - 1] + "…"
    printable = (mark if mark.isprintable() else "\N{REPLACEMENT CHARACTER}" for mark in shown)
    return say("“{text}”", text="".join(printable))
