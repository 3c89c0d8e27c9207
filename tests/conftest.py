"""Laws are judged by their truth, never by how busy the machine is, and in English."""

import os
from collections.abc import Iterator

import pytest
from hypothesis import settings

os.environ["LC_ALL"] = "C.UTF-8"
os.environ.pop("LANGUAGE", None)
settings.register_profile("unhurried", deadline=None)
settings.load_profile("unhurried")


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
