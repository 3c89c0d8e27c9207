"""Two ways to do the whole job: with keys alone, and with a screen reader's own interface alone."""

import time
from contextlib import suppress
from pathlib import Path
from typing import Protocol

from tests.driven.desk import Desk, until
from tests.driven.reader import Part, Reader, UnreachableError

_MOST_TABS, _TRIES = 80, 5
_HEARD_S, _GLANCE_S = 2.0, 0.1
_MENUS = {"Plate": "p", "Bath": "b", "File": "f", "Look": "l"}


class Hand(Protocol):
    """Whoever does the job; ``app`` is the program as a screen reader has it."""

    app: Part

    def menu(self, menu: str, line: str, letter: str) -> None:
        """Choose a line of a menu; its letter in the menu is underlined."""

    def press(self, name: str, role: str = "push button") -> None:
        """Press a button of the front window."""

    def answer(self, question: str, text: str) -> None:
        """Type an answer into a field, and go on."""

    def file(self, dialog: str, path: Path) -> None:
        """Name a file in a dialog, and agree."""

    def move(self, peg: str, steps: int) -> None:
        """Move a peg of the ladder by so many small steps, downwards if positive."""

    def mark(self, x_mm: float, y_mm: float) -> None:
        """Say where on the print a note is meant, from its upper left corner."""

    def fill(self, table: str, column: int, texts: list[str]) -> None:
        """Type texts into a column of a table, from the first row down."""

    def number(self, question: str, number: int) -> None:
        """Set a number that can be counted up and down."""

    def away(self, window: str) -> None:
        """Put a window beside the bench away."""

    def main_act(self, label: str) -> None:
        """Do the one thing that is asked at the tank."""


class ByReader:
    """Names, roles, values and actions; no key and no place on the screen."""

    def __init__(self, app: Part) -> None:
        self.app = app

    def menu(self, menu: str, line: str, letter: str) -> None:
        assert letter
        _window(self.app, "frame").find("menu item", menu).find("menu item", line).do("Press")

    def press(self, name: str, role: str = "push button") -> None:
        self.app.find(role, name).do("Press")

    def answer(self, question: str, text: str) -> None:
        line = self.app.find("text", question)
        line.do("SetFocus")
        line.write(text)
        self.app.find("filler", "The print").do("SetFocus")

    def file(self, dialog: str, path: Path) -> None:
        box = self.app.find("dialog", dialog)
        box.find("text", "File name").write(str(path))
        for button in ("Open", "Save"):
            found = box.seek("push button", button)
            if found is not None:
                found.do("Press")
                return
        raise UnreachableError(dialog)

    def move(self, peg: str, steps: int) -> None:
        slider = self.app.find("slider", peg)
        for _ in range(abs(steps)):
            slider.do("Decrease" if steps > 0 else "Increase")

    def mark(self, x_mm: float, y_mm: float) -> None:
        self.answer("Its place", f"{x_mm:g} × {y_mm:g} mm")

    def fill(self, table: str, column: int, texts: list[str]) -> None:
        found = self.app.find("table", table)
        for row, text in enumerate(texts):
            found.cell(row, column).do("Toggle")
            line = self.app.find("text", f"Row {row + 1}, ")
            line.do("SetFocus")
            line.write(text)
            found.do("SetFocus")

    def number(self, question: str, number: int) -> None:
        self.app.find("spin box", question).set_value(number)

    def away(self, window: str) -> None:
        """It stays open: a screen reader goes from window to window."""
        assert self.app.seek("dialog", window) is not None

    def main_act(self, label: str) -> None:
        button = self.app.seek("push button", label)
        if button is not None:  # the clock may have gone on to something else
            button.do("Press")


class ByKeys:
    """Keys alone; a screen reader's view only tells where they go."""

    def __init__(self, app: Part, reader: Reader, desk: Desk) -> None:
        self.app, self._reader, self._desk = app, reader, desk

    def menu(self, menu: str, line: str, letter: str) -> None:
        assert line
        for _ in range(_TRIES):
            self._reader.forget()  # Qt does not tell that a menu was left
            with self._desk.holding("alt"):
                time.sleep(_GLANCE_S)  # a hand waits until it sees the letters underlined
                self._desk.press(_MENUS[menu])
            if self._in_a_menu():
                self._desk.press(letter)
                return
        raise UnreachableError(f"no menu {menu}, but {self._desk.window()}")

    def press(self, name: str, role: str = "push button") -> None:
        self._tab_to(role, name)
        self._desk.press("space")

    def answer(self, question: str, text: str) -> None:
        self._tab_to("text", question)
        self._desk.press("ctrl+a")
        self._desk.type(text)
        self._desk.press("Return")

    def file(self, dialog: str, path: Path) -> None:
        until(lambda: self._desk.window() == dialog, dialog)
        self._desk.press("ctrl+a")
        self._desk.type(str(path))
        for _ in range(_TRIES):
            self._desk.press("Return")  # the first may only choose what the dialog proposes
            with suppress(TimeoutError):
                until(lambda: self._desk.window() != dialog, dialog, longest_s=_HEARD_S)
                return
        raise UnreachableError(f"{dialog} stays")

    def move(self, peg: str, steps: int) -> None:
        self._tab_to("slider", "")
        for _ in range(12):
            heard = self._reader.focused(_HEARD_S)
            if heard is not None and heard.is_called(peg):
                break
            self._desk.press("Page_Down")
        else:
            raise UnreachableError(peg)
        self._desk.press(*["Down" if steps > 0 else "Up"] * abs(steps))

    def mark(self, x_mm: float, y_mm: float) -> None:
        """The cross begins in the middle of the plate of 90 by 60 mm; Shift moves it by ten."""
        across, down = round((x_mm - 45.0) / 10.0), round((y_mm - 30.0) / 10.0)
        for keys, number in (("Right", across), ("Left", -across), ("Down", down), ("Up", -down)):
            self._desk.press(*[f"shift+{keys}"] * max(number, 0))
        self._desk.press("Return", "Escape")

    def fill(self, table: str, column: int, texts: list[str]) -> None:
        self._tab_to("table", table)
        self._desk.press("ctrl+Home", *["Right"] * column)
        for text in texts:
            self._desk.type(text)
            self._desk.press("Return")

    def number(self, question: str, number: int) -> None:
        self._tab_to("spin box", question)
        self._desk.press("ctrl+a")
        self._desk.type(str(number))
        self._desk.press("Return")

    def away(self, window: str) -> None:
        until(lambda: self._desk.window() == window, window)
        self._desk.press("Escape")
        until(lambda: self._desk.window() != window, window)

    def main_act(self, label: str) -> None:
        assert label
        self._desk.press("space")

    def _in_a_menu(self) -> bool:
        end = time.monotonic() + _HEARD_S
        while time.monotonic() < end:
            heard = self._reader.focused(_GLANCE_S)
            if heard is not None and heard.role == "menu item":
                return True
        return False

    def _tab_to(self, role: str, name: str) -> None:
        """Tab until somebody who hears where the keys go hears this."""
        heard = self._reader.focused()
        for _ in range(_MOST_TABS):
            if heard is not None and heard.role == role and heard.is_called(name):
                return
            self._desk.press("Tab")
            heard = self._reader.focused(_HEARD_S)
        raise UnreachableError(f"Tab does not come to {role} “{name}”, but to {heard}")


def _window(app: Part, role: str) -> Part:
    return next(part for part in app.children if part.role == role)
