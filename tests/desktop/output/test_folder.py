"""A folder of files is written whole, or left as it was."""

from pathlib import Path

import pytest

from toneladder.errors import OutputError
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
