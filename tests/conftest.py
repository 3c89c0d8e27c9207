"""Laws are judged by their truth, never by how busy the machine is, in English, with a point.

With CI set, a change is judged by the same examples each time; everywhere else new ones are drawn.
"""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

from toneladder.quantities import Manner, write_as

os.environ["LC_ALL"] = "C.UTF-8"
os.environ.pop("LANGUAGE", None)
settings.register_profile("unhurried", deadline=None)
settings.register_profile("repeatable", deadline=None, derandomize=True)
settings.load_profile("repeatable" if os.environ.get("CI") else "unhurried")


@pytest.fixture(autouse=True)
def _written_plainly() -> Iterator[None]:
    """Every test begins with numbers written as at first, whatever one before it preferred."""
    write_as(Manner())
    yield
    write_as(Manner())


@pytest.fixture(scope="session", autouse=True)
def _one_application() -> Iterator[None]:
    """One application for all tests of a process, before anything draws; none without Qt."""
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    try:
        from PySide6.QtWidgets import QApplication
    except ImportError:
        yield
        return
    app = QApplication.instance() or QApplication([])
    yield
    del app
