"""What breaks readers: awkward texts and numbers, and damage to any text or bytes."""

import struct
from collections.abc import Sequence
from random import Random
from typing import TypeVar

T = TypeVar("T")

TEXTS = (
    "",
    " ",
    "\0",
    "\x1b[31mred\x07",
    "\u202eetalp\u202c",
    "\ufeff\u200b\u2028\u2029",
    "\ud800",
    "e\u0301\u0327" * 40,
    "🜁" * 300,
    "A" * 4_000,
    "word " * 2_000,
    "=1+1",
    '=HYPERLINK("http://127.0.0.1/","x")',
    "@SUM(A1)",
    "</title><script>alert(1)</script>",
    "]]>&amp;&#0;",
    "../../../../tmp/x",
    "/etc/passwd",
    "C:\\x",
    "{name}",
    "{0.__class__}",
    "%s%n",
    "-",
    "--out",
    "\n\r\n",
    '"',
    "'",
    ";,\t",
    "null",
    "true",
)
NUMBERS = (
    "0",
    "-0",
    "-1",
    "1",
    "0.5",
    "1e-320",
    "1e308",
    "-1e308",
    "1e309",
    "1e999999",
    "NaN",
    "Infinity",
    "-Infinity",
    "nan",
    "inf",
    "255",
    "65536",
    "2147483648",
    "4294967295",
    "9223372036854775808",
    "18446744073709551616",
    "9" * 400,
    "9" * 5_000,
    "0x10",
    "1_000",
    "1,5",
    "1,000",
    "1/0",
    "1/3",
    "½",
    "٣",
    "\uff11\uff12",
    "²",
    "0" * 60,
    "1" + "0" * 58,
)


def chance_of(seed: int, kind: str, number: int) -> Random:
    """The chance that makes input ``number`` of a kind: the same whenever it is made."""
    return Random(f"{seed} {kind} {number}")  # noqa: S311 (a seeded trial, no secret)


def one_of(chance: Random, things: Sequence[T]) -> T:
    """One of ``things``."""
    return things[chance.randrange(len(things))]


def text_or_number(chance: Random) -> str:
    """Something that no form expects."""
    return one_of(chance, one_of(chance, (TEXTS, NUMBERS)))


def damaged_text(chance: Random, text: str) -> str:
    """``text`` with one to four pieces of damage."""
    for _ in range(chance.randint(1, 4)):
        at = chance.randint(0, len(text))
        to = min(len(text), at + one_of(chance, (1, 2, 5, 30, 1000)))
        text = one_of(
            chance,
            (
                text[:at] + text[to:],
                text[:at],
                text[:at] + text[at:to] * one_of(chance, (2, 3, 200)) + text[to:],
                text[:at] + text_or_number(chance) + text[at:],
                text[:at] + text_or_number(chance) + text[to:],
                text[:at] + chr(chance.randrange(0xD7FF)) + text[to:],
                text[:at] + text[at:to].swapcase() + text[to:],
            ),
        )
    return text[:600_000]


def damaged_bytes(chance: Random, data: bytes) -> bytes:
    """``data`` with one to eight pieces of damage."""
    found = bytearray(data)
    for _ in range(chance.randint(1, 8)):
        at = chance.randrange(len(found) + 1)
        if chance.random() < 0.3:
            at = min(at, chance.randrange(64))
        size = one_of(chance, (1, 2, 4, 8, 64, 1024))
        what = chance.randrange(7)
        if what == 0 and found:
            found[min(at, len(found) - 1)] ^= 1 << chance.randrange(8)
        elif what == 1:
            found[at : at + size] = chance.randbytes(size)
        elif what == 2:
            del found[at : at + size]
        elif what == 3:
            found[at:at] = found[at : at + size]
        elif what == 4:
            value = one_of(chance, (0, 1, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF))
            found[at : at + 4] = struct.pack(one_of(chance, ("<I", ">I")), value)
        elif what == 5:
            found[at : at + size] = bytes([one_of(chance, (0, 0xFF))]) * size
        elif chance.random() < 0.3:
            del found[at:]
    return bytes(found)
