"""What is kept of a plate and of a proof, from what the window knows of them."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from tests.desktop.book.conftest import reading_of

from toneladder.plate.identity import identity_of
from toneladder.plate.values import Plate
from toneladder.preview.values import InkAndPaper
from toneladder.proof.values import ToneReading
from toneladder_desktop.bench.bench import Lying
from toneladder_desktop.book.entry import entry_of, proof_of


@pytest.fixture
def plate(lying: Lying) -> Plate:
    return lying.plate


def test_the_entry_says_what_a_search_should_find(plate: Plate) -> None:
    named = replace(plate, bath="Tall tank", title="  Hill \n at dusk ", grained_on="2026-03-08")
    entry = entry_of(named, 5, Path("/plates/hill.plate"), 1.5)
    assert (entry.title, entry.bath, entry.tones) == ("Hill at dusk", "Tall tank", 5)
    for words in ("ferric chloride", "rosin", "2026-03-08", plate.picture.name):
        assert words in entry.record


def test_a_plate_keeps_its_identity_whatever_becomes_of_its_title(plate: Plate) -> None:
    other = replace(plate, title="Another title")
    one, two = (entry_of(each, 5, Path("a.plate"), 1.0) for each in (plate, other))
    assert one.identity == two.identity == identity_of(plate)
    assert Path(one.path).is_absolute()


def test_an_ink_without_a_name_is_left_out(plate: Plate) -> None:
    odd = replace(plate, printing=InkAndPaper(ink="#123456"))
    assert entry_of(odd, 5, Path("a.plate"), 1.0).ink == ""


def test_a_proofs_miss_is_the_root_mean_square_of_its_tones() -> None:
    # 3 too light, 4 too dark: the root of (9 + 16) / 2
    tones = (
        ToneReading(1, 80.0, 83.0, 0.5, 100, 82.0, 84.0),
        ToneReading(2, 50.0, 46.0, 0.5, 100, 45.0, 47.0),
    )
    kept = proof_of(reading_of(*tones), "2026-03-16", Path("/scans/hill.tif"))
    assert kept.miss == pytest.approx(12.5**0.5)
    assert kept.scan == "/scans/hill.tif"
    assert [tone["printed_lightness"] for tone in json.loads(kept.reading)["tones"]] == [83.0, 46.0]
