"""Files that older versions wrote open for ever, and mean what they meant."""

import json
import zipfile
from dataclasses import asdict
from pathlib import Path
from typing import Any

import pytest

from toneladder.picture.opening import open_picture
from toneladder.plan.export import order_json
from toneladder.plan.planning import plan
from toneladder.plate.file import read_plate
from toneladder.plate.values import Plate
from toneladder.strip.file import read_strip, strip_text

VERSIONS = Path(__file__).parents[2] / "data" / "versions"


def said(value: Any) -> object:
    """A value as its file has it: without the program's own kinds."""
    return json.loads(json.dumps(asdict(value)))


@pytest.mark.parametrize("name", ["format_1", "format_2"])
def test_a_plate_of_an_older_version_gives_the_order_it_gave(name: str) -> None:
    file = read_plate(VERSIONS / f"{name}.plate")
    picture = open_picture(file.picture, name=file.plate.picture.name)
    again = json.loads(order_json(plan(picture, file.plate, file.curve)))
    then = json.loads((VERSIONS / f"{name}_order.json").read_text(encoding="utf-8"))
    assert {key: again[key] for key in then if key != "warnings"} == {
        key: then[key] for key in then if key != "warnings"
    }


def test_what_an_older_plate_did_not_say_keeps_its_default() -> None:
    plate = read_plate(VERSIONS / "format_1.plate").plate
    assert plate == Plate(
        title=plate.title,
        picture=plate.picture,
        size=plate.size,
        tones=plate.tones,
        brush=plate.brush,
        conditions=plate.conditions,
    )


def test_a_plate_with_something_of_everything_says_what_its_file_says() -> None:
    path = VERSIONS / "format_2.plate"
    with zipfile.ZipFile(path) as archive:
        told = json.loads(archive.read("plate.json"))
        picture = archive.read("picture")
    file = read_plate(path)
    assert said(file.plate) == told["plate"]
    assert said(file.curve) == told["curve"]
    assert file.picture == file.preview == picture
    usual = asdict(Plate("", file.plate.picture, file.plate.size))
    assert [key for key, value in asdict(file.plate).items() if value == usual[key]] == [
        "picture",
        "size",
    ]


@pytest.mark.parametrize("format_of_file", [1, 2])
def test_a_strip_of_an_older_version_is_written_as_it_was(format_of_file: int) -> None:
    path = VERSIONS / f"format_{format_of_file}.strip"
    assert strip_text(read_strip(path)) == path.read_text(encoding="utf-8")
