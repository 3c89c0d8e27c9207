"""Every state of the program that is worth looking at, brought about by what people do."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial

from pictures.book_states import BOOK_STATES
from pictures.studio import Studio
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu, QPushButton

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Metal, Mordant, Standing
from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.quantities import Manner, write_tone
from toneladder.strip.values import MarginStrip
from toneladder.tank.values import Stage
from toneladder.tones.values import ToneChoice
from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench, KnownCurve
from toneladder_desktop.bench.look import View
from toneladder_desktop.ladder.content import Peg, Side

State = Callable[[Studio], object]


def _with_tones(studio: Studio, *, doubt: float = 0.0, **new: object) -> None:
    """The sample with other tones, and with times from a strip."""
    studio.sample()
    if doubt:
        _read_a_strip(studio.window.bench, doubt)
    bench = studio.window.bench
    if bench.plate is not None:
        tones: ToneChoice = replace(bench.plate.tones, **new)  # type: ignore[arg-type] # its fields
        bench.change("", replace(bench.plate, tones=tones))
    studio.drawn()


def _read_a_strip(bench: Bench, doubt: float = 1.0) -> None:
    """Lay the same plate again, as if a strip of its bath had been read, in doubt by some L*."""
    lying = bench.lying
    if lying is None:
        return
    conditions = lying.plate.conditions
    start = starting_curve(conditions)
    curve = replace(
        start,
        standing=Standing.STRIP,
        low=tuple(level - doubt for level in start.lightness),
        high=tuple(level + doubt for level in start.lightness),
    )
    bench.lay(replace(lying, known=KnownCurve(conditions, curve)))


def _moving(studio: Studio, side: Side, step: int, way: int) -> None:
    """A hand moves a peg and does not let go."""
    studio.sample()
    ladder = studio.window.top.ladder
    layout = ladder._layout  # noqa: SLF001 - where a hand would take hold
    if layout is None:
        return
    body = layout.place(Peg(side, step)).body
    start = QPoint(round(body.x + body.width / 2), round(body.middle))
    QTest.mousePress(ladder, Qt.MouseButton.LeftButton, pos=start)
    for pixels in range(0, way, 4 if way > 0 else -4):
        QTest.mouseMove(ladder, start + QPoint(0, pixels))
        QApplication.processEvents()
    studio.drawn()


def _laying(studio: Studio, *, straightening: bool = False) -> None:
    studio.sample()
    window = studio.window
    window.laying.open()
    studio.rest()
    view = window.laying._view  # noqa: SLF001 - where a hand would be
    if view is None:
        return
    for key in (Qt.Key.Key_Plus,) * 30 + (Qt.Key.Key_Right,) * 12 + (Qt.Key.Key_PageDown,) * 25:
        QTest.keyClick(view.board, key)
    if straightening:
        view.straight.click()
        QTest.mouseClick(view.board, Qt.MouseButton.LeftButton, pos=QPoint(300, 300))
        QTest.mouseMove(view.board, QPoint(600, 320))
    studio.rest()


_READ = ("92", "84,5", "76", "66", "52", "37", "25", "20")


def _strip(studio: Studio, *, readings: tuple[str, ...] = _READ, taken: bool = False) -> None:
    """A strip with readings typed into its table."""
    studio.sample()
    window = studio.window
    window.strips.open()
    studio.wait(lambda: window.pages.currentIndex() != 0)
    view = window.strips._view  # noqa: SLF001 - where somebody would type
    if view is None:
        return
    view.table.pasted.emit("\n".join(readings), 0, 1)
    studio.rest()
    QTest.qWait(1500)
    view.curve.pick(3)
    if taken:
        view.take.click()
        studio.drawn()


def _strip_outdated(studio: Studio) -> None:
    """A strip that was read well, and a row of it that is mistyped since."""
    _strip(studio)
    view = studio.window.strips._view  # noqa: SLF001 - where somebody would type
    if view is not None:
        view.table.typed.emit(4, 1, "5 2")
    studio.rest()


def _in_inches(studio: Studio) -> None:
    """The sample for somebody who prefers inches, its plate looked at."""
    studio.window.preferences.change(manner=Manner(imperial=True))
    _decision(studio, "plate")


def _noted(studio: Studio) -> None:
    """Two notes on the sample: one clicked, one drawn round."""
    studio.sample()
    top = studio.window.top
    top.card.open(top.notes)
    top.notes.buttons["darker"].click()
    size = top.paper.size()
    QTest.mouseClick(
        top.paper,
        Qt.MouseButton.LeftButton,
        pos=QPoint(round(size.width() * 0.55), round(size.height() * 0.42)),
    )
    studio.drawn()
    top.notes.buttons["paper"].click()
    around = [(0.3, 0.3), (0.4, 0.28), (0.42, 0.36), (0.33, 0.4), (0.29, 0.33)]
    points = [QPoint(round(size.width() * x), round(size.height() * y)) for x, y in around]
    QTest.mousePress(top.paper, Qt.MouseButton.LeftButton, pos=points[0])
    for point in points[1:]:
        QTest.mouseMove(top.paper, point)
    QTest.mouseRelease(top.paper, Qt.MouseButton.LeftButton, pos=points[-1])
    studio.drawn()


def _tank(studio: Studio, presses: int, *, later_s: float = 0.0) -> None:
    """The tank's window after so many presses, on a clock of our own."""
    from toneladder.tank.values import Moment

    studio.sample()
    window = studio.window
    window.tank.open()
    for button in window.top.notice.findChildren(QPushButton):
        if button.text() == say("Go on untested"):
            button.click()
            break
    tank = window.tank._tank  # noqa: SLF001 - the window it opened
    if tank is None:
        return
    clock = [Moment(1000.0, 1_790_000_000.0, "boot")]
    tank._clock = lambda: clock[0]  # noqa: SLF001 - a clock of our own
    studio.wait(lambda: bool(tank._session))  # noqa: SLF001 - the book is open
    tank.resize(studio.window.size())

    def press() -> None:
        clock[0] = clock[0].later(2.0)
        tank.tick()
        QTest.keyClick(tank, Qt.Key.Key_Space)
        studio.wait(lambda: not tank._waiting)  # noqa: SLF001 - it is noted

    for _ in range(presses):
        press()
    end = clock[0].boottime_s + later_s
    while clock[0].boottime_s < end:
        clock[0] = clock[0].later(0.5)
        tank.tick()
    QTest.qWait(300)


