"""Damaged input of every kind is used or refused in a sentence; findings of long runs stay here."""

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from tests.hostile import parsers
from tests.hostile.archives import plate, record
from tests.hostile.guarding import Guard, OutsideError
from tests.hostile.kinds import KINDS
from tests.hostile.long import _environment

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.errors import ToneLadderError
from toneladder.plate.record import read_record, write_record
from toneladder.strip.limits import LONGEST_LINE, MOST_PATCHES, faults
from toneladder_desktop.strip.draft import Draft

ROOT = Path(__file__).parents[2]
INPUTS = 1_500

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="limits are those of Linux")


def test_a_seeded_run_over_all_kinds_finds_no_fault() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.hostile.long", "--inputs", str(INPUTS), "--seed", "2"],
        cwd=ROOT,
        env=_environment(),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-4000:] + done.stderr[-2000:]
    found = {
        name: (int(taken), int(refused))
        for name, taken, refused in re.findall(
            r"(\w+) +\d+ inputs +(\d+) taken +(\d+) refused", done.stdout
        )
    }
    assert sum(taken + refused for taken, refused in found.values()) >= INPUTS
    assert found.keys() == {kind.name for kind in KINDS}
    for name in ("picture", "plate", "record", "strip", "bath", "events", "book"):
        assert min(found[name]) > 0, name  # both ways of being taken were gone


def test_the_guard_sees_what_it_must_see(tmp_path: Path) -> None:
    asked = """
import os, socket, subprocess, sys
from pathlib import Path
from tests.hostile.guarding import Guard, OutsideError
guard, folder = Guard(), Path(os.path.realpath(sys.argv[1]))
(folder / "in").mkdir()
acts = (
    lambda: (folder / "out").write_text("x"),
    lambda: (folder / "in").rename(folder / "other"),
    lambda: subprocess.run(["true"]),
    lambda: os.system("true"),
    lambda: socket.socket(),
    lambda: os.remove(folder / "nothing"),
)
for act in acts:
    with guard.watching(folder / "in"):
        (folder / "in" / "file").write_text("x")
        try:
            act()
        except OutsideError:
            continue
    sys.exit("unseen")
"""
    subprocess.run(
        [sys.executable, "-c", asked, str(tmp_path)], cwd=ROOT, env=_environment(), check=True
    )
    assert [path.name for path in tmp_path.iterdir()] == ["in"]
    assert issubclass(OutsideError, BaseException)
    assert not issubclass(OutsideError, Exception)
    assert Guard.__doc__


@pytest.mark.parametrize("start", ["30x", "24:00", "9:30", "09:60", "-1:00", "", "٠٩:٣٠"])
def test_a_start_of_work_that_is_no_time_is_refused(start: str) -> None:
    text = record().replace('"09:30"', f'"{start}"')
    with pytest.raises(ToneLadderError, match="no time of day"):
        read_record(text)


def test_the_usual_record_is_whole() -> None:
    assert read_record(write_record(plate(), starting_curve(Conditions()))).plate == plate()


@pytest.mark.parametrize("parser", [parsers.record, parsers.strip, parsers.bath, parsers.begun])
@pytest.mark.parametrize(
    "text",
    ["[" * 100_000, '{"format":' * 50_000, '{"format": 1e999}', '{"format": ' + "9" * 5_000 + "}",
     '"\\ud800"', "NaN", "\ufeff{}", "{}\0", ""],
    ids=range(9),
)  # fmt: skip
def test_texts_that_broke_readers_elsewhere_are_refused(
    parser: Callable[[bytes], None], text: str
) -> None:
    parser(text.encode("utf-8", "surrogatepass"))


def test_a_pasted_piece_is_as_long_as_any_strip_may_be_and_no_longer() -> None:
    draft = Draft(Conditions(), ()).pasted("1:00\t50\n" * 300_000, 0, 0)
    assert len(draft.rows) == MOST_PATCHES + 1
    assert Draft(Conditions(), ()).pasted("9" * 5_000_000, 0, 0).rows[0].bite == "9" * LONGEST_LINE
    strip = draft.strip()
    assert strip is not None
    assert any("patches" in fault for fault in faults(strip))
