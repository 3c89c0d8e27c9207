"""What stands in each menu of the bench."""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtGui import QActionGroup, QKeySequence
from PySide6.QtWidgets import QApplication, QMenu

from toneladder.tones.values import Choice
from toneladder.wording import say
from toneladder_desktop.bench.glimpse import is_file
from toneladder_desktop.drawing.style import Scheme
from toneladder_desktop.window import help_pages
from toneladder_desktop.window.menus import Menus
from toneladder_desktop.window.preferences_page import PreferencesPage

if TYPE_CHECKING:
    from toneladder_desktop.window.bench_window import BenchWindow

_Key = QKeySequence.StandardKey


def fill_menus(window: "BenchWindow") -> Menus:
    """All menus of ``window``, in its menu bar."""
    menus = Menus(window)
    _file(window, menus)
    _edit(window, menus)
    _look(window, menus)
    _plate(window, menus)
    _bath(window, menus)
    _help(window, menus)
    return menus


def caption_menus(window: "BenchWindow") -> list[tuple[str, QMenu]]:
    """The menus under the parts of the caption: the same choices as in the Look menu."""
    views, stops, sides, scales = (QMenu(window) for _ in range(4))
    for action in window.look.views.actions():
        views.addAction(action)
    stops.aboutToShow.connect(partial(_refill, stops, window.look.stops))
    _refill(stops, window.look.stops)
    for action in window.look.sides.actions():
        sides.addAction(action)
    for text, act in (
        (say("Fit the plate"), window.top.paper.fit),
        (say("The whole print"), window.top.paper.fit_sheet),
        (say("True size"), window.showing.true_size),
    ):
        scales.addAction(text).triggered.connect(act)
    scales.addSeparator()
    scales.addAction(window.look.loupe)
    scales.addActions(window.look.widths.actions())
    return [
        (say("Shown"), views),
        (say("Stopped"), stops),
        (say("Side"), sides),
        (say("Scale"), scales),
    ]


def _file(window: "BenchWindow", menus: Menus) -> None:
    filing = window.filing
    menu = menus.menu(say("&File"))
    menus.add(menu, say("&Open …"), filing.ask, _Key.Open, needs_plate=False)
    recent = menu.addMenu(say("Open &recent"))
    recent.aboutToShow.connect(partial(_fill_recent, window, recent))
    menus.add(
        menu,
        say("Sa&mple plate"),
        partial(window.filing.unless_unsaved, window.filing.open_sample),
        needs_plate=False,
    )
    menu.addSeparator()
    menus.add(menu, say("&Save"), filing.save, _Key.Save)
    menus.add(menu, say("Save &as …"), filing.save_as, "Ctrl+Shift+S")
    menu.addSeparator()
    menus.add(menu, say("Studio &book"), window.book.open, "Ctrl+Shift+B", needs_plate=False)
    menu.addSeparator()
    menus.add(menu, say("Sheets to &print …"), window.sheets.open, _Key.Print)
    menu.addSeparator()
    menus.add(menu, say("&Close the window"), window.close, "Ctrl+W", needs_plate=False)
    menus.add(menu, say("&Quit"), QApplication.closeAllWindows, "Ctrl+Q", needs_plate=False)


def _edit(window: "BenchWindow", menus: Menus) -> None:
    menu = menus.menu(say("&Edit"))
    menu.addAction(menus.undo)
    menu.addAction(menus.redo)
    menus.undo.triggered.connect(window.bench.undo.undo)
    menus.redo.triggered.connect(window.bench.undo.redo)
    menu.addSeparator()
    menus.add(menu, say("&Paste a picture"), window.paste, _Key.Paste, needs_plate=False)
    menu.addSeparator()

    def prefer() -> None:
        PreferencesPage(window.preferences, window).show()

    menus.add(menu, say("Pre&ferences …"), prefer, "Ctrl+,", needs_plate=False)


def _look(window: "BenchWindow", menus: Menus) -> None:
    look, paper = window.look, window.top.paper
    menu = menus.menu(say("&Look"))
    menus.add_group(menu, look.views, ("F2", "F3", "F4", "F5"))
    stops = menu.addMenu(say("Stopped after a s&tep"))
    stops.aboutToShow.connect(partial(_refill, stops, look.stops))
    menu.addSeparator()
    menus.add_group(menu, look.sides)
    menus.add(
        menu,
        say("Turn o&ver"),
        lambda: look.show_mirrored(not look.mirrored),
        "Ctrl+M",
    )
    menu.addSeparator()
    menus.add(menu, say("&Nearer"), paper.zoom_in, _Key.ZoomIn)
    menus.add(menu, say("&Further"), paper.zoom_out, _Key.ZoomOut)
    menus.add(menu, say("Fit the &plate"), paper.fit, "Ctrl+0")
    menus.add(menu, say("The &whole print"), paper.fit_sheet, "Ctrl+9")
    menus.add(menu, say("T&rue size"), window.showing.true_size, "Ctrl+T")
    menu.addSeparator()
    menus.add_action(menu, look.loupe, "Ctrl+G")
    widths = menu.addMenu(say("Width of the loup&e"))
    menus.add_group(widths, look.widths)
    menu.addSeparator()
    table = menus.add(menu, say("Ladder as a ta&ble"), int, "Ctrl+L")
    table.setCheckable(True)
    table.toggled.connect(lambda on: window.top.show_table(shown=on))
    menus.key.setText(say("E&xplain the ladder"))
    menus.key.setCheckable(True)
    menus.key.toggled.connect(lambda on: window.preferences.change(ladder_key=on))
    menu.addAction(menus.key)
    _schemes(window, menu.addMenu(say("Light or &dark")))


