"""Whatever kills the program while it saves: the file opens, and is the old one or the new."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.hostile.long import _environment
from tests.kills.acts import ACTS, unfinished
from tests.kills.killing import calls_of, kill_at_calls

ROOT = Path(__file__).parents[2]

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="kills and traces are of Linux")


def test_killed_at_random_and_at_every_call_python_makes_nothing_is_lost() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.kills.killing", "36"],
        cwd=ROOT,
        env=_environment(),
        capture_output=True,
        text=True,
        check=True,
    )
    assert "nothing lost" in done.stdout
    assert done.stdout.count("'new'") == 2 * len(ACTS)


def test_killed_at_every_call_of_the_system_a_file_is_the_old_or_the_new() -> None:
    if shutil.which("strace") is None:
        pytest.skip("there is no strace here")
    traces = subprocess.run(["strace", "-f", "-qq", "-o", os.devnull, "true"], check=False)
    if traces.returncode != 0:
        pytest.skip("no process may be traced here")
    act = next(act for act in ACTS if act.name == "strip")
    made = [call for call, _ in calls_of(act)]
    assert made.index("write") < made.index("rename")
    found = kill_at_calls(act)
    assert len(found) == len(made)
    assert found == sorted(found)
    assert found[: made.index("rename") + 1] == [1] * (made.index("rename") + 1)


def test_what_a_killed_writer_leaves_beside_the_file_is_hidden_and_harmless(tmp_path: Path) -> None:
    act = ACTS[0]
    act.save(tmp_path, 1)
    (tmp_path / ".a.plate-leftover.unfinished").write_bytes(b"PK")
    act.save(tmp_path, 2)
    assert act.found(tmp_path) == 2
    assert [path.name for path in unfinished(tmp_path)] == [".a.plate-leftover.unfinished"]
