"""A file is written whole or not at all, where it truly lies, and stays whose it was."""

import os
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from toneladder.errors import OutputError
from toneladder.writing import OLD_S, take_over, write_whole

pytestmark = pytest.mark.skipif(os.name != "posix", reason="links, modes and owners are POSIX's")


def write(path: Path, text: str) -> None:
    write_whole(path, lambda file: file.write(text.encode()))


def test_what_is_saved_through_a_link_lies_where_the_link_points(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    far, near, nearer = tmp_path / "far" / "a.plate", tmp_path / "b.plate", tmp_path / "c.plate"
    far.write_text("old")
    near.symlink_to(Path("far") / "a.plate")
    nearer.symlink_to(near)
    write(nearer, "new")
    assert (nearer.is_symlink(), near.is_symlink(), far.is_symlink()) == (True, True, False)
    assert far.read_text() == "new"
    assert len(list(tmp_path.rglob("*"))) == 4


def test_a_link_to_a_file_that_is_not_there_yet_makes_it(tmp_path: Path) -> None:
    link = tmp_path / "link"
    link.symlink_to(tmp_path / "later")
    write(link, "new")
    assert (link.is_symlink(), (tmp_path / "later").read_text()) == (True, "new")


def test_links_in_a_circle_and_to_nowhere_are_told_of(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    (tmp_path / "c").symlink_to(tmp_path / "nowhere" / "file")
    for name in ("a", "c"):
        with pytest.raises(OutputError, match="could not be written"):
            write(tmp_path / name, "new")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a", "b", "c"]


@pytest.mark.parametrize("mode", [0o600, 0o640, 0o664, 0o444])
def test_the_mode_of_what_is_replaced_is_kept(tmp_path: Path, mode: int) -> None:
    path = tmp_path / "a"
    path.write_text("old")
    path.chmod(mode)
    write(path, "new")
    assert (stat.S_IMODE(path.stat().st_mode), path.read_text()) == (mode, "new")


def test_a_new_file_has_the_mode_of_any_new_file(tmp_path: Path) -> None:
    (tmp_path / "usual").write_text("x")
    write(tmp_path / "ours", "x")
    assert (tmp_path / "ours").stat().st_mode == (tmp_path / "usual").stat().st_mode


def test_owner_and_group_are_kept_where_they_may_be_given(tmp_path: Path) -> None:
    if os.geteuid() != 0:
        pytest.skip("only root may give files away")
    path = tmp_path / "a"
    path.write_text("old")
    os.chown(path, 1234, 2345)
    write(path, "new")
    assert (path.stat().st_uid, path.stat().st_gid) == (1234, 2345)


def test_a_group_that_may_not_be_given_does_not_get_its_rights(tmp_path: Path) -> None:
    if os.geteuid() != 0:
        pytest.skip("only root can make a file of another group")
    older, newer = tmp_path / "older", tmp_path / "newer"
    older.write_text("")
    newer.write_text("")
    older.chmod(0o664)
    os.chown(older, -1, 2345)
    asked = """
import os, sys
from pathlib import Path
from toneladder.writing import take_over
os.chdir(sys.argv[1])
os.setgroups([])
os.setgid(65534)
os.setuid(65534)
take_over(Path("older"), Path("newer"))
"""
    os.chown(newer, 65534, 65534)
    tmp_path.chmod(0o755)  # entered before the rights are given up: what lies above may be closed
    subprocess.run([sys.executable, "-c", asked, str(tmp_path)], check=True)
    assert stat.S_IMODE(newer.stat().st_mode) == 0o644
    take_over(older, newer)
    assert (stat.S_IMODE(newer.stat().st_mode), newer.stat().st_gid) == (0o664, 2345)


def test_only_what_we_began_long_ago_is_cleared_away(tmp_path: Path) -> None:
    path = tmp_path / "a.plate"
    names = {
        ".a.plate-old.unfinished": OLD_S + 60.0,
        ".a.plate-young.unfinished": OLD_S - 600.0,
        ".a.plate-other": 2 * OLD_S,
        ".b.plate-old.unfinished": 2 * OLD_S,
    }
    write(path, "first")
    now = path.stat().st_mtime
    for name, age in names.items():
        (tmp_path / name).write_text("x")
        os.utime(tmp_path / name, (now - age, now - age))
    write(path, "second")
    left = {found.name for found in tmp_path.iterdir()}
    assert left == {"a.plate", *names} - {".a.plate-old.unfinished"}


def test_what_another_person_began_stays(tmp_path: Path) -> None:
    if os.geteuid() != 0:
        pytest.skip("only root may give files away")
    other = tmp_path / ".a-x.unfinished"
    other.write_text("x")
    os.utime(other, (0, 0))
    os.chown(other, 1234, 1234)
    write(tmp_path / "a", "x")
    assert other.exists()
    os.chown(other, os.geteuid(), -1)
    write(tmp_path / "a", "x")
    assert not other.exists()
