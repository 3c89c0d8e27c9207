"""Files that older versions wrote open for ever, and mean what they meant."""

import json
from pathlib import Path

import pytest

from toneladder.picture.opening import open_picture
from toneladder.plan.export import order_json
from toneladder.plan.planning import plan
from toneladder.plate.file import read_plate
from toneladder.plate.values import Plate
from toneladder.strip.file import read_strip, strip_text

VERSIONS = Path(__file__).parents[2] / "data" / "versions"


@pytest.mark.parametrize("name", ["format_1"])
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


def test_a_strip_of_an_older_version_is_written_as_it_was() -> None:
    path = VERSIONS / "format_1.strip"
    assert strip_text(read_strip(path)) == path.read_text(encoding="utf-8")
