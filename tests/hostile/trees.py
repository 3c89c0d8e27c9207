"""Damage to JSON that knows its trees: values, keys and nesting, and text that is nearly JSON."""

import json
from collections.abc import Iterator
from random import Random
from typing import Any

from tests.hostile.awkward import NUMBERS, TEXTS, damaged_text, one_of

_MARK = "\u0001number:"
_NEST = "\u0001nest"
_DEEP = 100_000


def damaged_json(chance: Random, text: str) -> str:
    """A JSON text with damage to its tree, its text, or both."""
    if chance.random() < 0.08:
        return damaged_text(chance, text)
    tree = json.loads(text)
    for _ in range(one_of(chance, (1, 1, 1, 2, 5))):
        _damage(chance, tree)
    written = json.dumps(tree, ensure_ascii=chance.random() < 0.5)
    for number in NUMBERS:
        written = written.replace(json.dumps(_MARK + number), number)
        written = written.replace(json.dumps(_MARK + number, ensure_ascii=False), number)
    levels = one_of(chance, (30, 900, 3_000))
    written = written.replace(json.dumps(_NEST), "[" * levels + "]" * levels)
    return damaged_text(chance, written) if chance.random() < 0.03 else written


def _damage(chance: Random, tree: Any) -> None:
    places = list(_places(tree))
    if not places:
        return
    holder, key = one_of(chance, places)
    old = holder[key]
    what = chance.randrange(12)
    if what < 4:
        holder[key] = _nudged(chance, old)
    elif what == 4:
        holder[key] = _MARK + one_of(chance, NUMBERS)
    elif what == 5:
        holder[key] = one_of(chance, TEXTS)
    elif what == 6:
        holder[key] = one_of(chance, (None, True, False, [], {}, [old], {"x": old}))
    elif what == 7:
        del holder[key]
    elif what == 8 and isinstance(holder, dict):
        holder[one_of(chance, TEXTS)] = old
    elif what == 9 and isinstance(old, list) and old:
        holder[key] = old * one_of(chance, (2, 3, 50, 3000))
    elif what == 10:
        other, from_key = one_of(chance, places)
        holder[key] = json.loads(json.dumps(other[from_key])) if from_key in _keys(other) else old
    else:
        holder[key] = _NEST


def _nudged(chance: Random, old: Any) -> Any:
    """A value like the old one, which may well be allowed."""
    if isinstance(old, bool) or old is None:
        return one_of(chance, (True, False, 0, 1.5, "x"))
    if isinstance(old, int | float):
        return one_of(
            chance,
            (
                old + 1,
                old - 1,
                -old,
                old * 1.01,
                old * 10,
                old / 10,
                old / 1e6,
                0,
                0.0,
                1e-9,
                100.0,
            ),
        )
    if isinstance(old, str):
        return one_of(chance, (old + "x", old.upper(), one_of(chance, TEXTS), old * 3, old[:-1]))
    if isinstance(old, list):
        return one_of(chance, (old[:-1], old[::-1], old + old[:1], old[:1]))
    return {}


def deep_text(chance: Random) -> str:
    """A text nested deeper than any reader's patience."""
    opening = one_of(chance, ("[", '{"plate":', '{"format":1,"strips":['))
    return opening * one_of(chance, (1_000, _DEEP))


def _keys(holder: Any) -> Any:
    return holder if isinstance(holder, dict) else range(len(holder))


def _places(tree: Any) -> Iterator[tuple[Any, Any]]:
    """Every place of the tree: what holds it, and its key there."""
    for key in list(_keys(tree)):
        yield tree, key
        if isinstance(tree[key], dict | list):
            yield from _places(tree[key])
