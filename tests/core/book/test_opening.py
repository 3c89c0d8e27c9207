"""Opening the book: what is trouble is said in a sentence, and nothing is lost."""

import os
import shutil
import sqlite3
import subprocess
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from pathlib import Path

import pytest

from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book import network
from toneladder.book.baths import begin_bath, list_baths
from toneladder.book.opening import Book, open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.schema import VERSION
from toneladder.book.strips import keep_strip, list_strips, strips_of
from toneladder.book.values import Bath, PlateEntry
from toneladder.errors import BookError, DamagedBookError
from toneladder.strip.values import Patch, Strip

COPPER = Bath("Tall tank", Metal.COPPER, Mordant.FERRIC_CHLORIDE)
ZINC = Bath("Low tray", Metal.ZINC, Mordant.COPPER_SULPHATE_SALT)
LARGE = b"\x89PNG\r\n\x1a\n" + bytes(30_000)


def plate(number: int) -> PlateEntry:
    return PlateEntry(f"plate {number}", "Boats", "/boats.plate", 0.0, Metal.COPPER, 5)


def keep_many(book: Book) -> None:
    for number in range(1000):
        keep_plate(book, plate(number), LARGE)


def until_full(book: Book) -> int:
    """How many plates were kept before there was no room."""
    before = len(list_plates(book))
    with pytest.raises(BookError, match=r"no room left .* held before is unchanged.* Make room"):
        keep_many(book)
    return len(list_plates(book)) - before


