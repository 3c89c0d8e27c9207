"""The tank's face: one sentence, one figure, one act; drawn large, black and white alone."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPen, QPolygonF

from toneladder.boxes import Box
from toneladder.lettering import Face
from toneladder.quantities import write_temperature
from toneladder.tank.values import Offer, Standing, State
from toneladder.wording import say
from toneladder_desktop.drawing.style import letters
from toneladder_desktop.tank.layout import Layout, Piece, advance_of, figure_of, lay_out

LIFTING = (State.LIFT,)
URGENT = (State.LAST_TEN, State.LIFT)
TURNS_PER_S = 2.0
"""How often ground and ink change places at the lift: one flash a second, and under three a
second are harmless [WCAG22]."""

_TICK_S = 5.0
_LONG_TICKS_S = 60.0


@dataclass(frozen=True, slots=True)
class Shades:
    """Ink and ground, and a second ink for what is less."""

    ink: str
    ground: str
    second: str

    @property
    def turned(self) -> "Shades":
        """Ink and ground in each other's place."""
        return Shades(self.ground, self.ink, self.ground)


BY_DAY = Shades("#141619", "#F8F7F3", "#3A3E43")
BY_NIGHT = Shades("#F6F3EA", "#121416", "#CFCCC4")


@dataclass(frozen=True, slots=True)
class Look:
    """What is drawn: where the plate stands, words in its place, a map, the time of the lift."""

    standing: Standing
    then: str
    beside: tuple[str, ...] = ()
    plan: QImage | None = None
    turned: bool = False


def turned(state: State, boottime_s: float, *, steady: bool = False) -> bool:
    """Whether ground and ink have changed places: at the lift, back and forth if not ``steady``."""
    return state in LIFTING and (steady or int(TURNS_PER_S * boottime_s) % 2 == 0)


def look_of(
    standing: Standing,
    then: str,
    maps: Mapping[int, QImage],
    zone: tzinfo,
    *,
    steady: bool = False,
) -> Look:
    """What is drawn of a standing; ``maps`` are what is painted at each step, by its number."""
    beside: tuple[str, ...] = ()
    steps = () if standing.order is None else standing.order.steps
    coming = next((s.step for s in steps if s.step > standing.step), 0)
    plan = maps.get(coming) if standing.state is State.STOP_OUT else None
    if standing.in_bath and standing.zero is not None and standing.state not in LIFTING:
        at = datetime.fromtimestamp(standing.zero.utc_s, UTC).astimezone(zone)
        beside = (say("lift at"), f"{at:%H:%M}")
    elif standing.state is State.READY:
        beside = (say("bath"), write_temperature(standing.bath_c))
    swapped = turned(standing.state, standing.now.boottime_s, steady=steady)
    return Look(standing, then, beside, plan, swapped)


def place(look: Look, width: float, height: float) -> Layout:
    """Where everything stands."""
    standing = look.standing
    figure: tuple[Piece, ...] = ()
    if standing.figure is not None:
        rough = standing.state in {State.STOP_OUT, State.DRYING}
        figure = figure_of(standing.figure, rough=rough)
    return lay_out(
        width,
        height,
        standing.sentence,
        figure,
        look.then,
        acts=(_words_on(standing.main), _words_on(standing.second)),
        with_map=look.plan is not None,
    )


def _words_on(offer: Offer | None) -> str:
    return "" if offer is None else offer.label


def draw(painter: QPainter, look: Look, layout: Layout, shades: Shades, width: float) -> None:
    """The whole face."""
    if look.turned:
        shades = shades.turned
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    frame = QRectF(0.0, 0.0, width, layout.main.bottom + 30.0 * layout.unit)
    painter.fillRect(frame, QColor(shades.ground))
    if look.standing.state in URGENT:
        painter.setPen(QPen(QColor(shades.ink), 16.0 * layout.unit))
        painter.drawRect(frame)
    _lines(painter, layout.sentence, layout.sentence_at, layout.sentence_size, shades.ink, bold=1)
    _figure(painter, layout, shades)
    if look.standing.length_s > 0.0 and look.standing.in_bath:
        _strip(painter, look.standing, layout, shades)
    if look.plan is not None:
        _map(painter, look.plan, layout.side, shades)
    _lines(painter, layout.then, layout.then_at, layout.then_size, shades.second, bold=0)
    _beside(painter, look.beside, layout, shades)
    if look.standing.main is not None:
        _bar(painter, look.standing.main.label, layout.main, layout, shades, main=True)
    if look.standing.second is not None:
        _bar(painter, look.standing.second.label, layout.second, layout, shades, main=False)


