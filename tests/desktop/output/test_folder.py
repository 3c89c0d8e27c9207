"""A folder of files is written whole, or left as it was."""

import os
from pathlib import Path

import pytest

from toneladder.errors import OutputError
from toneladder.writing import OLD_S
from toneladder_desktop.output.folder import all_or_none, refuse_overwriting, require_folder


def test_files_come_into_the_folder_together(tmp_path: Path) -> None:
    folder = tmp_path / "new"
    with all_or_none(folder) as unfinished:
        (unfinished / "a").write_text("1")
        (unfinished / "b").write_text("2")
        assert not (folder / "a").exists()
    assert sorted(path.name for path in folder.iterdir()) == ["a", "b"]


@pytest.mark.parametrize("there", [True, False])
def test_after_a_fault_all_is_as_before(tmp_path: Path, *, there: bool) -> None:
    folder = tmp_path / "out"
    if there:
        folder.mkdir()
        (folder / "a").write_text("mine")

    def fail() -> None:
        with all_or_none(folder) as unfinished:
            (unfinished / "a").write_text("1")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        fail()
    assert folder.exists() is there
    if there:
        assert [path.name for path in folder.iterdir()] == ["a"]
        assert (folder / "a").read_text() == "mine"


def fill(folder: Path, **files: str) -> None:
    folder.mkdir(exist_ok=True)
    for name, text in files.items():
        (folder / name).write_text(text)


def found(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text() for path in folder.iterdir()}


def failing_at(monkeypatch: pytest.MonkeyPatch, *calls: int) -> None:
    """Have the disk refuse those renamings, counted from one."""
    renaming, count = Path.rename, 0

    def rename(self: Path, target: Path) -> Path:
        nonlocal count
        count += 1
        if count in calls:
            raise OSError(5, "Input/output error")
        return renaming(self, target)

    monkeypatch.setattr(Path, "rename", rename)


def put(folder: Path) -> None:
    with all_or_none(folder, {"map-9", "map-8"}) as unfinished:
        fill(unfinished, a="new", b="new", c="new")


@pytest.mark.parametrize("call", range(1, 7))
def test_a_fault_between_two_files_takes_those_before_it_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, call: int
) -> None:
    fill(tmp_path, a="old", b="old", other="mine", **{"map-9": "old"})
    before = found(tmp_path)
    failing_at(monkeypatch, call)
    with pytest.raises(OutputError, match="What was there before is unchanged"):
        put(tmp_path)
    assert found(tmp_path) == before
    monkeypatch.undo()
    put(tmp_path)
    assert found(tmp_path) == {"a": "new", "b": "new", "c": "new", "other": "mine"}


def test_files_that_cannot_be_taken_back_are_named_and_the_older_ones_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(tmp_path, a="old", b="old")
    failing_at(monkeypatch, 4, 5)
    with pytest.raises(OutputError, match=r"New are: a\. The older ones lie in .*replaced-"):
        put(tmp_path)
    monkeypatch.undo()
    (aside,) = tmp_path.glob("replaced-*")
    assert found(aside) == {"a": "old", "b": "old"}
    assert (tmp_path / "a").read_text() == "new"


def test_a_new_folder_appears_at_once_or_leaves_no_trace(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / "deep" / "new"
    failing_at(monkeypatch, 1)
    with pytest.raises(OutputError):
        put(folder)
    assert not list(tmp_path.iterdir())
    monkeypatch.undo()
    put(folder)
    (tmp_path / "usual").mkdir()
    assert found(folder).keys() == {"a", "b", "c"}
    assert folder.stat().st_mode == (tmp_path / "usual").stat().st_mode


def test_a_folder_in_the_place_of_a_file_is_left_alone(tmp_path: Path) -> None:
    fill(tmp_path, b="old")
    fill(tmp_path / "a", inside="mine")
    with pytest.raises(OutputError, match="it is a folder"):
        put(tmp_path)
    assert found(tmp_path / "a") == {"inside": "mine"}
    assert (tmp_path / "b").read_text() == "old"


def test_what_a_killed_writer_left_is_cleared_away_when_it_is_old(tmp_path: Path) -> None:
    for name in (".toneladder-unfinished-old", ".toneladder-unfinished-new", ".unfinished-mine"):
        fill(tmp_path / name, a="half")
    for name in (".toneladder-unfinished-old", ".unfinished-mine"):
        os.utime(tmp_path / name, (0, 0))
    put(tmp_path)
    assert {path.name for path in tmp_path.glob(".*")} == {
        ".toneladder-unfinished-new",
        ".unfinished-mine",
    }
    assert OLD_S > 3600.0


def test_the_mode_of_a_replaced_file_is_kept(tmp_path: Path) -> None:
    fill(tmp_path, a="old")
    (tmp_path / "a").chmod(0o640)
    put(tmp_path)
    assert (tmp_path / "a").stat().st_mode & 0o777 == 0o640


def test_what_is_there_is_named_and_kept(tmp_path: Path) -> None:
    (tmp_path / "a.pdf").write_text("mine")
    with pytest.raises(OutputError, match=r"already holds a\.pdf\. Nothing was changed"):
        refuse_overwriting(tmp_path, ["a.pdf", "b.pdf"])
    refuse_overwriting(tmp_path, ["b.pdf"])


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "a").write_text("mine")
    with pytest.raises(OutputError, match="is a file, not a folder"):
        require_folder(tmp_path / "a")
    require_folder(tmp_path / "missing")