def _to_the_tank(studio: Studio, *, bitten: bool = False) -> None:
    """A plate without a strip is asked about, and one that was bitten before."""
    studio.sample()
    desk, bench = studio.window.tank, studio.window.bench
    if bitten and bench.plate is not None:
        desk._stay_over(bench.plate, Stage.TONES, 1_790_000_000.0)  # noqa: SLF001 - as the book
    studio.window.tank.open()
    studio.rest()


def _proof(studio: Studio) -> None:
    """The proof's page before a scan is opened."""
    studio.sample()
    studio.window.proofs.open()
    studio.rest()


def _stopped(studio: Studio, step: int) -> None:
    studio.sample()
    studio.window.top.day.step_chosen.emit(step)
    studio.drawn()


def _decision(studio: Studio, name: str) -> None:
    studio.sample()
    top = studio.window.top
    top.card.open(getattr(top, name))
    studio.rest()


def _lines_first(studio: Studio) -> None:
    """Lines bitten first, in two depths."""
    studio.sample()
    bench = studio.window.bench
    if bench.plate is not None:
        bench.change("", replace(bench.plate, lines=Lines(depths=2)))
    studio.drawn()
    studio.window.top.card.open(studio.window.top.lines)
    studio.rest()


def _second_grain(studio: Studio) -> None:
    studio.sample()
    bench = studio.window.bench
    if bench.plate is not None:
        bench.change("", replace(bench.plate, second_grain=SecondGrain(2)))
    studio.drawn()
    studio.window.top.card.open(studio.window.top.second_grain)
    studio.rest()


def _soft(studio: Studio) -> None:
    """A soft passage picked out of the list."""
    studio.sample()
    soft = studio.window.top.soft
    studio.wait(lambda: soft.passages is not None)
    studio.window.top.card.open(soft)
    soft.list.setCurrentRow(1)
    studio.rest()


def _margin(studio: Studio) -> None:
    studio.sample()
    bench = studio.window.bench
    if bench.plate is not None:
        bench.change("", replace(bench.plate, margin_strip=MarginStrip()))
    studio.drawn()
    studio.window.top.card.open(studio.window.top.plate)
    studio.rest()


def _from_the_strip(studio: Studio) -> None:
    """Tones copied from the patches of a strip."""
    _strip(studio, taken=True)
    studio.rest()
    tones = studio.window.top.tones
    studio.window.top.card.open(tones)
    tones.copy.click()
    studio.drawn()


