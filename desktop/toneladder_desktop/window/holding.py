"""What a hand on the ladder does to the plate: hold a parting or a bite, let it go again."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QObject

from toneladder.plate.values import Plate
from toneladder.quantities import Manner, name_tone, write_bite
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.workings import Workings
from toneladder_desktop.ladder.content import HeldBite, HeldParting

_SAME = 1e-6
_PARTING = "parting"


def with_parting(plate: Plate, old: float, new: float) -> Plate:
    """The parting at printed lightness ``old`` held at ``new``, L*; all others as they are."""
    others = [held for held in plate.tones.held_partings if abs(held - old) > _SAME]
    held = tuple(sorted({*others, new}, reverse=True))
    return replace(plate, tones=replace(plate.tones, held_partings=held))


def with_bite(plate: Plate, tone: int, total_s: float) -> Plate:
    """The tone, by its number as asked for, held at a total bite in seconds."""
    held = {**dict(plate.tones.held_bites), tone: total_s}
    return replace(plate, tones=replace(plate.tones, held_bites=tuple(sorted(held.items()))))


def without(plate: Plate, held: object) -> Plate:
    """``held`` (a ``HeldParting``, a ``HeldBite``, or None for everything) follows again."""
    tones = plate.tones
    if isinstance(held, HeldParting):
        partings = tuple(p for p in tones.held_partings if abs(p - held.lightness) > _SAME)
        return replace(plate, tones=replace(tones, held_partings=partings))
    if isinstance(held, HeldBite):
        bites = tuple(bite for bite in tones.held_bites if bite[0] != held.tone)
        return replace(plate, tones=replace(tones, held_bites=bites))
    return replace(plate, tones=replace(tones, held_partings=(), held_bites=()))


class Holding(QObject):
    """Does on the bench what a hand on the ladder wants; a movement of one peg is one undo step."""

    def __init__(self, bench: Bench, workings: Workings, manner: Callable[[], Manner]) -> None:
        super().__init__(bench)
        self._bench, self._workings, self._manner = bench, workings, manner

    def part(self, old: float, new: float) -> None:
        """Hold the parting at ``old`` at ``new``, printed lightness L*."""
        plate = self._bench.plate
        if plate is None:
            return
        tone, lighter = name_tone(new, self._manner()), self._lighter_than(old)
        if lighter is None:
            sentence = say("Part two tones at {tone}", tone=tone)
        else:
            sentence = say(
                "Part tones {lighter} and {darker} at {tone}",
                lighter=lighter,
                darker=lighter + 1,
                tone=tone,
            )
        self._bench.change(sentence, with_parting(plate, old, new), _PARTING)

    def hold_bite(self, tone: int, total_s: float) -> None:
        """Hold the total bite of a tone."""
        plate = self._bench.plate
        if plate is not None:
            sentence = say("Bite tone {tone} for {total}", tone=tone, total=write_bite(total_s))
            self._bench.change(sentence, with_bite(plate, tone, total_s), _series_of(tone))

    def let_go(self, held: object) -> None:
        """Let one peg follow again, or all of them (None).

        While a hand still has the peg, this only ends what the hand began: no step of its own.
        """
        plate = self._bench.plate
        if plate is None:
            return
        match held:
            case HeldParting(lightness):
                series, sentence = _PARTING, self._freed(lightness)
            case HeldBite(tone):
                series, sentence = _series_of(tone), say("Let the bite of tone {n} go", n=tone)
            case _:
                series, sentence = "", say("Let all go")
        self._bench.change(sentence, without(plate, held), series if self._bench.in_hand else "")

    def _freed(self, lightness: float) -> str:
        lighter = self._lighter_than(lightness)
        if lighter is None:
            return say("Let one go")
        return say(
            "Let the parting of tones {lighter} and {darker} go",
            lighter=lighter,
            darker=lighter + 1,
        )

    def _lighter_than(self, lightness: float) -> int | None:
        """The tone on the lighter side of the parting at ``lightness``, if there is one."""
        chosen = self._workings.chosen
        if chosen is None:
            return None
        for tone, parting in enumerate(chosen.parted.partings):
            if abs(parting - lightness) <= _SAME:
                return tone
        return None


def _series_of(tone: int) -> str:
    return f"bite {tone}"
