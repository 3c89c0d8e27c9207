"""What the etcher prefers, kept from day to day: units, decimal sign, light or dark, paper."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass, fields, replace
from enum import Enum
from functools import partial
from itertools import chain
from pathlib import Path
from typing import Any

from PySide6.QtCore import QLocale, QObject, QSettings, Signal

from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Varnish
from toneladder.order.values import Rates
from toneladder.quantities import Manner, write_as
from toneladder.wording import LANGUAGES, LONGER, say
from toneladder_desktop.bench.manners import KEYS, line_of, with_line
from toneladder_desktop.drawing.style import Scheme

_FINEST = 100.0  # pixels to the millimetre
PAPERS = ("a4", "letter", "a3")
LEAST_GAIN = (0.01, 1.0)
"""What one more tone may be asked to bring, darkness."""

_AMERICAN = QLocale.MeasurementSystem.ImperialUSSystem


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything preferred, and what was used last.

    ``language`` is one of `LANGUAGES`, or empty: the desktop's. ``paper`` is the office paper,
    one of `PAPERS`, and ``printer`` the one used last; ``screen_px_per_mm`` the screen measured
    with a ruler (0: as it says of itself); ``ladder_key`` whether the ladder explains itself at its
    foot; ``conditions`` are those of the last plate and ``rates`` how fast the etcher works.
    ``least_gain`` is the darkness that one more tone must bring to be worth it.
    ``steady`` keeps the tank's screen from flashing at the lift.
    ``notes_done`` are the notes of the first minutes that need not be shown any more.
    """

    language: str = ""
    manner: Manner = Manner()
    scheme: Scheme = Scheme.SYSTEM
    paper: str = "a4"
    printer: str = ""
    screen_px_per_mm: float = 0.0
    ladder_key: bool = True
    conditions: Conditions = Conditions()
    rates: Rates = Rates()
    least_gain: float = 0.1
    steady: bool = False
    notes_done: tuple[str, ...] = ()


def paper_name(paper: str) -> str:
    """What one of `PAPERS` is called."""
    return {"a4": say("A4"), "letter": say("US Letter"), "a3": say("A3")}[paper]


@dataclass(frozen=True, slots=True)
class _Line:
    """One line of the file: its key, how it is written, and the settings with what was read.

    ``put`` raises ValueError or KeyError for what cannot be meant.
    """

    key: str
    get: Callable[[Settings], object]
    put: Callable[[Settings, str], Settings]


