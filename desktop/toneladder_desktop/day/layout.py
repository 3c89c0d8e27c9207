"""Where everything of the day stands: pure geometry, in pixels of the widget.

The bench lies above, the bath below it; time runs to the right, to scale. Words under the line
stand where they belong, pushed aside a little where they would touch, and left out where even
that is not enough.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from toneladder.boxes import Box
from toneladder.order.values import Doing, Order, Stretch
from toneladder_desktop.drawing.pushing import pushed_apart

MARGIN, OVER = 12.0, 8.0
"""Left and right of the line, and how far words may run over its left end into that."""

SIDE_WORDS = 46.0
"""Room at the right for the words *bench* and *bath*."""

MARKS_Y = 37.0
BENCH, BATH = (47.0, 27.0), (74.0, 18.0)
"""Top and height of bench and bath."""

LIFTS_Y, BITES_Y = 103.0, 119.0
LEAST_BITE = 3.0
"""A bite is never drawn narrower than this, however short it is."""

THIN = 6.0
"""Height of what is neither painting nor drying: rinsing, looking."""

BETWEEN = 8.0
"""Least distance between two words."""

FARTHEST = 22.0
"""A word that would have to stand farther from its place is left out."""

_MARKED_MIN = (15, 30, 60, 120, 180, 360, 720, 1440)

WidthOf = Callable[[str], float]


@dataclass(frozen=True, slots=True)
class Block:
    """One stretch of the day as it is drawn."""

    step: int
    doing: Doing
    box: Box


@dataclass(frozen=True, slots=True)
class Word:
    """A word centred on ``x`` that belongs to a step; ``width`` is how wide it is set."""

    step: int
    text: str
    x: float
    width: float

    @property
    def left(self) -> float:
        """Its left end."""
        return self.x - self.width / 2.0

    @property
    def right(self) -> float:
        """Its right end."""
        return self.x + self.width / 2.0


@dataclass(frozen=True, slots=True)
class HourMark:
    """A mark of the clock; ``midnight`` begins another day."""

    x: float
    text: str
    midnight: bool


@dataclass(frozen=True, slots=True)
class DayLayout:
    """The whole day, placed. ``spans`` are left and right of each step, from step 1."""

    bench: Box
    bath: Box
    blocks: tuple[Block, ...]
    spans: tuple[tuple[float, float], ...]
    marks: tuple[HourMark, ...]
    numbers: tuple[Word, ...]
    lifts: tuple[Word, ...]
    bites: tuple[Word, ...]

    def step_at(self, x: float) -> int | None:
        """The step on which a place falls; what follows a step until the next begins is its own."""
        begun = [k for k, (left, _) in enumerate(self.spans, start=1) if left <= x]
        return begun[-1] if begun and x <= self.bench.right else None


@dataclass(frozen=True, slots=True)
class Texts:
    """The words of the day: one lift and one bite a step, and what stands at a mark.

    ``start_min`` is minutes after midnight, None if work may begin at any time; ``mark``
    writes minutes after the start. The rest tells how wide each kind of word is set.
    """

    lifts: tuple[str, ...]
    bites: tuple[str, ...]
    start_min: int | None
    mark: Callable[[float], str]
    mark_width: WidthOf
    lift_width: WidthOf
    bite_width: WidthOf
    number_width: WidthOf


def lay_out_day(order: Order, texts: Texts, width: float, chosen: int | None = None) -> DayLayout:
    """Place the day.

    Parameters
    ----------
    order : Order
        With its day: at least one stretch.
    texts : Texts
        What is written, and how wide it is.
    width : float, pixels
        Of the widget.
    chosen : int, optional
        Step whose words are never left out.
    """
    left, right = MARGIN, max(width - MARGIN - SIDE_WORDS, MARGIN + 60.0)
    end_s = max(order.day[-1].end_s, 1.0)

    def across(seconds: float) -> float:
        return left + (right - left) * seconds / end_s

    blocks = tuple(_block(stretch, across) for stretch in order.day)
    spans = tuple(_spans(order, across))
    line = (left, right)
    first = [chosen] if chosen else []
    ranked = [*first, len(spans), 1, *range(2, len(spans))]
    lifted = [across(step.lift_after_s) for step in order.steps]
    lifts, bites = _under(texts, lifted, ranked, line)
    return DayLayout(
        bench=Box(left, BENCH[0], right - left, BENCH[1]),
        bath=Box(left, BATH[0], right - left, BATH[1]),
        blocks=blocks,
        spans=spans,
        marks=tuple(_marks(texts, end_s / 60.0, across)),
        numbers=tuple(_numbers(blocks, len(spans), texts.number_width)),
        lifts=lifts,
        bites=bites,
    )


def _block(stretch: Stretch, across: Callable[[float], float]) -> Block:
    x, right = across(stretch.start_s), across(stretch.end_s)
    top, high = BENCH
    if stretch.doing is Doing.BITE:
        x, (top, high) = min(x, right - LEAST_BITE), BATH
    elif stretch.doing in (Doing.LOOK, Doing.REST):
        top, high = top + high - THIN, THIN
    return Block(stretch.step, stretch.doing, Box(x, top, right - x, high))


def _spans(order: Order, across: Callable[[float], float]) -> Iterator[tuple[float, float]]:
    """From the first thing a step does to its last lift; a rest belongs to no step."""
    for step in order.steps:
        own = [s for s in order.day if s.step == step.step and s.doing is not Doing.REST]
        yield across(own[0].start_s), across(own[-1].end_s)


def _marks(texts: Texts, length_min: float, across: Callable[[float], float]) -> Iterator[HourMark]:
    start = texts.start_min or 0
    px_per_min = (across(60.0) - across(0.0)) or 1.0
    for every in _MARKED_MIN:
        first = -(-start // every) * every
        minutes = [m - start for m in range(first, int(start + length_min) + 1, every)]
        if texts.start_min is None:
            minutes = minutes[1:]
        words = [texts.mark(m) for m in minutes]
        room = max(map(texts.mark_width, words), default=0.0) + 2.0 * BETWEEN
        if every * px_per_min >= room or every == _MARKED_MIN[-1]:
            for after, word in zip(minutes, words, strict=True):
                midnight = texts.start_min is not None and (start + after) % 1440 == 0
                yield HourMark(across(after * 60.0), word, midnight)
            return


def _numbers(blocks: Sequence[Block], steps: int, width_of: WidthOf) -> Iterator[Word]:
    """Each step's number in the first box of its work that holds it; a narrow one has none."""
    for step in range(1, steps + 1):
        text = str(step)
        width = width_of(text) + 6.0
        boxes = [b.box for b in blocks if b.step == step and b.doing in (Doing.PAINT, Doing.DRY)]
        roomy = [box for box in boxes if box.width >= width + 4.0]
        tight = [box for box in boxes if box.width >= width - 4.0]
        if roomy:
            yield Word(step, text, roomy[0].x + width / 2.0 + 2.0, width)
        elif tight:
            widest = max(tight, key=lambda box: box.width)
            yield Word(step, text, widest.x + widest.width / 2.0, widest.width - 2.0)