def _refused(studio: Studio) -> None:
    """Zinc, and then the bath that it must never meet."""
    studio.sample()
    top = studio.window.top
    top.plate.metal.list.activated.emit(list(Metal).index(Metal.ZINC))
    studio.drawn()
    top.card.open(top.bath)
    top.bath.mordant.list.activated.emit(list(Mordant).index(Mordant.FERRIC_CHLORIDE))
    studio.rest()


def _mirrored(studio: Studio) -> None:
    studio.sample()
    studio.window.look.show_mirrored(mirrored=True)
    studio.drawn()


def _view(studio: Studio, view: View) -> None:
    studio.sample()
    studio.window.look.show_view(view)
    studio.rest(0.6)


def _loupe(studio: Studio) -> None:
    studio.sample()
    studio.window.look.show_loupe(2.0)
    studio.rest(3.0)


def _true_size(studio: Studio) -> None:
    studio.sample()
    studio.window.showing.true_size()
    studio.drawn()


def _named(studio: Studio, title: str) -> None:
    studio.sample()
    studio.window.top.header.renamed.emit(title)
    studio.rest()


def _not_a_picture(studio: Studio) -> None:
    studio.sample()
    studio.window.open(studio.material / "not-a-picture.png")
    studio.wait(studio.window.top.notice.isVisible)
    studio.rest()


def _loading(studio: Studio) -> None:
    studio.window.open(studio.material / "huge.png")
    studio.wait(studio.window.top.slowness.isVisible)


def _question(studio: Studio) -> None:
    studio.open("portrait.png")
    studio.window.add_tones(1)
    studio.drawn()
    studio.window.close()
    studio.rest()


def _another_picture(studio: Studio) -> None:
    studio.open("portrait.png")
    studio.window.open(studio.material / "panorama.png")
    studio.wait(studio.window.top.notice.isVisible)
    studio.rest()


def _how_many(studio: Studio) -> None:
    studio.sample()
    studio.window.how_many.open()
    studio.rest()
    sheet = studio.window.pages.currentWidget()
    content = lambda: sheet._content  # noqa: SLF001, E731 # what it waits for
    studio.wait(lambda: content() and content().enough is not None and not content().missing)
    studio.rest()


def _sheets(studio: Studio, *, waiting: bool = False) -> None:
    studio.sample()
    studio.window.sheets.open()
    sheets = studio.window.sheets._sheets  # noqa: SLF001 - the window it opened
    if waiting:
        return
    studio.wait(lambda: sheets is not None and sheets.sheets)
    studio.rest()


def _first_notes(studio: Studio) -> None:
    """The sample with the notes of the first minutes."""
    studio.window.preferences.change(notes_done=())
    studio.sample()


def _handbook(studio: Studio, chapter: str, sought: str = "") -> None:
    """The handbook, at a chapter or with a word looked up."""
    studio.sample()
    studio.window.handbook.open(chapter)
    book = studio.window.handbook.book
    if book is not None:
        book.sought.setText(sought)
    studio.rest()


def _chosen(studio: Studio, path: tuple[str, ...]) -> None:
    """A line of the menus, chosen."""
    studio.sample()
    _line(studio, *path).trigger()
    studio.rest(0.6)


def _open_menu(studio: Studio, name: str) -> None:
    studio.sample()
    menu = _line(studio, name).menu()
    if isinstance(menu, QMenu):
        menu.popup(studio.window.mapToGlobal(QPoint(40, 30)))
    studio.rest()


def _line(studio: Studio, *path: str) -> QAction:
    actions = studio.window.menuBar().actions()
    for name in path[:-1]:
        menu = next(a for a in actions if a.text() == say(name)).menu()
        actions = menu.actions() if isinstance(menu, QMenu) else []
    return next(a for a in actions if a.text() == say(path[-1]))


def _for_the_readme(studio: Studio) -> None:
    """The sample with one parting held, nothing picked out."""
    studio.sample()
    bench = studio.window.bench
    if bench.plate is not None:
        tones = replace(bench.plate.tones, held_partings=(57.5,))
        sentence = say("Part tones 2 and 3 at darkness {darkness}", darkness=write_tone(57.5))
        bench.change(sentence, replace(bench.plate, tones=tones))
    studio.window.top.paper.setFocus()
    studio.drawn()


def _peg_by_keys(studio: Studio) -> None:
    studio.sample()
    studio.window.top.ladder._choose(Peg(Side.BITE, 3))  # noqa: SLF001 - as a key does
    studio.rest()


_LONG = "The harbour wall at low water, seen from the upper window of the old ropery, iii"
_FILE = "a-photograph-with-a-very-long-file-name-as-cameras-and-people-write-them-2026.png"

