"""A writer that is killed has kept everything it had said to be kept."""

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="writers are forked")
def test_nothing_is_lost_when_the_writer_is_killed() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "tests.core.book.killed", "40"],
        cwd=ROOT,
        env=os.environ | {"PYTHONPATH": f"{ROOT / 'core'}{os.pathsep}{ROOT}"},
        check=True,
        capture_output=True,
        text=True,
    )
    found = re.fullmatch(r"killed 40 times: (\d+) acts done, none lost; \d+ untold\n", done.stdout)
    assert found, done.stdout
    assert int(found[1]) > 40
