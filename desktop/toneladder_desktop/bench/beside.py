"""Files read and written beside the window, which stays alive however slow their folder is."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, TypeVar

from PySide6.QtCore import QObject

from toneladder_desktop.bench.background import Background, Tell

T = TypeVar("T")


@dataclass(frozen=True, slots=True, eq=False)
class _Wish:
    """``act`` is done beside the window; what it gives, or why it failed, is told on it."""

    act: Callable[[], Any]
    then: Callable[[Any], object]
    otherwise: Callable[[str], object]


class Beside(QObject):
    """Does one small thing with files after the other, in the order they were asked."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._asked = 0
        self._background = Background(_work, self)
        self._background.answered.connect(_answered)
        self._background.failed.connect(_failed)

    def do(
        self,
        act: Callable[[], T],
        then: Callable[[T], object] = lambda _: None,
        otherwise: Callable[[str], object] = lambda _: None,
    ) -> None:
        """Have ``act`` done; ``then`` gets its answer, or ``otherwise`` a sentence."""
        self._asked += 1
        self._background.ask(f"act {self._asked}", _Wish(act, then, otherwise))

    def look(self, what: str, act: Callable[[], T], then: Callable[[T], object]) -> None:
        """Have something looked up; whatever was looked up so before is stale from now on."""
        self._background.ask(what, _Wish(act, then, lambda _: None))

    def stop(self) -> None:
        """The window closes: what was asked is still done."""
        self._background.finish()

    def leave(self) -> None:
        """The window closes, and waits for nothing that was asked: it was only looked at."""
        self._background.leave()


def _work(wish: _Wish, _tell: Tell) -> Iterator[object]:
    yield (wish.act(),)


def _answered(wish: _Wish, answer: tuple[Any]) -> None:
    wish.then(answer[0])


def _failed(wish: _Wish, sentence: str) -> None:
    wish.otherwise(sentence)
