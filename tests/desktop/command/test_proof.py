"""A plate is planned, its print is scanned, and the proof is read from the command line."""

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image
from skimage import data
from tests.core.proof.drawing import Array, Look, draw

from toneladder.picture.opening import open_picture
from toneladder.plan.planning import Plan, plan
from toneladder.plate.file import read_plate
from toneladder.strip.file import read_strip
from toneladder_desktop.app import main

LOOK = Look(dpi=150.0, turn=2.0, scale=0.97, shift=(3.0, -4.0), margin=18.0, gradient=0.08)


@pytest.fixture(scope="module")
def plate(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("plate")
    picture = folder / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    words = ["--plate", "90x70mm", "--tones", "4", "--temperature", "19C"]
    assert main(["plan", str(picture), "--out", str(folder / "out"), *words]) == 0
    return next((folder / "out").glob("*.plate"))


@pytest.fixture(scope="module")
def planned(plate: Path) -> Plan:
    content = read_plate(plate)
    return plan(open_picture(content.picture, name="coins"), content.plate, content.curve)


def printed_by(planned: Plan) -> Array:
    """Darker and lighter than planned by turns."""
    wanted = np.array([tone.lightness for tone in planned.order.tones])
    return np.asarray(wanted + np.resize([0.0, -6.0, 5.0], len(wanted)))


@pytest.fixture(scope="module")
def scan(planned: Plan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("scan") / "proof.png"
    px = planned.prepared.grid.px_per_mm
    path.write_bytes(draw(planned.tones, printed_by(planned), px, LOOK).data)
    return path


def read_json(capsys: pytest.CaptureFixture[str], *words: str) -> dict[str, Any]:
    capsys.readouterr()
    assert main(["proof", "read", *words, "--json"]) == 0
    tree: dict[str, Any] = json.loads(capsys.readouterr().out)
    return tree


def test_every_tone_is_read_and_the_print_is_laid(
    plate: Path, planned: Plan, scan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    tree = read_json(capsys, str(plate), str(scan), "--paper", "94")
    printed = printed_by(planned)
    assert [tone["tone"] for tone in tree["tones"]] == list(range(len(printed)))
    for tone, truth, order in zip(tree["tones"], printed, planned.order.tones, strict=True):
        assert tone["printed_lightness"] == pytest.approx(truth, abs=0.8)
        assert tone["planned_lightness"] == pytest.approx(order.lightness, abs=0.01)
        assert tone["cells"] >= 50
        assert tone["spread"] > 0.0
    laid = tree["registration"]
    assert laid["rotation_deg"] == pytest.approx(2.0, abs=0.05)
    assert laid["scale"] == pytest.approx(0.97, abs=0.002)
    assert laid["shift_mm"] == pytest.approx([3.0 / 0.97, -4.0 / 0.97], abs=0.15)
    assert laid["residual_mm"] < 0.3


def test_without_json_it_is_read_by_a_person_in_darkness(
    plate: Path, scan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert main(["proof", "read", str(plate), str(scan)]) == 0
    out = capsys.readouterr().out
    assert "0.6 darker" in out
    assert "0.5 lighter" in out
    assert "Burnish these first" in out
    assert "new grain" in out


def test_accepted_without_a_strip_the_proof_is_one_the_white_included(
    plate: Path, scan: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "new.strip"
    words = ["--bites", "0:20,1:10,4:00", "--temperature", "23C", "--accept", str(out)]
    tree = read_json(capsys, str(plate), str(scan), *words)
    strip = read_strip(out)
    assert [patch.total_bite_s for patch in strip.patches] == [0.0, 20.0, 70.0, 240.0]
    read = [tone["printed_lightness"] for tone in tree["tones"]]
    assert [patch.lightness for patch in strip.patches] == read
    assert strip.conditions.temperature_c == 23.0


def test_accepted_with_a_strip_the_proof_is_added_to_it(
    scan: Path, planned: Plan, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    readings = tmp_path / "readings.csv"
    readings.write_text("total_bite,lightness\n0,90\n0:30,75\n2:00,52\n8:00,30\n", "utf-8")
    strip = tmp_path / "old.strip"
    assert main(["strip", "fit", str(readings), "--out", str(strip)]) == 0
    picture = tmp_path / "coins.png"
    Image.fromarray(data.coins()).save(picture)
    words = ["--plate", "90x70mm", "--tones", "4", "--strip", str(strip)]
    assert main(["plan", str(picture), "--out", str(tmp_path / "out"), *words]) == 0
    plate = next((tmp_path / "out").glob("*.plate"))
    out = tmp_path / "new.strip"
    read_json(capsys, str(plate), str(scan), "--accept", str(out))
    old, new = read_strip(strip), read_strip(out)
    assert new.patches == old.patches
    (proof,) = new.proofs
    assert proof.proof
    assert len(proof.patches) == len(planned.order.tones)


def test_an_older_strip_stays_unless_replacing_is_asked_for(
    plate: Path, scan: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "new.strip"
    out.write_text("mine", encoding="utf-8")
    assert main(["proof", "read", str(plate), str(scan), "--accept", str(out)]) != 0
    assert "--replace" in capsys.readouterr().err
    assert out.read_text(encoding="utf-8") == "mine"


def test_bites_that_do_not_go_with_the_tones_are_refused(
    plate: Path, scan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["proof", "read", str(plate), str(scan), "--bites", "0:20,1:10"]) != 0
    assert "2 bites were given and the plate has 4 tones" in capsys.readouterr().err


@pytest.mark.parametrize("what", ["cat", "blank"])
def test_a_picture_of_something_else_is_refused_and_nothing_is_written(
    plate: Path, tmp_path: Path, what: str, capsys: pytest.CaptureFixture[str]
) -> None:
    other = tmp_path / "other.png"
    picture = data.chelsea() if what == "cat" else np.full((300, 400), 240, np.uint8)
    Image.fromarray(picture).save(other)
    before = plate.read_bytes()
    out = tmp_path / "new.strip"
    assert main(["proof", "read", str(plate), str(other), "--accept", str(out)]) != 0
    assert "does not look like this plate" in capsys.readouterr().err
    assert not out.exists()
    assert plate.read_bytes() == before


def test_a_second_pull_tells_wiping_from_the_plate(
    plate: Path, planned: Plan, scan: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    printed = printed_by(planned)
    printed[2] -= 7.0
    second = tmp_path / "second.png"
    px = planned.prepared.grid.px_per_mm
    second.write_bytes(draw(planned.tones, printed, px, LOOK, seed=2).data)
    tree = read_json(capsys, str(plate), str(scan), "--second-pull", str(second))
    said = " ".join(tree["sentences"])
    assert "Not the same in both pulls: tone 2." in said
    assert "Off the plan in both pulls alike: tone 1." in said
