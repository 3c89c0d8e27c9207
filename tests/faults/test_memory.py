"""Memory that ends, by a limit of the system's own: a sentence, and the open plate goes on."""

import subprocess
import sys
from pathlib import Path

import pytest
from PIL import Image
from tests.faults.people import ROOT, environment
from tests.hostile.archives import plate
from tests.hostile.pictures import pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.plate.file import PlateFile, write_plate

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="the limit is Linux's")

_READ = """
import resource, sys
from pathlib import Path
from tests.faults.short_of_memory import taken_bytes
from toneladder.errors import PictureError
from toneladder.picture.opening import open_picture
*small, large = map(Path, sys.argv[1:])
for path in small:
    open_picture(path, name=path.name)
room = taken_bytes() + 20_000_000
resource.setrlimit(resource.RLIMIT_AS, (room, resource.RLIM_INFINITY))
try:
    open_picture(large, name=large.name)
except PictureError as refused:
    print(refused)
"""
"""What reads pictures is loaded with the small one, before memory is short."""


_PLAN = """
import resource, sys
from tests.faults.short_of_memory import taken_bytes
from toneladder_desktop.app import main
words = ["plan", sys.argv[1], "--out"]
sys.stderr = sys.stdout
main([*words, f"{sys.argv[2]}/small", "--plate", "30x22"])
room = taken_bytes() + int(sys.argv[3])
resource.setrlimit(resource.RLIMIT_AS, (room, resource.RLIM_INFINITY))
print(main([*words, f"{sys.argv[2]}/large", "--plate", "900x600"]))
"""


def run(*words: object) -> str:
    """What a process of its own says."""
    done = subprocess.run(
        [sys.executable, *map(str, words)],
        cwd=ROOT,
        env=environment(QT_QPA_PLATFORM="offscreen", HOME=str(words[-1])),
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.mark.parametrize("kind", ["png", "jpeg", "tiff", "bmp"])
def test_a_whole_picture_is_not_said_to_be_damaged_where_memory_ends(
    tmp_path: Path, kind: str
) -> None:
    small, large = tmp_path / f"small.{kind}", tmp_path / f"large.{kind}"
    Image.new("L", (64, 64), 90).save(small)
    Image.new("L", (7000, 6000), 90).save(large)
    said = run("-c", _READ, small, large)
    assert said.startswith(f"There is not enough memory here to read large.{kind}")


@pytest.mark.parametrize("room", [60_000_000, 200_000_000])
def test_memory_that_ends_while_a_large_plate_is_planned_leaves_no_halves(
    tmp_path: Path, room: int
) -> None:
    Image.new("L", (900, 600), 90).save(tmp_path / "a.png")
    said = run("-c", _PLAN, tmp_path / "a.png", tmp_path, room, tmp_path)
    *_, sentence, status = said.splitlines()
    assert sentence.startswith("There is not enough memory here for this.")
    assert (status, "Traceback" in said) == ("2", False)
    assert (tmp_path / "small" / "order.pdf").exists()
    assert not (tmp_path / "large").exists()


def test_a_window_without_memory_for_a_huge_picture_says_so_and_works_on(tmp_path: Path) -> None:
    file, huge = tmp_path / "a.plate", tmp_path / "huge.png"
    curve = starting_curve(Conditions())
    write_plate(file, PlateFile(plate(), curve, pictures()["png"]))
    Image.new("L", (9000, 8000), 90).save(huge)
    before = file.read_bytes()
    said = run("-m", "tests.faults.short_of_memory", file, huge, 60_000_000, tmp_path)
    sentence, after = said.splitlines()
    assert sentence.startswith("There is not enough memory here to read huge.png")
    assert after == f"{plate().title} True"
    assert file.read_bytes() == before
