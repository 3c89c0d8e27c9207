"""Tones, partings and total bites from what is prepared: quick enough for a dragged peg."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from toneladder.bite.curve import lightness_at
from toneladder.bite.values import BiteCurve
from toneladder.optics import FloatArray
from toneladder.order.ladder import Ladder, Wanted, make_ladder
from toneladder.plan.patches import copied_tones, pointed_at
from toneladder.plan.preparing import Prepared, placing_on
from toneladder.plate.values import Plate
from toneladder.strip.checking import bath_today
from toneladder.tones.choose import Demand, Levels, even_levels, levels_following
from toneladder.tones.lattice import target_lightness
from toneladder.tones.notes import wished_cells
from toneladder.tones.parting import Parted, part
from toneladder.tones.values import FEWEST_TONES, Choice, ToneChoice
from toneladder.wording import say, say_number


@dataclass(frozen=True, slots=True)
class Chosen:
    """The tones of a plate: where they part, how long they bite, what must be said.

    ``rate`` is seconds on the curve per second on the clock in today's bath.
    """

    parted: Parted
    ladder: Ladder
    rate: float
    warnings: tuple[str, ...]

    @property
    def count(self) -> int:
        """Number of tones as planned, white included."""
        return len(self.parted.levels)


def choose(prepared: Prepared, plate: Plate, curve: BiteCurve) -> Chosen:
    """Tones and bites of ``plate`` on ``curve``.

    Parameters
    ----------
    prepared : Prepared
        Of the same picture, size, laying, squint and brush.
    plate : Plate
        Every decision.
    curve : BiteCurve
        Of the strip, or the starting point.
    """
    bath = bath_today(plate.evidence, plate.conditions.temperature_c, curve)
    rate = bath.rate
    targets = targets_of(prepared, plate, curve)
    asked = _asked(prepared, plate, curve, targets, rate)
    levels = asked.levels
    wished = wished_cells(plate.notes, placing_on(plate), prepared.grid.px_per_mm)
    counts = prepared.cleaned_counts
    parted = part(levels, targets, counts, prepared.least_cells, wished=wished)
    kept = [k for k in range(levels.count) if k not in parted.joined]
    cells = prepared.cleaned.size
    wanted = Wanted(
        lightness=parted.levels,
        shares=tuple(n / cells for n in parted.cells),
        held_s=tuple(asked.held_s.get(k) for k in kept),
        spreads=tuple(asked.spreads.get(k) for k in kept),
    )
    ladder = make_ladder(wanted, curve, rate, plate.size)
    return Chosen(parted, ladder, rate, (*bath.said, *asked.said, *_joined(parted)))


def targets_of(prepared: Prepared, plate: Plate, curve: BiteCurve) -> FloatArray:
    """Printed lightness L* that each step of the plate's lattice asks for, shape (256,)."""
    paper, deepest = curve.lightness[0], float(lightness_at(curve, curve.deepest_useful_s))
    pointed = pointed_at(plate, curve)
    if pointed is not None:
        paper, deepest = pointed.patches[0].lightness, pointed.deepest
    return target_lightness(prepared.lattice, plate.tones.range, paper, deepest)


def wanted_levels(
    prepared: Prepared, tones: ToneChoice, curve: BiteCurve, targets: FloatArray, rate: float
) -> Levels:
    """The lightness of each tone before the brush had its say: as many as can be had."""
    paper, deepest = curve.lightness[0], float(lightness_at(curve, curve.deepest_useful_s))
    held = tuple((k, float(lightness_at(curve, total * rate))) for k, total in tones.held_bites)
    weights = prepared.asked_counts.astype(float)
    want = Demand(paper, deepest, tones.gap_lightness, tones.held_partings, held)
    if tones.choice is not Choice.PICTURE:
        return even_levels(targets, weights, tones.count, paper, deepest, want)
    if not tones.darkest_kept:
        want = Demand(paper, None, tones.gap_lightness, tones.held_partings, held)
    counts = range(FEWEST_TONES, tones.count + 1)
    found = levels_following(targets, weights, counts if not held else [tones.count], want)
    if found:
        return found[max(found)]
    return even_levels(targets, weights, tones.count, paper, deepest, want)


@dataclass(frozen=True, slots=True)
class _Asked:
    """Tones before the brush had its say: bites that are held, spreads of copied readings."""

    levels: Levels
    held_s: Mapping[int, float]
    spreads: Mapping[int, float]
    said: tuple[str, ...]


def _asked(
    prepared: Prepared, plate: Plate, curve: BiteCurve, targets: FloatArray, rate: float
) -> _Asked:
    pointed = pointed_at(plate, curve)
    if pointed is None:
        levels = wanted_levels(prepared, plate.tones, curve, targets, rate)
        said = (*_no_strip(plate), *_fewer(plate.tones, levels))
        return _Asked(levels, dict(plate.tones.held_bites), {}, said)
    weights = prepared.asked_counts.astype(float)
    copied = copied_tones(pointed, plate.tones, targets, weights, rate)
    spreads = {k: patch.spread for k, patch in enumerate(copied.patches)}
    return _Asked(copied.levels, dict(enumerate(copied.bites_s)), spreads, copied.said)


def _no_strip(plate: Plate) -> Iterator[str]:
    if plate.tones.choice is Choice.STRIP:
        yield say(
            "There is no strip of this bath whose patches could become tones: they are evenly "
            "spaced."
        )


def _fewer(tones: ToneChoice, levels: Levels) -> Iterator[str]:
    if levels.count < tones.count:
        yield say(
            "{asked} tones were asked for; the picture and the least gap between tones leave "
            "room for {planned}.",
            asked=tones.count,
            planned=levels.count,
        )


def _joined(parted: Parted) -> Iterator[str]:
    if parted.joined:
        yield say_number(
            "Tone {tones} would be too small to paint or too close to tell apart: it was joined "
            "to its neighbour, which leaves {planned} tones.",
            "Tones {tones} would be too small to paint or too close to tell apart: they were "
            "joined to their neighbours, which leaves {planned} tones.",
            len(parted.joined),
            tones=", ".join(map(str, parted.joined)),
            planned=len(parted.levels),
        )