def _plate(window: "BenchWindow", menus: Menus) -> None:
    menu = menus.menu(say("&Plate"))
    menus.add(menu, say("&Title"), window.top.header.title.setFocus)
    menus.add(menu, say("&Lay it on the picture …"), window.laying.open, "Ctrl+Shift+L")
    for text, decision in (
        (say("&Picture"), window.top.picture),
        (say("Gre&ys"), window.top.greys),
        (say("&Size, metal, grain"), window.top.plate),
        (say("Lines &bitten first"), window.top.lines),
        (say("To&nes"), window.top.tones),
        (say("N&otes on the print"), window.top.notes),
        (say("So&ft passages"), window.top.soft),
        (say("Steps, b&rush, varnish"), window.top.steps),
        (say("Secon&d grain"), window.top.second_grain),
        (say("P&ace"), window.top.pace),
        (say("&Ink and paper"), window.top.printing),
    ):
        menus.add(menu, text, partial(window.top.card.open, decision))
    menu.addSeparator()
    menus.add(menu, say("Re&cord, prints, edition"), window.book.open_record, "Ctrl+Shift+R")
    menus.add(menu, say("&How many tones?"), window.how_many.open, "Ctrl+H")
    menus.add(menu, say("One tone &more"), partial(window.add_tones, 1), "Ctrl+Up")
    menus.add(menu, say("One tone l&ess"), partial(window.add_tones, -1), "Ctrl+Down")
    menus.add(
        menu, say("Follo&w the picture"), partial(window.top.tones.take_choice, Choice.PICTURE)
    )
    menus.add(menu, say("E&ven steps"), partial(window.top.tones.take_choice, Choice.EVEN))
    menus.add(menu, say("Let all &go"), partial(window.holding.let_go, None))


def _bath(window: "BenchWindow", menus: Menus) -> None:
    menu = menus.menu(say("&Bath"))
    menus.add(menu, say("&Mordant, temperature"), partial(window.top.card.open, window.top.bath))
    menus.add(menu, say("Test &strip …"), window.strips.open, "Ctrl+Shift+T")
    menus.add(menu, say("&Another strip …"), window.strips.open_new)
    menus.add(menu, say("&Baths of the studio"), window.book.open_baths, needs_plate=False)
    menus.add(menu, say("At the &tank …"), window.tank.open, "Ctrl+B")
    menus.add(menu, say("&Note at the tank …"), window.tank.enter)
    menus.add(menu, say("Read a &proof …"), window.proofs.open, "Ctrl+Shift+P")
    menus.add(menu, say("Sheet of the &order as it is now"), window.print_order_now)
    menus.add(menu, say("&Cautions and warnings"), partial(help_pages.show_cautions, window))


def _help(window: "BenchWindow", menus: Menus) -> None:
    menu = menus.menu(say("&Help"))
    menus.add(menu, say("&Handbook"), window.handbook.open, "F1", needs_plate=False)
    menus.add(
        menu, say("Handbook on &this"), window.handbook.open_here, "Shift+F1", needs_plate=False
    )
    menu.addSeparator()
    menus.add(
        menu,
        say("&Keys"),
        lambda: help_pages.show_keys(window, menus.shortcuts()),
        needs_plate=False,
    )
    menus.add(
        menu,
        say("&Where the numbers come from"),
        partial(help_pages.show_sources, window),
        needs_plate=False,
    )
    menus.add(menu, say("&About"), partial(help_pages.show_about, window), needs_plate=False)


def _schemes(window: "BenchWindow", menu: QMenu) -> None:
    group = QActionGroup(window)
    for scheme, text in (
        (Scheme.SYSTEM, say("As the desktop")),
        (Scheme.LIGHT, say("Light")),
        (Scheme.DARK, say("Dark")),
    ):
        action = menu.addAction(text)
        action.setCheckable(True)
        action.setChecked(window.preferences.now.scheme is scheme)
        action.triggered.connect(partial(_prefer_scheme, window, scheme))
        group.addAction(action)


def _prefer_scheme(window: "BenchWindow", scheme: Scheme) -> None:
    window.preferences.change(scheme=scheme)


def _refill(menu: QMenu, group: QActionGroup) -> None:
    menu.clear()
    for action in group.actions():
        menu.addAction(action)


def _fill_recent(window: "BenchWindow", menu: QMenu) -> None:
    menu.clear()
    files = window.recent.files()
    actions = []
    for path in files:
        action = menu.addAction(path.name)
        action.setToolTip(str(path))
        action.triggered.connect(partial(window.filing.open, path))
        actions.append(action)

    def grey(gone: list[bool]) -> None:
        for path, action, missing in zip(files, actions, gone, strict=True):
            if missing:
                action.setText(say("{name}: not there any more", name=path.name))
                action.setEnabled(False)

    window.aside.look("recent", lambda: [not is_file(path) for path in files], grey)
    if not files:
        menu.addAction(say("No plate was opened yet")).setEnabled(False)
        return
    menu.addSeparator()
    menu.addAction(say("Forget these")).triggered.connect(window.recent.clear)
