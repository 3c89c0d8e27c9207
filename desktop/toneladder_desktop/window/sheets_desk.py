"""Opens the sheets of the open plate, and keeps them as the plate is."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from toneladder.wording import say
from toneladder_desktop.bench.bench import Bench
from toneladder_desktop.bench.beside import Beside
from toneladder_desktop.bench.opening import (
    ask_where_to_put_pdf,
    ask_where_to_put_svg,
    file_name,
)
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.bench.workings import Workings

if TYPE_CHECKING:
    from toneladder.plan.planning import Plan
    from toneladder_desktop.sheets.pages_window import SheetsWindow


class SheetsDesk(QObject):
    """One window of sheets for one bench; it opens when it is wanted, and follows the plan.

    ``opened`` says that it was.
    """

    opened = Signal()

    def __init__(
        self,
        window: QWidget,
        bench: Bench,
        workings: Workings,
        preferences: Preferences,
        beside: Beside,
    ) -> None:
        super().__init__(window)
        self._window, self._bench, self._workings = window, bench, workings
        self._preferences, self._beside = preferences, beside
        self._sheets: SheetsWindow | None = None
        self._other: Plan | None = None
        workings.worked.connect(self._follow)
        workings.laid_out.connect(self._laid_out)

    def open(self, *kinds: str, plan: "Plan | None" = None) -> None:
        """Show the sheets, of these kinds if any are named, as soon as the plan is ready.

        ``plan`` is another order of the plate than the planned one.
        """
        self._other = plan
        from toneladder_desktop.sheets.pages_window import SheetsWindow

        if self._sheets is None:
            self._sheets = SheetsWindow(
                self._preferences, self._take_paper, self._where, self._beside, self._window
            )
            self._sheets.kinds_wanted.connect(self._lay_out)
        if kinds:
            self._sheets.tick(kinds)
        self._sheets.show()
        self._sheets.raise_()
        self._sheets.activateWindow()
        self.opened.emit()
        self._lay_out()

    def _take_paper(self, paper: str) -> None:
        self._preferences.change(paper=paper)
        if self._sheets is not None:
            self._sheets.paper.show_value(paper)
        self._lay_out()

    def _where(self, parent: QWidget, end: str, take: Callable[[Path], object]) -> None:
        path = None if self._bench.lying is None else self._bench.lying.path
        folder = Path.home() if path is None else path.parent
        if end == ".svg":
            name = file_name(say("{title}, tracing", title=self._bench.name()), end)
            ask_where_to_put_svg(parent, folder / name, take)
        else:
            name = file_name(say("{title}, sheets", title=self._bench.name()), end)
            ask_where_to_put_pdf(parent, folder / name, take)

    def _follow(self) -> None:
        self._other = None
        if self._sheets is not None and self._sheets.isVisible():
            self._lay_out()

    def _lay_out(self) -> None:
        if self._sheets is None:
            return
        plate = self._bench.plate
        self._sheets.offer_lines(there=plate is not None and plate.lines is not None)
        self._sheets.show_documents(None)
        today = datetime.now().astimezone().date()
        paper = self._preferences.now.paper
        self._workings.lay_out(paper, today, self._sheets.kinds, self._other)

    def _laid_out(self, documents: object) -> None:
        if self._sheets is not None:
            self._sheets.show_documents(documents)  # type: ignore[arg-type] # a signal carries objects
