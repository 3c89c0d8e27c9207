"""Cycles are searched in the window's thread alone."""

import gc
import threading
import weakref
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QCoreApplication, QTimer

from toneladder_desktop.window.tidying import WHOLE, Tidying


@pytest.fixture
def tidying(qapp: QCoreApplication) -> Iterator[Tidying]:
    tidying = Tidying(qapp)
    yield tidying
    tidying.stop()
    assert gc.isenabled()


class Knot:
    """Holds itself, and something of Qt."""

    def __init__(self, threads: list[int]) -> None:
        self.me, self.timer = self, QTimer()
        weakref.finalize(self, lambda: threads.append(threading.get_ident()))


def test_what_belongs_to_qt_dies_in_the_window_s_thread(tidying: Tidying) -> None:
    threads: list[int] = []
    Knot(threads)
    busy = threading.Thread(target=lambda: [[] for _ in range(200_000)])
    busy.start()
    busy.join()
    assert threads == []
    for _ in range(WHOLE):
        tidying.tidy()
    assert threads == [threading.get_ident()]