STATES: dict[str, State] = {
    "rest": Studio.sample,
    "2-tones": partial(_with_tones, count=2),
    "3-tones": partial(_with_tones, count=3),
    "12-tones": partial(_with_tones, count=12),
    "strip": partial(_with_tones, doubt=1.0, count=6),
    "strip-12-tones": partial(_with_tones, doubt=1.0, count=12, gap_lightness=2.0),
    "too-close": partial(_with_tones, doubt=8.5, count=8, gap_lightness=2.0),
    "too-close-12-tones": partial(_with_tones, doubt=5.6, count=12, gap_lightness=2.0),
    "crossing": partial(
        _with_tones, doubt=1.0, held_partings=(70.0, 45.0), held_bites=((4, 240.0),)
    ),
    "past-the-tested": partial(_with_tones, held_bites=((5, 2400.0),)),
    "held-pegs": partial(_with_tones, held_partings=(70.0, 45.0), held_bites=((4, 240.0),)),
    "moving-a-parting": partial(_moving, side=Side.PARTING, step=3, way=30),
    "moving-a-bite": partial(_moving, side=Side.BITE, step=3, way=-40),
    "a-bite-by-keys": _peg_by_keys,
    "empty": lambda studio: studio.rest(),
    "loading": _loading,
    "error": _not_a_picture,
    "question": _question,
    "another-picture": _another_picture,
    "refused-pair": _refused,
    **{
        f"decision-{name}": partial(_decision, name=name)
        for name in (
            "picture",
            "greys",
            "plate",
            "bath",
            "strip",
            "lines",
            "tones",
            "notes",
            "soft",
            "steps",
            "second_grain",
            "pace",
            "printing",
        )
    },
    "lines-first": _lines_first,
    "second-grain": _second_grain,
    "soft-passages": _soft,
    "margin-strip": _margin,
    "from-the-strip": _from_the_strip,
    "strip-page": _strip,
    "strip-page-empty": partial(_strip, readings=()),
    "strip-page-faults": partial(_strip, readings=("92", "84", "seven", "66", "72", "101")),
    "strip-page-outdated": _strip_outdated,
    "in-inches": _in_inches,
    "strip-taken": partial(_strip, taken=True),
    "notes": _noted,
    "tank-asked": _to_the_tank,
    "tank-again": partial(_to_the_tank, bitten=True),
    "tank-ready": partial(_tank, presses=3),
    "tank-biting": partial(_tank, presses=4, later_s=16.0),
    "tank-lift": partial(_tank, presses=4, later_s=55.0),
    "proof-page": _proof,
    **BOOK_STATES,
    "laying": _laying,
    "laying-straight": partial(_laying, straightening=True),
    **{f"step-{step}": partial(_stopped, step=step) for step in range(1, 6)},
    "mirrored": _mirrored,
    "flat-tones": partial(_view, view=View.TONES),
    "hatched": partial(_view, view=View.HATCHED),
    "loupe": _loupe,
    "picture": partial(_view, view=View.PICTURE),
    "true-size": _true_size,
    "long-title": partial(_named, title=_LONG),
    "long-file-name": partial(Studio.open, name=_FILE),
    "portrait": partial(Studio.open, name="portrait.png"),
    "panorama": partial(Studio.open, name="panorama.png"),
    "white": partial(Studio.open, name="white.png"),
    "how-many": _how_many,
    "sheets": _sheets,
    "sheets-drawn": partial(_sheets, waiting=True),
    "preferences": partial(_chosen, path=("&Edit", "Pre&ferences …")),
    "first-notes": _first_notes,
    "handbook": partial(_handbook, chapter="test-strips"),
    "handbook-search": partial(_handbook, chapter="the-job", sought="foul bite"),
    "handbook-nothing": partial(_handbook, chapter="the-job", sought="lithopone"),
    "keys": partial(_chosen, path=("&Help", "&Keys")),
    "sources": partial(_chosen, path=("&Help", "&Where the numbers come from")),
    "about": partial(_chosen, path=("&Help", "&About")),
    "cautions": partial(_chosen, path=("&Bath", "&Cautions and warnings")),
    "ladder-as-a-table": partial(_chosen, path=("&Look", "Ladder as a ta&ble")),
    "readme": _for_the_readme,
    **{
        f"menu-{name.lower()}": partial(_open_menu, name=f"&{name}")
        for name in ("File", "Edit", "Look", "Plate", "Bath", "Help")
    },
}
