"""Plate files made wrong on purpose: members, sizes, names, packing and flags of the zip."""

import struct
import warnings
import zipfile
from dataclasses import replace
from functools import cache
from hashlib import sha256
from io import BytesIO
from random import Random

from tests.hostile.awkward import TEXTS, damaged_bytes, one_of
from tests.hostile.pictures import damaged_picture, pictures
from tests.hostile.trees import damaged_json, deep_text

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.borders.values import Remedied, Remedy, Soft
from toneladder.lines.values import Lines
from toneladder.order.values import Rates, SecondGrain
from toneladder.picture.opening import open_picture
from toneladder.picture.values import Crop, Laying, PlateSize
from toneladder.plate.file import KIND
from toneladder.plate.record import write_record
from toneladder.plate.values import Plate
from toneladder.preview.values import InkAndPaper
from toneladder.strip.values import CheckPatch, Edge, Evidence, MarginStrip, Patch, Session, Strip
from toneladder.tones.values import Brush, Note, ToneChoice, Wish

_ESCAPES = ("../x", "/var/x", "..\\x", "a/../../x", "picture/", "\0", "mimetype ", "PICTURE")


@cache
def strip() -> Strip:
    """A strip with a proof."""
    bites = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0)
    tones = (92.0, 83.0, 75.0, 62.0, 46.0, 31.0)
    patches = tuple(Patch(b, t) for b, t in zip(bites, tones, strict=True))
    return Strip(
        Conditions(),
        patches,
        bitten_on="2026-03-15",
        grained_on="2026-03-15",
        ink="bone black",
        paper="rag",
        bath="Tall",
        plates_before=3,
        note="first of the year",
        proofs=(Session((Patch(60.0, 60.0),), proof=True, name="first"),),
    )


@cache
def plate(name: str = "png") -> Plate:
    """A small plate with something decided of everything."""
    picture = open_picture(pictures()[name], name=name)
    return Plate(
        "Boats",
        picture.ref,
        PlateSize(30.0, 22.0),
        laying=Laying(Crop(0.0, 0.1, 0.9, 0.9), turn_deg=2.0),
        squint_mm=0.5,
        rates=Rates(place_s=6.0),
        printing=InkAndPaper("#1d1b1a", "#f4efe3", 20.0),
        keeps_edges=True,
        notes=(
            Note((((0.2, 0.2), (0.5, 0.2), (0.5, 0.6), (0.2, 0.6)),), Wish.RUNGS, rungs=1),
            Note((((0.6, 0.6), (0.9, 0.6), (0.9, 0.9)),), Wish.LIGHTNESS, lightness=50.0),
            Note((((0.1, 0.7), (0.4, 0.7), (0.4, 0.9)),), Wish.PAPER, wider_mm=0.5),
        ),
        soft=Soft(4.0, 8.0, (Remedied(0.5, 0.5, 1, Remedy.CRAYON),)),
        tones=ToneChoice(count=4, held_partings=(), held_bites=((1, 20.0),)),
        brush=Brush(1.0, 1.3),
        start="09:30",
        lines=Lines(),
        second_grain=SecondGrain(),
        evidence=Evidence((strip(),), CheckPatch(60.0, 61.0)),
        margin_strip=MarginStrip(Edge.BOTTOM),
        bath="Tall",
        grained_on="2026-03-15",
        given_s=(0.0, 20.0, 60.0, 200.0),
        identity="0123456789abcdef",
    )


@cache
def record() -> str:
    """The plate's text."""
    return write_record(plate(), starting_curve(Conditions()))


def damaged_record(chance: Random) -> str:
    """The plate's text, damaged."""
    return deep_text(chance) if chance.random() < 0.01 else damaged_json(chance, record())


def damaged_plate(chance: Random) -> bytes:
    """A plate's file, damaged in its members, its zip or its bytes."""
    picture = pictures()["png"]
    text = record()
    what = chance.randrange(6)
    if what == 0:
        text = damaged_record(chance)
    elif what == 1:
        picture = damaged_picture(chance)
        ref = replace(plate().picture, sha256=sha256(picture).hexdigest())
        text = write_record(replace(plate(), picture=ref), starting_curve(Conditions()))
    members = [
        ("mimetype", KIND, 0),
        ("plate.json", text.encode("utf-8", "replace"), 8),
        ("preview.png", pictures()["png"], 0),
        ("picture", picture, 0),
    ]
    if what == 2:
        _damage_members(chance, members)
    data = _zipped(members)
    if what == 3:
        return _damaged_directory(chance, data)
    return damaged_bytes(chance, data) if what == 4 else data


def _zipped(members: list[tuple[str, bytes, int]]) -> bytes:
    file = BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(file, "w") as archive:
        warnings.simplefilter("ignore")  # of names that come twice
        for name, data, how in members:
            info = zipfile.ZipInfo(name or "x")
            info.compress_type = how
            archive.writestr(info, data)
    return file.getvalue()


def _damage_members(chance: Random, members: list[tuple[str, bytes, int]]) -> None:
    for _ in range(chance.randint(1, 3)):
        at = chance.randrange(len(members))
        name, data, how = members[at]
        what = chance.randrange(7)
        if what == 0 and len(members) > 1:
            del members[at]
        elif what == 1:
            members.append((name, data, how))
        elif what == 2:
            printable = [text for text in TEXTS if text.isprintable()]
            members.append((one_of(chance, (*_ESCAPES, *printable)), b"x", 0))
        elif what == 3:
            members[at] = name, data, one_of(chance, (0, 8, 12, 14))
        elif what == 4:
            swollen = b" " * one_of(chance, (4_100_000, 30_000_000))
            members[at] = name, data + swollen, 8
        elif what == 5:
            members[at] = name, damaged_bytes(chance, data), how
        else:
            members[at] = one_of(chance, _ESCAPES), data, how


def _damaged_directory(chance: Random, data: bytes) -> bytes:
    """Damage to fields of the headings before members, and of the directory at the end."""
    found = bytearray(data)
    marks = [b"PK\x01\x02", b"PK\x03\x04", b"PK\x05\x06"]
    places = [at for at in range(len(data) - 46) if data[at : at + 4] in marks]
    for _ in range(chance.randint(1, 4)):
        at = one_of(chance, places or [0])
        value = one_of(chance, (0, 1, 8, 9, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF, len(data)))
        if chance.random() < 0.5:
            struct.pack_into("<H", found, at + 4 + 2 * chance.randrange(13), value & 0xFFFF)
        else:
            struct.pack_into("<I", found, at + 4 + 2 * chance.randrange(12), value)
    return bytes(found)