def _under(
    texts: Texts, places: Sequence[float], ranked: Sequence[int], line: tuple[float, float]
) -> tuple[tuple[Word, ...], tuple[Word, ...]]:
    """Lifts, and under each the bite before it; where there is little room, some bites go."""
    lift_widths = [texts.lift_width(text) for text in texts.lifts]
    bite_widths = [texts.bite_width(text) for text in texts.bites]
    both = [max(pair) for pair in zip(lift_widths, bite_widths, strict=True)]
    stood = _words(texts.lifts, places, both, ranked, line)
    if len(stood) < len(places):
        stood = _words(texts.lifts, places, lift_widths, ranked, line)
    at = {word.step: word.x for word in stood}
    lifts = tuple(replace(word, width=lift_widths[word.step - 1]) for word in stood)
    bites: list[Word] = []
    for step in dict.fromkeys(s for s in ranked if s in at):
        half = bite_widths[step - 1] / 2.0
        x = min(max(at[step], line[0] - OVER + half), line[1] + SIDE_WORDS - half)
        word = Word(step, texts.bites[step - 1], x, 2.0 * half)
        if all(
            word.left >= other.right + BETWEEN or word.right + BETWEEN <= other.left
            for other in bites
        ):
            bites.append(word)
    return lifts, tuple(sorted(bites, key=lambda word: word.step))


def _words(
    texts: Sequence[str],
    places: Sequence[float],
    widths: Sequence[float],
    ranked: Sequence[int],
    line: tuple[float, float],
) -> tuple[Word, ...]:
    """As many words as stand near enough to their places, the first of ``ranked`` before others."""
    kept: tuple[Word, ...] = ()
    for step in dict.fromkeys(ranked):
        steps = sorted({step, *(word.step for word in kept)})
        words = [Word(s, texts[s - 1], places[s - 1], widths[s - 1]) for s in steps]
        pushed = _pushed(words, line)
        near = all(abs(p.x - w.x) <= FARTHEST for p, w in zip(pushed, words, strict=True))
        apart = all(a.right + BETWEEN <= b.left + 0.01 for a, b in pairwise(pushed))
        if not kept or (near and apart):
            kept = pushed
    return kept


def _pushed(words: Sequence[Word], line: tuple[float, float]) -> tuple[Word, ...]:
    """The words pushed apart within the line, which may run over its ends a little."""
    gaps = [(a.width + b.width) / 2.0 + BETWEEN for a, b in pairwise(words)]
    low = line[0] - OVER + words[0].width / 2.0
    high = max(line[1] + SIDE_WORDS - words[-1].width / 2.0, low)
    places = pushed_apart([word.x for word in words], gaps, low, high)
    return tuple(
        Word(word.step, word.text, x, word.width) for word, x in zip(words, places, strict=True)
    )
