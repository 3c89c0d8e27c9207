"""The whole job of a plate on a real screen: by keys alone, and by a screen reader's acts alone."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from tests.bench.pictures import photograph
from tests.driven.desk import Desk, lacking
from tests.driven.evidence import tone_at, without_notes
from tests.driven.job import NOTED_MM, TONES, Job

from toneladder.plate.file import read_plate
from toneladder.tones.values import Wish

pytestmark = pytest.mark.skipif(bool(lacking()), reason=lacking() or "everything is here")


@pytest.mark.parametrize("keys", [True, False], ids=["keys", "screen reader"])
def test_a_plate_is_made_from_photograph_to_proof(tmp_path: Path, keys: bool) -> None:
    photo = photograph(tmp_path, 0.5).rename(tmp_path / "hill.jpg")
    with Desk() as desk:
        job = Job(desk, photo, keys=keys)
        for _, act in job.acts():
            act()
        made, opened = read_plate(job.plate), read_plate(job.again)
        pages = len(PdfReader(job.pdf).pages)
    assert opened.plate == made.plate
    assert opened.curve == made.curve
    assert opened.picture == photo.read_bytes()
    plate = made.plate
    assert (plate.size.width_mm, plate.size.height_mm) == (90.0, 60.0)
    assert plate.tones.count == TONES
    assert len(plate.tones.held_partings) == 1
    (note,) = plate.notes
    assert (note.wish, note.rungs) == (Wish.RUNGS, -1)
    assert tone_at(made, NOTED_MM) == tone_at(without_notes(made), NOTED_MM) - 1
    assert len(plate.evidence.strips) == 1
    assert len(plate.given_s) == TONES
    assert list(plate.given_s) == sorted(plate.given_s)
    assert pages == 1 + TONES - 1
