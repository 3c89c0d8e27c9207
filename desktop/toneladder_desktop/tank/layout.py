"""Where everything on the tank's face stands, as shares of its height: pure geometry.

Sizes are those at which capitals can be read from two metres on a laptop's screen.
"""

from dataclasses import dataclass

from toneladder.boxes import Box
from toneladder.lettering import Face, text_width
from toneladder.tank.values import Figure
from toneladder.wording import say

SHORT_PX = 768.0
"""Height of the smallest screen that the face is made for."""

SENTENCE, OTHER, FIGURE, UNIT = 72.0, 65.0, 390.0, 104.0
"""Ems in pixels on that screen: capitals of 10.5, 9.5, 57 and 15 mm at 0.227 mm a pixel."""

_PAD = 30.0
_LINE = 1.12
_BAR = 106.0
_STRIP = 34.0
_GAP = 14.0
_MAIN_SHARE = 0.565
_INSET = 0.5  # ems of a bar beside its words


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of the figure: digits, or a unit beside them."""

    text: str
    size: float


@dataclass(frozen=True, slots=True)
class Layout:
    """The face, placed. ``side`` is the right half where a map is shown, if one is."""

    unit: float
    sentence: tuple[str, ...]
    sentence_size: float
    sentence_at: tuple[float, float]
    figure: tuple[Piece, ...]
    figure_at: tuple[float, float]
    strip: Box
    then: tuple[str, ...]
    then_size: float
    then_at: tuple[float, float]
    beside: Box
    main: Box
    second: Box
    side: Box

    @property
    def other(self) -> float:
        """Em of everything but sentence and figure, pixels."""
        return OTHER * self.unit


def lay_out(
    width: float,
    height: float,
    sentence: str,
    figure: tuple[Piece, ...],
    then: str,
    *,
    acts: tuple[str, str],
    with_map: bool,
) -> Layout:
    """Place the face in ``width`` by ``height`` pixels.

    ``acts`` are the words on the main bar and on the second one; empty if there is none.
    """
    unit = min(height / SHORT_PX, width / 1100.0)
    pad = _PAD * unit
    inner = width - 2.0 * pad
    text_width_px = inner * 0.5 if with_map else inner
    size = SENTENCE * unit
    lines = wrapped(sentence, Face.SANS_BOLD, size, inner)
    if len(lines) > 2:
        size = 64.0 * unit
        lines = wrapped(sentence, Face.SANS_BOLD, size, inner)
    bar = Box(pad, height - pad - _BAR * unit, inner, _BAR * unit)
    two = _main_share(acts, OTHER * unit, inner - _GAP * unit) if acts[1] else inner
    main = Box(pad, bar.y, two, bar.height)
    other = Box(pad + two + _GAP * unit, bar.y, inner - two - _GAP * unit, bar.height)
    then_size, then_lines = _told(then, OTHER * unit, text_width_px, 3 if with_map else 2)
    then_high = len(then_lines) * then_size * _LINE
    then_top = bar.y - then_high - _GAP * unit
    strip_high = _GAP if with_map else _STRIP + _GAP  # nothing runs while varnish is painted
    strip = Box(pad, then_top - strip_high * unit, inner, _STRIP * unit)
    head = pad + len(lines) * size * _LINE
    room = max(strip.y - head - _GAP * unit, 10.0)
    scaled = _fitted(figure, unit, text_width_px * (1.0 if with_map else 0.72), room)
    return Layout(
        unit=unit,
        sentence=lines,
        sentence_size=size,
        sentence_at=(pad, pad + size * 0.86),
        figure=scaled,
        figure_at=(pad, strip.y - _GAP * unit),
        strip=strip,
        then=then_lines,
        then_size=then_size,
        then_at=(pad, then_top + then_size * 0.86),
        beside=Box(pad + inner * 0.72, head, inner * 0.28, room),
        main=main,
        second=other if acts[1] else Box(0.0, 0.0, 0.0, 0.0),
        side=Box(
            pad + inner * 0.54,
            head + _GAP * unit,
            inner * 0.46,
            bar.y - head - 3.0 * _GAP * unit,
        ),
    )


def figure_of(figure: Figure, *, rough: bool = False) -> tuple[Piece, ...]:
    """Hours, minutes and seconds with small units, rounded as a clock that counts that way.

    One that is still is rounded as sentences are. A ``rough`` figure is in whole minutes, the
    nearest, as the words beside it are; of nothing that is left its words alone stand there.
    """
    words, whole = figure.words, _whole(figure)
    if rough and not whole:
        return (Piece(words, UNIT),)
    if rough and whole >= 60:
        unit = say("min {words}", words=words) if words else say("min")
        return Piece(str((whole + 30) // 60), FIGURE), Piece(unit, UNIT)
    hours, rest = divmod(whole, 3600)
    minutes, secs = divmod(rest, 60)
    pieces: list[Piece] = []
    if hours:
        pieces += (Piece(str(hours), FIGURE), Piece(say("h"), UNIT))
    if hours or minutes:
        digits = f"{minutes:02d}" if hours else str(minutes)
        pieces += (Piece(digits, FIGURE), Piece(say("min"), UNIT))
    digits = f"{secs:02d}" if pieces else str(secs)
    unit = say("s {words}", words=words) if words else say("s")
    if whole < 3600 or secs:
        pieces += (Piece(digits, FIGURE), Piece(unit, UNIT))
    return tuple(pieces)


def _whole(figure: Figure) -> int:
    if figure.still:
        return max(round(figure.seconds), 0)
    return max(int(figure.seconds) if figure.up else -int(-figure.seconds // 1), 0)


def wrapped(text: str, face: Face, size: float, room: float) -> tuple[str, ...]:
    """Words in lines no wider than ``room``; a word that is wider alone stands alone.

    A number and its unit, with no space between them that breaks, are one word.
    """
    lines: list[str] = []
    for word in filter(None, text.split(" ")):
        tried = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(tried, face, size) <= room:
            lines[-1] = tried
        else:
            lines.append(word)
    return tuple(lines)


def _main_share(acts: tuple[str, str], size: float, room: float) -> float:
    """How wide the main bar is: never the narrower one, but for words that need the room."""
    first, second = (text_width(words, Face.SANS_BOLD, size) + _INSET * size for words in acts)
    if first + second > room:
        return room * first / (first + second)
    return max(first, room / 2.0, min(room * _MAIN_SHARE, room - second))


def _told(text: str, size: float, room: float, most: int) -> tuple[float, tuple[str, ...]]:
    """Words in at most so many lines, in the largest letters that allow it."""
    while len(lines := wrapped(text, Face.SANS, size, room)) > most:
        size *= 0.95
    return size, lines


def width_of(figure: tuple[Piece, ...]) -> float:
    """How wide a figure runs, with its gaps."""
    return sum(advance_of(piece) for piece in figure)


def advance_of(piece: Piece) -> float:
    """Width of a piece and of the gap after it: small before a unit, wide after one."""
    gap = 0.05 if piece.text.isdigit() else 0.45
    return text_width(piece.text, Face.SANS_BOLD, piece.size) + piece.size * gap


def _fitted(
    figure: tuple[Piece, ...], unit: float, width: float, height: float
) -> tuple[Piece, ...]:
    """The figure as large as it may be and there is room for."""
    if not figure:
        return ()
    wanted = tuple(Piece(piece.text, piece.size * unit) for piece in figure)
    share = min(1.0, width / width_of(wanted), height / (0.72 * FIGURE * unit))
    return tuple(Piece(piece.text, piece.size * share) for piece in wanted)
