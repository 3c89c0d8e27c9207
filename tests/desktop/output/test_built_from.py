"""The program says what it was built from."""

import json
import subprocess
import sys
from pathlib import Path

from toneladder_desktop.output.built_from import RECORD, built_from


def test_a_bundle_names_its_commit_and_day(tmp_path: Path) -> None:
    record = tmp_path / "built_from.json"
    known = {"version": "1.2.3", "commit": "abcdef0", "day": "2026-11-25"}
    record.write_text(json.dumps(known), encoding="utf-8")
    assert built_from(record) == "1.2.3, built from abcdef0 of 2026-11-25"


def test_there_is_no_record_outside_a_bundle() -> None:
    assert not RECORD.exists()


def test_a_wheel_says_its_version_and_the_source_folder_that_it_is_one() -> None:
    said = built_from()
    from_source = "site-packages" not in RECORD.parts
    assert said == "from the source folder" if from_source else said[0].isdigit()


def test_the_command_says_it_too() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "toneladder_desktop.app", "--version"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert done.stdout.strip() == built_from()