def _lines(
    painter: QPainter,
    lines: tuple[str, ...],
    at: tuple[float, float],
    size: float,
    colour: str,
    *,
    bold: int,
) -> None:
    painter.setFont(letters(Face.SANS_BOLD if bold else Face.SANS, round(size)))
    painter.setPen(QColor(colour))
    x, y = at
    for line in lines:
        painter.drawText(QPointF(x, y), line)
        y += size * 1.12


def _figure(painter: QPainter, layout: Layout, shades: Shades) -> None:
    x, y = layout.figure_at
    for piece in layout.figure:
        painter.setFont(letters(Face.SANS_BOLD, round(piece.size)))
        painter.setPen(QColor(shades.ink))
        painter.drawText(QPointF(x, y), piece.text)
        x += advance_of(piece)


def _strip(painter: QPainter, standing: Standing, layout: Layout, shades: Shades) -> None:
    """A ruled strip that empties: a tick every five seconds, or every minute of a long bite."""
    box, length = layout.strip, standing.length_s
    ink = QColor(shades.ink)
    left_share = min(max((length - standing.bitten_s) / length, 0.0), 1.0)
    bar = QRectF(box.x, box.y + box.height * 0.55, box.width, box.height * 0.45)
    painter.setPen(QPen(ink, 2.0 * layout.unit))
    painter.drawRect(bar)
    painter.fillRect(QRectF(bar.x(), bar.y(), bar.width() * left_share, bar.height()), ink)
    every = _TICK_S if length <= 300.0 else _LONG_TICKS_S
    for k in range(int(length / every) + 1):
        x = box.x + box.width * k * every / length
        tall = 0.5 if k % (6 if every == _TICK_S else 5) == 0 else 0.28
        painter.drawLine(QPointF(x, bar.y()), QPointF(x, bar.y() - box.height * tall))
    at = bar.x() + bar.width() * left_share
    wide = 9.0 * layout.unit
    painter.setBrush(ink)
    painter.drawPolygon(
        QPolygonF(
            [
                QPointF(at - wide, bar.y() - 1.5 * wide),
                QPointF(at + wide, bar.y() - 1.5 * wide),
                QPointF(at, bar.y()),
            ]
        )
    )
    painter.setBrush(Qt.BrushStyle.NoBrush)


def _map(painter: QPainter, plan: QImage, side: Box, shades: Shades) -> None:
    share = min(side.width / plan.width(), side.height / plan.height())
    width, height = plan.width() * share, plan.height() * share
    box = QRectF(side.x + side.width - width, side.y, width, height)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(box, plan)
    painter.setPen(QPen(QColor(shades.ink), 2.0))
    painter.drawRect(box)


def _beside(painter: QPainter, words: tuple[str, ...], layout: Layout, shades: Shades) -> None:
    """A few words at the right of the figure, the last of them strong."""
    y = layout.figure_at[1] - layout.other * 1.12 * (len(words) - 1)
    for number, line in enumerate(words):
        last = number == len(words) - 1
        painter.setFont(letters(Face.SANS_BOLD if last else Face.SANS, round(layout.other)))
        painter.setPen(QColor(shades.ink if last else shades.second))
        room = QRectF(layout.beside.x, y - layout.other, layout.beside.width, layout.other * 1.2)
        painter.drawText(room, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, line)
        y += layout.other * 1.12


def _bar(
    painter: QPainter, label: str, box: Box, layout: Layout, shades: Shades, *, main: bool
) -> None:
    area = QRectF(box.x, box.y, box.width, box.height)
    painter.setPen(QPen(QColor(shades.ink), 4.0 * layout.unit))
    painter.setBrush(QColor(shades.ink if main else shades.ground))
    painter.drawRoundedRect(area, 4.0 * layout.unit, 4.0 * layout.unit)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    font = letters(Face.SANS_BOLD, round(layout.other))
    painter.setFont(font)
    wide = painter.fontMetrics().horizontalAdvance(label)
    if wide > box.width - 30.0 * layout.unit:
        share = (box.width - 30.0 * layout.unit) / wide
        painter.setFont(letters(Face.SANS_BOLD, round(layout.other * share)))
    painter.setPen(QColor(shades.ground if main else shades.ink))
    painter.drawText(area, Qt.AlignmentFlag.AlignCenter, label)