def test_a_new_book_is_made_with_its_folder(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "book?#%.sqlite"
    with open_book(path) as book:
        assert list_baths(book) == ()
    assert [one.name for one in path.parent.iterdir()] == [path.name]


def test_what_was_kept_is_there_when_it_is_opened_again(path: Path) -> None:
    with open_book(path) as book:
        begin_bath(book, COPPER)
    with open_book(path) as book:
        assert [kept.bath for kept in list_baths(book)] == [COPPER]
        assert book.older_copy is None


def test_an_empty_file_becomes_a_book(path: Path) -> None:
    path.touch()
    with open_book(path) as book:
        begin_bath(book, COPPER)


def test_a_later_book_is_left_alone_and_said_to_be_one(path: Path) -> None:
    with open_book(path) as book:
        begin_bath(book, COPPER)
    connection = sqlite3.connect(path)
    connection.execute(f"PRAGMA user_version = {VERSION + 1}")
    connection.close()
    before = path.read_bytes()
    with pytest.raises(
        BookError, match=r"later version.*It was left as it is; open it with the newer program"
    ) as caught:
        open_book(path)
    assert not isinstance(caught.value, DamagedBookError)
    assert path.read_bytes() == before


def test_a_book_brought_forward_meanwhile_is_not_written_by_the_older_program(
    book: Book, path: Path
) -> None:
    begin_bath(book, COPPER)
    newer = sqlite3.connect(path)
    newer.execute(f"PRAGMA user_version = {VERSION + 1}")
    with pytest.raises(BookError, match="later version"):
        begin_bath(book, ZINC)
    with pytest.raises(BookError, match="later version"):
        list_baths(book)
    assert newer.execute("SELECT count(*) FROM bath").fetchone() == (1,)
    newer.close()


def test_something_else_is_left_alone(path: Path) -> None:
    connection = sqlite3.connect(path)
    connection.execute("CREATE TABLE letters (a)")
    connection.close()
    before = path.read_bytes()
    with pytest.raises(BookError, match=r"no studio book.*It was left as it is"):
        open_book(path)
    assert path.read_bytes() == before
    path.write_bytes(b"Dear diary, today I bit a plate. " * 200)
    with pytest.raises(DamagedBookError, match=r"damaged.*set aside"):
        open_book(path)
    assert path.read_bytes().startswith(b"Dear diary")
    path.unlink()
    path.mkdir()
    with pytest.raises(BookError, match="cannot be written"):
        open_book(path)


def test_a_locked_book_says_so_after_a_while_and_reads_on(path: Path) -> None:
    with open_book(path, patience_s=0.05) as book:
        begin_bath(book, COPPER)
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(BookError, match=r"in use by another program.*Nothing was changed"):
            begin_bath(book, ZINC)
        assert [kept.bath for kept in list_baths(book)] == [COPPER]
        other.execute("ROLLBACK")
        other.close()
        begin_bath(book, ZINC)


def test_a_full_disk_loses_nothing_that_was_kept(book: Book) -> None:
    begin_bath(book, COPPER)
    (pages,) = book._connection.execute("PRAGMA page_count").fetchone()
    book._connection.execute(f"PRAGMA max_page_count = {pages + 40}")
    kept = until_full(book)
    assert kept > 2
    assert len(list_plates(book)) == kept
    book._connection.execute("PRAGMA max_page_count = 1000000")
    keep_plate(book, plate(kept), LARGE)
    assert thumbnail_of(book, f"plate {kept}") == LARGE


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one megabyte."""
    place = tmp_path / "disk"
    place.mkdir()
    if os.name != "posix" or os.geteuid() != 0 or shutil.which("mount") is None:
        pytest.skip("only root can mount a small disk")
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", place], check=False, capture_output=True
    )
    if mounted.returncode:
        pytest.skip("a small disk cannot be mounted here")
    yield place
    subprocess.run(["umount", place], check=True)


def test_a_disk_that_is_really_full_loses_nothing(small_disk: Path) -> None:
    path = small_disk / "book.sqlite"
    filler = small_disk / "other things"
    filler.write_bytes(bytes(300_000))
    with open_book(path) as book:
        begin_bath(book, COPPER)
        kept = until_full(book)
        assert kept > 2
        filler.unlink()
        keep_plate(book, plate(kept), LARGE)
    with open_book(path) as book:
        assert len(list_plates(book)) == kept + 1
        assert thumbnail_of(book, f"plate {kept}") == LARGE
        until_full(book)
    with open_book(path) as book:
        assert [one.bath for one in list_baths(book)] == [COPPER]
        with book.reading() as connection:
            assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_no_room_for_a_new_book_is_said(small_disk: Path) -> None:
    (small_disk / "other things").write_bytes(bytes(1024 * 1024 - 8192))
    with pytest.raises(BookError, match=r"no room left|could not do this|cannot be written"):
        open_book(small_disk / "book.sqlite")


@pytest.mark.parametrize("what", ["file", "folder", "both"])
def test_a_book_that_may_only_be_read_is_read_and_says_so(
    open_folder: Path, bound: Callable[[], AbstractContextManager[None]], what: str
) -> None:
    path = open_folder / "book.sqlite"
    with open_book(path) as book:
        bath_id = begin_bath(book, COPPER)
        keep_strip(book, bath_id, Strip(Conditions(), (Patch(0.0, 91.0), Patch(60.0, 40.0))))
    path.chmod(0o666 if what == "folder" else 0o444)
    open_folder.chmod(0o777 if what == "file" else 0o555)
    before = path.read_bytes()
    with bound(), open_book(path) as book:
        assert len(strips_of(book, bath_id).strips) == 1
        assert len(list_strips(book)) == 1
        with pytest.raises(BookError, match=r"cannot be written.*unchanged.*you may write"):
            begin_bath(book, ZINC)
        assert [kept.bath for kept in list_baths(book)] == [COPPER]
    assert path.read_bytes() == before


def test_a_place_where_no_book_can_be_made_is_said(
    open_folder: Path, bound: Callable[[], AbstractContextManager[None]]
) -> None:
    open_folder.chmod(0o555)
    with bound(), pytest.raises(BookError, match="cannot be written"):
        open_book(open_folder / "book.sqlite")
    with bound(), pytest.raises(BookError, match="cannot be written"):
        open_book(open_folder / "new" / "book.sqlite")
    assert list(open_folder.iterdir()) == []


def test_far_from_here_the_book_has_a_rollback_journal(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with open_book(path) as book:
        begin_bath(book, COPPER)
    mounts = tmp_path / "mountinfo"
    mounts.write_text(f"1 0 0:1 / {path.parent.resolve()} rw - nfs4 server rw\n")
    monkeypatch.setattr(network, "_MOUNTS", mounts)
    with open_book(path) as book, open_book(path) as other:
        for one in (book, other):
            assert one._connection.execute("PRAGMA journal_mode").fetchone() == ("delete",)
            # EXTRA, which flushes the folder too: section "synchronous" of SQLite's manual
            assert one._connection.execute("PRAGMA synchronous").fetchone() == (3,)
        begin_bath(other, ZINC)
        assert len(list_baths(book)) == 2
    monkeypatch.undo()
    with open_book(path) as book:
        assert book._connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert len(list_baths(book)) == 2


def test_an_act_that_fails_in_its_midst_leaves_nothing(book: Book) -> None:
    def half_done() -> None:
        with book.writing() as connection:
            connection.execute(
                "INSERT INTO tank_session VALUES ('s', 'p', 0.0, '{}')",
            )
            raise KeyError

    with pytest.raises(KeyError):
        half_done()
    with book.reading() as connection:
        assert connection.execute("SELECT count(*) FROM tank_session").fetchone() == (0,)
    begin_bath(book, COPPER)
