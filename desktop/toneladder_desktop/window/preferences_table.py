"""All that can be preferred, as one table: a question, its answers, where the answer is kept."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

from toneladder.quantities import Manner, Scale, write_bite, write_number, write_tone, written
from toneladder.wording import LANGUAGES, say
from toneladder_desktop.bench.settings import PAPERS, Settings, paper_name
from toneladder_desktop.drawing.style import Scheme


@dataclass(frozen=True, slots=True)
class Preference:
    """One row: what is asked, what it does, what can be answered, how that is kept."""

    key: str
    question: str
    does: str
    answers: tuple[tuple[Any, str], ...]
    get: Callable[[Settings], Any]
    put: Callable[[Settings, Any], Settings]

    def found_by(self, words: str) -> bool:
        """Whether the row has all of ``words`` in it, in any case."""
        said = (self.question, self.does, *(answer for _, answer in self.answers))
        text = " ".join(said).casefold()
        return all(word in text for word in words.casefold().split())


def all_preferences() -> tuple[Preference, ...]:
    """The table, in the language that is spoken."""
    return (
        Preference(
            "language",
            say("Language"),
            say("Of the window, its sheets and the handbook, from the next start."),
            (("", say("as the desktop")), *LANGUAGES.items()),
            lambda now: now.language,
            lambda now, answer: replace(now, language=answer),
        ),
        _of_manner(
            "imperial",
            say("Lengths"),
            say("As they are written; either can be typed, with its unit."),
            say("millimetres"),
            say("inches"),
        ),
        _of_manner(
            "fahrenheit",
            say("Temperatures"),
            say("Of the bath; either can be typed, with its unit."),
            say("°C"),
            say("°F"),
        ),
        _with_manner(
            "decimal",
            say("Decimal sign"),
            say("As numbers are written; both can be typed."),
            tuple(
                (sign, say("{name}, {example}", name=name, example=_shown(sign)))
                for sign, name in ((".", say("point")), (",", say("comma")))
            ),
        ),
        _of_manner(
            "strokes",
            say("Lengths of bites"),
            say("As they are written; both can be typed."),
            write_bite(75.0, Manner()),
            write_bite(75.0, Manner(strokes=True)),
        ),
        _with_manner(
            "scale",
            say("Tones"),
            say("What their figures mean, on screens and sheets; files keep lightness."),
            tuple((scale, _told(scale)) for scale in Scale),
        ),
        Preference(
            "scheme",
            say("The window is"),
            say("The grey round the print is the same in both, so that tones can be judged."),
            (
                (Scheme.SYSTEM, say("as the desktop")),
                (Scheme.LIGHT, say("light")),
                (Scheme.DARK, say("dark")),
            ),
            lambda now: now.scheme,
            lambda now, answer: replace(now, scheme=answer),
        ),
        Preference(
            "paper",
            say("Office paper"),
            say("What sheets are laid out for; the printer must hold the same."),
            tuple((paper, paper_name(paper)) for paper in PAPERS),
            lambda now: now.paper,
            lambda now, answer: replace(now, paper=answer),
        ),
        Preference(
            "steady",
            say("At the lift the tank's screen"),
            say("Changing is seen from across the room; still is for eyes that flashing harms."),
            ((False, say("changes light and dark")), (True, say("stays still"))),
            lambda now: now.steady,
            lambda now, answer: replace(now, steady=answer),
        ),
    )


def _of_manner(name: str, question: str, does: str, no: str, yes: str) -> Preference:
    return _with_manner(name, question, does, ((False, no), (True, yes)))


def _with_manner(
    name: str, question: str, does: str, answers: tuple[tuple[Any, str], ...]
) -> Preference:
    """A row about how numbers are written."""
    return Preference(
        name,
        question,
        does,
        answers,
        lambda now: getattr(now.manner, name),
        lambda now, answer: replace(now, manner=replace(now.manner, **{name: answer})),
    )


def _shown(sign: str) -> str:
    return write_number(1.5, Manner(sign))


def _told(scale: Scale) -> str:
    """A scale and a middle grey on it."""
    words = {
        Scale.DARKNESS: say("darkness, 0 white to 10 black"),
        Scale.LIGHTNESS: say("lightness L*"),
        Scale.DENSITY: say("density"),
    }[scale]
    example = write_tone(48.0, replace(written(), scale=scale))
    return say("{scale}: {example}", scale=words, example=example)
