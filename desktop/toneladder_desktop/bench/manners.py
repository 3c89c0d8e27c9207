"""How numbers are written, as lines of the preferences' file; read by the command too."""

from collections.abc import Mapping
from configparser import ConfigParser, Error
from dataclasses import replace
from pathlib import Path
from typing import Any

from toneladder.quantities import Manner, Scale
from toneladder.wording import ENGLISH, spoken

_GROUP = "General"
_EITHER: dict[str, Any] = {"0": False, "1": True}
_LINES: dict[str, tuple[str, dict[str, Any]]] = {
    "decimal": ("decimal", {"point": ".", "comma": ","}),
    "inches": ("imperial", _EITHER),
    "fahrenheit": ("fahrenheit", _EITHER),
    "strokes": ("strokes", _EITHER),
    "scale": ("scale", {scale.value: scale for scale in Scale}),
}

KEYS = tuple(_LINES)
"""The lines that make a manner."""


def line_of(key: str, manner: Manner) -> str:
    """What the file says under one of `KEYS` for a manner."""
    name, words = _LINES[key]
    meant = getattr(manner, name)
    return next(word for word, value in words.items() if value == meant)


def with_line(key: str, text: str, manner: Manner) -> Manner:
    """``manner`` with what one line of the file says.

    Raises
    ------
    KeyError
        Nothing that can be meant.
    """
    name, words = _LINES[key]
    return replace(manner, **{name: words[text]})


def kept_manner(file: Path) -> Manner:
    """The manner of a preferences' file; where it is silent or wrong, that of the language."""
    manner = Manner(decimal="." if spoken() == ENGLISH else ",")
    for key, text in _said(file).items():
        if key in _LINES and text in _LINES[key][1]:
            manner = with_line(key, text, manner)
    return manner


def _said(file: Path) -> Mapping[str, str]:
    parser = ConfigParser(interpolation=None, strict=False)
    try:
        parser.read(file, encoding="utf-8")
    except (Error, OSError, UnicodeDecodeError):
        return {}
    return parser[_GROUP] if parser.has_section(_GROUP) else {}
