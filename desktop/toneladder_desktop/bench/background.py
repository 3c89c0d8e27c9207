"""One thread beside the window's: heavy work as requests and answers, stale ones dropped."""

import logging
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from threading import Condition, Thread
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal

from toneladder.errors import ToneLadderError
from toneladder.wording import say

_LOG = logging.getLogger(__name__)


class GivenUpError(Exception):
    """Nobody waits for this work any more; raised where the work tells what it is doing."""


@dataclass(frozen=True, slots=True)
class _Message:
    """From the worker to the window: about which request, and what."""

    slot: str
    request: object
    content: object


@dataclass(frozen=True, slots=True)
class _Doing:
    words: str


@dataclass(frozen=True, slots=True)
class _Failed:
    sentence: str


class _Done:
    """The last message of a request that was worked through."""


Tell = Callable[[str], object]
Work = Callable[[Any, Tell], Iterator[object]]


def later(make: Callable[[], Work]) -> Work:
    """Work that is made, with the libraries behind it, when something is first asked of it."""
    made = cache(make)

    def work(request: Any, tell: Tell) -> Iterator[object]:  # noqa: ANN401 - as Work has it
        return made()(request, tell)

    return work


class Background(QObject):
    """Works requests off one after another, the newest of each slot only.

    ``work`` turns a request into answers, one a stage, and tells in words what it begins; after
    an answer, and wherever it tells, it is given up if the slot has a newer request, or none any
    more. Answers come through ``answered(request,
    answer)`` on the window's thread, and only as long as nothing newer was asked in that slot.
    ``failed(request, sentence)`` ends a request, ``done(request)`` too. The thread begins with
    the first request; once it was closed or finished, nothing is asked any more.
    """

    answered = Signal(object, object)
    failed = Signal(object, str)
    done = Signal(object)
    doing = Signal(str)
    _told = Signal(object)

    def __init__(self, work: Work, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._work = work
        self._wanted: dict[str, object] = {}
        self._waiting: dict[str, object] = {}
        self._change = Condition()
        self._closing = self._ending = self._left = False
        self._told.connect(self._deliver, Qt.ConnectionType.QueuedConnection)
        self._thread: Thread | None = None

    @property
    def busy(self) -> bool:
        """Whether anything that was asked is still owed an answer."""
        return bool(self._wanted)

    def ask(self, slot: str, request: object) -> None:
        """Have ``request`` worked on; whatever the slot was asked before is stale from now on."""
        with self._change:
            if self._closing or self._ending:
                return
            self._wanted[slot] = request
            self._waiting.pop(slot, None)
            self._waiting[slot] = request
            self._change.notify()
        try:
            self.begin()
        except RuntimeError:  # there is no room for another thread
            self._tell(slot, request, _Failed(_no_memory()))

    def begin(self) -> None:
        """Have the thread there before anything is asked.

        Raises
        ------
        RuntimeError
            The system has no memory for a thread.
        """
        if self._thread is None:
            thread = Thread(target=self._run, name="background", daemon=True)
            thread.start()
            self._thread = thread

    def give_up(self, slot: str) -> None:
        """Want nothing any more of what the slot was asked."""
        with self._change:
            self._wanted.pop(slot, None)
            self._waiting.pop(slot, None)

    def close(self) -> None:
        """Let the thread end after the stage it is in, and wait for it."""
        with self._change:
            self._closing = True
            self._wanted.clear()
            self._waiting.clear()
            self._change.notify()
        self._join()

    def finish(self) -> None:
        """Work everything off that was asked, then let the thread end, and wait for it."""
        with self._change:
            self._ending = True
            self._change.notify()
        self._join()

    def _join(self) -> None:
        if self._thread is not None:
            self._thread.join()

    def leave(self) -> None:
        """Let the thread end by itself, and hear nothing of it any more.

        It may wait for a machine that never answers.
        """
        with self._change:
            self._closing = self._left = True
            self._wanted.clear()
            self._waiting.clear()
            self._change.notify()

    def _deliver(self, message: _Message) -> None:
        """On the window's thread: pass on what is still wanted."""
        if self._wanted.get(message.slot) is not message.request:
            return
        content = message.content
        if isinstance(content, _Doing):
            self.doing.emit(content.words)
        elif isinstance(content, _Failed):
            del self._wanted[message.slot]
            self.failed.emit(message.request, content.sentence)
        elif isinstance(content, _Done):
            del self._wanted[message.slot]
            self.done.emit(message.request)
        else:
            self.answered.emit(message.request, content)

    def _run(self) -> None:
        while True:
            with self._change:
                while not self._waiting and not self._closing and not self._ending:
                    self._change.wait()
                if self._closing or not self._waiting:
                    return
                slot = next(iter(self._waiting))
                request = self._waiting.pop(slot)
            self._work_off(slot, request)

    def _tell(self, slot: str, request: object, content: object) -> None:
        if not self._left:  # there may be nobody any more who could hear it
            self._told.emit(_Message(slot, request, content))

    def _work_off(self, slot: str, request: object) -> None:
        def tell(words: str) -> None:
            if self._wanted.get(slot) is not request:
                raise GivenUpError
            self._tell(slot, request, _Doing(words))

        try:
            for answer in self._work(request, tell):
                self._tell(slot, request, answer)
                if self._wanted.get(slot) is not request:
                    return
        except GivenUpError:
            return
        except ToneLadderError as fault:
            self._tell(slot, request, _Failed(str(fault)))
        except MemoryError:
            self._tell(slot, request, _Failed(_no_memory()))
        except Exception:  # noqa: BLE001 - whatever a stage does, the window lives on
            _LOG.exception("a stage failed")
            sentence = say(
                "Something went wrong inside the program while it worked this out. Your plate is "
                "as it was; undo the last change, or save and start again."
            )
            self._tell(slot, request, _Failed(sentence))
        else:
            self._tell(slot, request, _Done())


def _no_memory() -> str:
    return say(
        "There is not enough memory for this. Your plate is as it was. Save it, close "
        "other programs, and try again; a smaller picture or plate takes less."
    )
