"""Strips are put together upright, and halved when they are too many."""

import numpy as np
import pytest

from toneladder.picture import gathering
from toneladder.picture.gathering import gathered, upright_sides
from toneladder.picture.heading import Heading
from toneladder.picture.light import Light


def heading_of(light: Light, orientation: int = 1, part: int = 1) -> Heading:
    height, width = light.shape
    return Heading(
        width * part, height * part, 8, 0, orientation, (), lambda: lambda a, b: light[a:b], part
    )


@pytest.mark.parametrize("orientation", range(1, 9))
def test_strips_of_any_orientation_come_out_in_one_piece(
    orientation: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    light = np.arange(7 * 5, dtype=np.uint16).reshape(7, 5)
    heading = heading_of(light, orientation)
    whole, notes = gathered(heading, heading.decode())
    monkeypatch.setattr(gathering, "_STRIP", 10)
    assert np.array_equal(gathered(heading, heading.decode())[0], whole)
    assert whole.shape[::-1] == upright_sides(heading)
    assert not notes


@pytest.mark.parametrize("shape", [(6, 8), (7, 5), (1, 9), (9, 1)])
def test_a_very_large_picture_is_averaged_two_by_two(
    shape: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    light = np.random.default_rng(4).integers(0, 65536, shape, dtype=np.uint16)
    heading = heading_of(light)
    monkeypatch.setattr(gathering, "_KEPT_WHOLE", 1)
    monkeypatch.setattr(gathering, "_STRIP", 10)
    half, notes = gathered(heading, heading.decode())
    for row in range(half.shape[0]):
        for column in range(half.shape[1]):
            block = light[2 * row : 2 * row + 2, 2 * column : 2 * column + 2]
            assert half[row, column] == pytest.approx(block.mean(), abs=0.51)
    assert notes == ("The picture is very large; it is read at half its size.",)


def test_a_picture_decoded_at_a_part_of_its_size_is_said_to_be() -> None:
    heading = heading_of(np.zeros((3, 4), np.uint16), part=4)
    light, notes = gathered(heading, heading.decode())
    assert light.shape == (3, 4)
    assert notes == ("The picture is very large; it is read at 1/4 of its size.",)
