"""What the database says, as sentences; only real damage is called damage."""

import sqlite3
from pathlib import Path

import pytest

from toneladder.book.opening import Book
from toneladder.book.trouble import UnreadableRowError, told
from toneladder.errors import BookError, DamagedBookError, StripError

PATH = Path("/studio/book.sqlite")


@pytest.mark.parametrize(
    ("fault", "kind", "words"),
    [
        (UnreadableRowError("a number in it is none"), DamagedBookError, "a number in it is none"),
        (sqlite3.OperationalError("Could not decode to UTF-8"), DamagedBookError, "UTF-8"),
        (PermissionError(13, "Permission denied"), BookError, r"you have no permission.*/studio"),
        (StripError("A sentence."), StripError, r"^A sentence\.$"),
        (sqlite3.ProgrammingError("closed"), sqlite3.ProgrammingError, "closed"),
    ],
)
def test_each_trouble_has_its_sentence(fault: Exception, kind: type[Exception], words: str) -> None:
    with pytest.raises(kind, match=words), told(PATH):
        raise fault


@pytest.mark.parametrize(
    ("statement", "is_damage"),
    [
        ("SELECT * FROM no_such_table", True),
        ("SELECT no_such_column FROM bath", True),
        ("SELECT FROM WHERE", False),
        ("INSERT INTO strip_text VALUES (7, 'of no strip')", False),
        ("INSERT INTO bath_use VALUES (7, 'x', 'plate', '', NULL)", False),
        ("INSERT INTO lease VALUES ('p', 'o', 'b', 'no number', 0.0)", False),
    ],
)
def test_only_damage_is_called_damage(book: Book, statement: str, *, is_damage: bool) -> None:
    with pytest.raises(BookError) as caught, book.writing() as connection:
        connection.execute(statement)
    assert isinstance(caught.value, DamagedBookError) == is_damage
    assert str(caught.value).endswith(".")