class Preferences(QObject):
    """The settings as they are now, in one file; ``changed`` says that they are others.

    Numbers are written everywhere as these settings say; ``usual`` are those of the desktop.
    """

    changed = Signal()

    def __init__(self, file: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._file = QSettings(str(file), QSettings.Format.IniFormat, self)
        self.usual = _of_locale(QLocale.system())
        self.now = self._read()
        write_as(self.now.manner)

    def change(self, **new: object) -> None:
        """Prefer something else from now on."""
        self.become(replace(self.now, **new))  # type: ignore[arg-type] # names are the fields'

    def become(self, settings: Settings) -> None:
        """Prefer all of this from now on."""
        if settings == self.now:
            return
        self.now = settings
        write_as(settings.manner)
        for line in chain.from_iterable(_lines()):
            self._file.setValue(line.key, str(line.get(settings)))
        self._file.sync()
        self.changed.emit()

    def _read(self) -> Settings:
        """What the file says, or the desktop's own habits where it is silent or wrong."""
        settings = self.usual
        for group in _lines():
            with suppress(ValueError, KeyError):
                settings = self._read_group(group, settings)
        return settings

    def _read_group(self, group: Sequence[_Line], settings: Settings) -> Settings:
        for line in group:
            said = self._file.value(line.key, str(line.get(settings)))
            settings = line.put(settings, str(said))
        return settings


def _of_locale(locale: QLocale) -> Settings:
    american = locale.measurementSystem() is _AMERICAN
    imperial = locale.measurementSystem() is not QLocale.MeasurementSystem.MetricSystem
    decimal = "," if locale.decimalPoint() == "," else "."
    return Settings(
        manner=Manner(decimal, imperial=imperial, fahrenheit=american),
        paper="letter" if american else "a4",
    )


_LINES = (
    _Line("language", lambda s: s.language, lambda s, text: replace(s, language=_tongue(text))),
    _Line("scheme", lambda s: s.scheme.value, lambda s, text: replace(s, scheme=Scheme(text))),
    _Line("paper", lambda s: s.paper, lambda s, text: replace(s, paper=_one_of(text, PAPERS))),
    _Line("printer", lambda s: s.printer, lambda s, text: replace(s, printer=text)),
    _Line(
        "screen_px_per_mm",
        lambda s: repr(s.screen_px_per_mm),
        lambda s, text: replace(s, screen_px_per_mm=_between(text, 0.0, _FINEST)),
    ),
    _Line(
        "ladder_key",
        lambda s: int(s.ladder_key),
        lambda s, text: replace(s, ladder_key=_yes(text)),
    ),
    _Line("steady", lambda s: int(s.steady), lambda s, text: replace(s, steady=_yes(text))),
    _Line(
        "least_gain",
        lambda s: repr(s.least_gain),
        lambda s, text: replace(s, least_gain=_between(text, *LEAST_GAIN)),
    ),
    _Line(
        "notes_done",
        lambda s: "; ".join(s.notes_done),
        lambda s, text: replace(s, notes_done=tuple(one for one in text.split("; ") if one)),
    ),
)
"""Every preference as the file has it; the last plate's conditions and the pace follow below."""

_CONDITIONS = {
    "metal": Metal,
    "mordant": Mordant,
    "grain": GrainKind,
    "fineness": Fineness,
    "varnish": Varnish,
}


def _lines() -> tuple[tuple[_Line, ...], ...]:
    """All lines of the file, in groups that are believed together or not at all."""
    return (
        *((line,) for line in _LINES),
        *((_Line(key, partial(_manner_line, key), partial(_with_manner, key)),) for key in KEYS),
        tuple(
            _Line(name, partial(_condition, name), partial(_with_condition, name, kind))
            for name, kind in _CONDITIONS.items()
        ),
        tuple(
            _Line(f"pace_{field.name}", partial(_rate, field.name), partial(_at, field.name))
            for field in fields(Rates)
        ),
    )


def _condition(name: str, settings: Settings) -> object:
    return getattr(settings.conditions, name).value


def _with_condition(name: str, kind: type[Enum], settings: Settings, text: str) -> Settings:
    values: dict[str, Any] = {name: kind(text)}
    return replace(settings, conditions=replace(settings.conditions, **values))


def _rate(name: str, settings: Settings) -> object:
    return getattr(settings.rates, name)


def _at(name: str, settings: Settings, text: str) -> Settings:
    """The settings with a rate that a plate may have."""
    from toneladder.plate.limits import rate_faults

    values: dict[str, Any] = {name: None if text == "None" else float(text)}
    rates = replace(settings.rates, **values)
    if any(rate_faults(rates)):
        raise ValueError(text)
    return replace(settings, rates=rates)


def _manner_line(key: str, settings: Settings) -> object:
    return line_of(key, settings.manner)


def _with_manner(key: str, settings: Settings, text: str) -> Settings:
    return replace(settings, manner=with_line(key, text, settings.manner))


def _tongue(text: str) -> str:
    return _one_of(text, ("", *LANGUAGES, LONGER))


def _yes(text: str) -> bool:
    return _one_of(text, ("0", "1")) == "1"


def _one_of(text: str, known: Sequence[str]) -> str:
    if text not in known:
        raise ValueError(text)
    return text


def _between(text: str, least: float, most: float) -> float:
    found = float(text)
    if not least <= found <= most:
        raise ValueError(text)
    return found
