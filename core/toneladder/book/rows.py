"""Rows of the book as frozen values, refused where they hold what was never written."""

from collections.abc import Iterable, Sequence
from dataclasses import fields
from enum import StrEnum
from functools import cache
from itertools import starmap
from typing import TYPE_CHECKING, Any, TypeVar, get_args, get_type_hints

from toneladder.book.trouble import UnreadableRowError
from toneladder.wording import say

if TYPE_CHECKING:
    from _typeshed import DataclassInstance

T = TypeVar("T", bound="DataclassInstance")


def values_from(rows: Iterable[Sequence[Any]], kind: type[T]) -> tuple[T, ...]:
    """Each row as a ``kind``, its columns in the order of the fields.

    Raises
    ------
    UnreadableRowError
        If a column holds another type than its field, or no word that the field may be.
    """
    columns = list(zip(*rows, strict=True))
    if not columns:
        return ()
    read = [_column(values, hint) for values, hint in zip(columns, _hints(kind), strict=True)]
    return tuple(starmap(kind, zip(*read, strict=True)))


def numbered(
    rows: Iterable[Sequence[Any]], kind: type[T], before: int = 1
) -> tuple[tuple[tuple[int, ...], T], ...]:
    """Rows that begin with ``before`` whole numbers: those numbers, and the rest as a ``kind``."""
    rows = list(rows)
    numbers = [tuple(row[:before]) for row in rows]
    if any(type(one) is not int for row in numbers for one in row):
        raise UnreadableRowError(say("a number in it is none"))
    return tuple(zip(numbers, values_from([row[before:] for row in rows], kind), strict=True))


@cache
def _hints(kind: type[T]) -> tuple[Any, ...]:
    hints = get_type_hints(kind)
    return tuple(hints[field.name] for field in fields(kind))


def _column(values: Sequence[Any], hint: Any) -> Sequence[Any]:  # noqa: ANN401  (types are values here)
    kinds = get_args(hint) or (hint,)
    if isinstance(hint, type) and issubclass(hint, StrEnum):
        try:
            words = {value: hint(value) for value in set(values)}
        except ValueError as fault:
            raise UnreadableRowError(str(fault)) from fault
        return [words[value] for value in values]
    if not set(map(type, values)) <= set(kinds):
        raise UnreadableRowError(say("a column in it holds another kind of thing than it should"))
    return values
