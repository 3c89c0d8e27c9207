"""Books to write in, and a person who may not."""

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from toneladder.bite.values import Metal, Mordant
from toneladder.book.baths import begin_bath
from toneladder.book.opening import Book, open_book
from toneladder.book.values import Bath

NOBODY = 65534
"""The user that owns nothing, on Linux."""


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "studio book.sqlite"


@pytest.fixture
def book(path: Path) -> Iterator[Book]:
    with open_book(path) as opened:
        yield opened


@pytest.fixture
def bath_id(book: Book) -> int:
    return begin_bath(book, Bath("Tall tank", Metal.COPPER, Mordant.FERRIC_CHLORIDE))


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder into which everybody may look."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        yield folder
        folder.chmod(0o755)


@contextmanager
def as_nobody() -> Iterator[None]:
    """The block is run by a person whom permissions bind; root passes them all."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.fixture
def bound() -> object:
    """:func:`as_nobody`, where there are such permissions at all."""
    if os.name != "posix":
        pytest.skip("permissions are told apart on POSIX only")
    return as_nobody
