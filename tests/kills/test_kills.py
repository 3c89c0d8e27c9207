"""Whatever kills the program while it saves: the file opens, and is the old one or the new."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from tests.hostile.long import _environment
from tests.kills.acts import ACTS, Act, unfinished

ROOT = Path(__file__).parents[2]
CALLS = (
    "write,pwrite64,fsync,fdatasync,rename,renameat,renameat2,link,unlink,chmod,fchmod,ftruncate"
)
MOST_CALLS = 60
SAVE = """
import sys
from pathlib import Path
from tests.kills.acts import ACTS
act = next(act for act in ACTS if act.name == sys.argv[1])
act.save(Path(sys.argv[2]), 2)
"""

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


def traced(folder: Path, name: str, number: int) -> int:
    """Save version two under a trace that kills it as it makes its call of that number."""
    inject = f"inject={CALLS}:signal=KILL:when={number}"
    words = ["strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace={CALLS}", "-e", inject]
    run = [sys.executable, "-c", SAVE, name, str(folder)]
    done = subprocess.run(
        [*words, *run], cwd=ROOT, env=_environment(), capture_output=True, check=False
    )
    return done.returncode


@pytest.mark.parametrize("act", [ACTS[0], ACTS[4]], ids=["plate", "settings"])
def test_killed_at_every_call_of_the_system_a_file_is_the_old_or_the_new(
    tmp_path: Path, act: Act
) -> None:
    if shutil.which("strace") is None:
        pytest.skip("there is no strace here")
    found: list[int] = []
    for number in range(1, MOST_CALLS):
        folder = tmp_path / str(number)
        folder.mkdir()
        act.save(folder, 1)
        status = traced(folder, act.name, number)
        found.append(act.found(folder) or 0)
        if status == 0:
            break
        if number == 1 and status not in (-9, 137):
            pytest.skip("no process may be traced here")
    assert len(found) >= 3
    assert found[0] == 1
    assert found[-1] == 2
    assert found == sorted(found)


def test_what_a_killed_writer_leaves_beside_the_file_is_hidden_and_harmless(tmp_path: Path) -> None:
    act = ACTS[0]
    act.save(tmp_path, 1)
    (tmp_path / ".a.plate-leftover").write_bytes(b"PK")
    act.save(tmp_path, 2)
    assert act.found(tmp_path) == 2
    assert [path.name for path in unfinished(tmp_path)] == [".a.plate-leftover"]
