"""What the etcher prefers, kept from day to day: units, decimal sign, light or dark, paper."""

from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path

from PySide6.QtCore import QLocale, QObject, QSettings, Signal

from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Varnish
from toneladder.order.values import Rates
from toneladder.quantities import Manner
from toneladder.wording import LANGUAGES, LONGER
from toneladder_desktop.drawing.style import Scheme

_FINEST = 100.0  # pixels to the millimetre
_PAPERS = ("a4", "letter", "a3")
LEAST_GAIN = (0.01, 1.0)
"""What one more tone may be asked to bring, darkness."""

_AMERICAN = QLocale.MeasurementSystem.ImperialUSSystem


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything preferred, and what was used last.

    ``language`` is one of `LANGUAGES`, or empty: the desktop's. ``paper`` is the office paper,
    ``a4``, ``letter`` or ``a3``; ``screen_px_per_mm`` the screen measured with a ruler (0: as it
    says of itself); ``ladder_key`` whether the ladder explains itself at its foot; ``conditions``
    are those of the last plate and ``rates`` how fast the etcher works. ``least_gain`` is the
    darkness that one more tone must bring to be worth it.
    ``notes_done`` are the notes of the first minutes that need not be shown any more.
    """

    language: str = ""
    manner: Manner = Manner()
    scheme: Scheme = Scheme.SYSTEM
    paper: str = "a4"
    screen_px_per_mm: float = 0.0
    ladder_key: bool = True
    conditions: Conditions = Conditions()
    rates: Rates = Rates()
    least_gain: float = 0.1
    notes_done: tuple[str, ...] = ()


class Preferences(QObject):
    """The settings as they are now, in one file; ``changed`` says that they are others."""

    changed = Signal()

    def __init__(self, file: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._file = QSettings(str(file), QSettings.Format.IniFormat, self)
        self.now = self._read()

    def change(self, **new: object) -> None:
        """Prefer something else from now on."""
        settings = replace(self.now, **new)  # type: ignore[arg-type] # names are the fields'
        if settings == self.now:
            return
        self.now = settings
        for key, value in _flat(settings).items():
            self._file.setValue(key, value)
        self._file.sync()
        self.changed.emit()

    def _read(self) -> Settings:
        """What the file says, or the desktop's own habits where it is silent or wrong."""
        plain = _of_locale(QLocale.system())
        said = {key: str(self._file.value(key, value)) for key, value in _flat(plain).items()}
        try:
            return _unflat(said)
        except ValueError:
            return plain


def _of_locale(locale: QLocale) -> Settings:
    american = locale.measurementSystem() is _AMERICAN
    imperial = locale.measurementSystem() is not QLocale.MeasurementSystem.MetricSystem
    decimal = "," if locale.decimalPoint() == "," else "."
    return Settings(
        manner=Manner(decimal, imperial=imperial, fahrenheit=american),
        paper="letter" if american else "a4",
    )


def _flat(settings: Settings) -> dict[str, str]:
    conditions = asdict(settings.conditions)
    kept = ("metal", "mordant", "grain", "fineness", "varnish")
    return {
        "language": settings.language,
        "decimal": "comma" if settings.manner.decimal == "," else "point",
        "inches": str(int(settings.manner.imperial)),
        "fahrenheit": str(int(settings.manner.fahrenheit)),
        "scheme": settings.scheme.value,
        "paper": settings.paper if settings.paper in _PAPERS else "a4",
        "screen_px_per_mm": repr(settings.screen_px_per_mm),
        "ladder_key": str(int(settings.ladder_key)),
        "least_gain": repr(settings.least_gain),
        "notes_done": "; ".join(settings.notes_done),
        **{key: str(conditions[key]) for key in kept},
        **{f"pace_{key}": str(value) for key, value in asdict(settings.rates).items()},
    }


def _unflat(said: dict[str, str]) -> Settings:
    return Settings(
        language=said["language"] if said["language"] in {*LANGUAGES, LONGER} else "",
        manner=Manner(
            "," if said["decimal"] == "comma" else ".",
            imperial=said["inches"] == "1",
            fahrenheit=said["fahrenheit"] == "1",
        ),
        scheme=Scheme(said["scheme"]),
        paper=said["paper"] if said["paper"] in _PAPERS else "a4",
        screen_px_per_mm=_measured(said["screen_px_per_mm"]),
        ladder_key=said["ladder_key"] == "1",
        conditions=Conditions(
            metal=Metal(said["metal"]),
            mordant=Mordant(said["mordant"]),
            grain=GrainKind(said["grain"]),
            fineness=Fineness(said["fineness"]),
            varnish=Varnish(said["varnish"]),
        ),
        rates=_rates(said),
        least_gain=_least_gain(said["least_gain"]),
        notes_done=tuple(note for note in said["notes_done"].split("; ") if note),
    )


def _least_gain(text: str) -> float:
    """A least gain that can be meant; a file that says otherwise is not believed."""
    gain = float(text)
    if not LEAST_GAIN[0] <= gain <= LEAST_GAIN[1]:
        raise ValueError
    return gain


def _measured(text: str) -> float:
    """Pixels to the millimetre that a screen may have; 0 if nobody measured."""
    found = float(text)
    if not 0.0 <= found <= _FINEST:
        raise ValueError(text)
    return found


def _rates(said: dict[str, str]) -> Rates:
    """Rates that a plate may have; a file that says otherwise is not believed."""
    from toneladder.plate.limits import rate_faults

    names = [field.name for field in fields(Rates)]
    found = {name: said[f"pace_{name}"] for name in names}
    dry = found.pop("dry_min")
    rates = replace(
        Rates(**{name: float(text) for name, text in found.items()}),
        dry_min=None if dry == "None" else float(dry),
    )
    if any(rate_faults(rates)):
        raise ValueError
    return rates
