"""Recent plates: newest first, ten at most, never an obstacle."""

from pathlib import Path

import pytest

from toneladder_desktop.bench.recent import MOST, Recent


def test_the_newest_is_first_and_none_is_there_twice(tmp_path: Path) -> None:
    recent = Recent(tmp_path / "state" / "recent.json")
    for name in ("a", "b", "a"):
        recent.add(tmp_path / name)
    assert [path.name for path in recent.files()] == ["a", "b"]


def test_the_oldest_are_forgotten(tmp_path: Path) -> None:
    recent = Recent(tmp_path / "recent.json")
    for number in range(MOST + 3):
        recent.add(tmp_path / str(number))
    assert [path.name for path in recent.files()] == [str(n) for n in range(MOST + 2, 2, -1)]
    recent.clear()
    assert recent.files() == ()


@pytest.mark.parametrize("text", ["", "{", "{}", "[1, null]", '"a"'])
def test_a_spoilt_list_is_an_empty_one(tmp_path: Path, text: str) -> None:
    file = tmp_path / "recent.json"
    file.write_text(text)
    assert Recent(file).files() == ()


def test_a_place_that_cannot_be_written_to_is_no_obstacle(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    recent = Recent(tmp_path / "file" / "recent.json")
    recent.add(tmp_path / "a")
    assert recent.files() == ()
