"""A strip's file: what goes in comes out, and a bad one is refused with every fault."""

import json
import os
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from toneladder.bite.values import Conditions, Fineness, GrainKind, Metal, Mordant, Movement
from toneladder.errors import OutputError, StripError
from toneladder.strip.file import read_strip, strip_from, strip_text, write_strip
from toneladder.strip.values import Dryness, Means, Patch, Strip, Vessel, Wiping

STRIP = Strip(Conditions(), (Patch(0.0, 91.0), Patch(15.0, 82.5, 0.8), Patch(960.0, 19.0)))

STRIPS = st.builds(
    Strip,
    st.builds(
        Conditions,
        metal=st.just(Metal.ZINC),
        mordant=st.sampled_from([Mordant.NITRIC_ACID, Mordant.OTHER]),
        grain=st.sampled_from(GrainKind),
        fineness=st.sampled_from(Fineness),
        movement=st.sampled_from(Movement),
        temperature_c=st.floats(0, 60),
        strength=st.text(max_size=20),
    ),
    st.lists(
        st.builds(Patch, st.floats(0, 3600), st.floats(0, 100), st.floats(0, 30)),
        min_size=1,
        max_size=16,
    ).map(tuple),
    dryness=st.sampled_from(Dryness),
    means=st.sampled_from(Means),
    bitten_on=st.just("") | st.dates().map(str),
    grained_on=st.just("") | st.dates().map(str),
    pull=st.integers(1, 30),
    vessel=st.sampled_from(Vessel),
    wiping=st.sampled_from(Wiping),
    ink=st.text(max_size=40),
    plates_before=st.none() | st.integers(0, 500),
    note=st.text(max_size=200),
)


@given(STRIPS)
def test_save_then_open_gives_an_equal_strip(strip: Strip) -> None:
    assert strip_from(strip_text(strip), "a.strip") == strip


def test_the_file_is_readable_json_with_its_format_first(tmp_path: Path) -> None:
    path = tmp_path / "a.strip"
    write_strip(path, STRIP)
    tree = json.loads(path.read_text(encoding="utf-8"))
    assert next(iter(tree)) == "format"
    assert tree["format"] == 1
    assert tree["conditions"]["metal"] == "copper"
    assert tree["conditions"]["temperature_c"] == 20.0
    assert tree["patches"][1] == {"total_bite_s": 15.0, "lightness": 82.5, "spread": 0.8}
    assert read_strip(path) == STRIP


def test_a_strip_written_by_hand_may_leave_out_what_it_does_not_know() -> None:
    strip = strip_from(
        '{"format": 1, "conditions": {"metal": "zinc", "mordant": "nitric acid", "grain": "rosin",'
        ' "temperature_c": 18}, "patches": [{"total_bite_s": 30, "lightness": 70}]}',
        "by hand",
    )
    assert strip.conditions.temperature_c == 18.0
    assert strip.patches == (Patch(30.0, 70.0),)


def test_a_mark_at_the_start_of_the_file_does_no_harm(tmp_path: Path) -> None:
    path = tmp_path / "marked.strip"
    path.write_bytes(b"\xef\xbb\xbf" + strip_text(STRIP).encode())
    assert read_strip(path) == STRIP


def test_every_fault_is_listed_at_once() -> None:
    tree = json.loads(strip_text(STRIP))
    tree["patches"][0]["lightness"] = 130
    tree["patches"][1]["total_bite_s"] = -3
    tree["conditions"]["temperature_c"] = 99
    tree["bitten_on"] = "yesterday"
    tree["patches"][2]["spred"] = 1
    with pytest.raises(StripError) as caught:
        strip_from(json.dumps(tree), "a.strip")
    for word in (
        "lightness of patch 1 is 130",
        "bite of patch 2 is -3",
        "bath temperature is 99",
        "day of biting is no date",
        "“patches.2.spred” is not known",
        "left as it is",
    ):
        assert word in str(caught.value)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"format": 99}, "later version"),
        ({"format": 0}, "format is 0"),
        ({"format": None}, "format"),
        ({"patches": []}, "number of patches is 0"),
        ({"patches": [{"total_bite_s": 1}]}, "patches.0.lightness"),
        ({"patches": [{"total_bite_s": "1 min", "lightness": 5}]}, "patches.0.total_bite_s"),
        ({"conditions": {"metal": "zinc", "mordant": "ferric chloride"}}, "Zinc must not"),
        ({"conditions": {"metal": "gold"}}, "conditions.metal"),
        ({"pull": 0}, "number of the pull"),
        ({"plates_before": -1}, "plates before"),
        ({"note": "x" * 30_000}, "longer than"),
        ({"bitten_on": "20260315"}, "no date"),
    ],
)
def test_what_cannot_be_a_strip_is_refused(change: dict[str, object], words: str) -> None:
    tree = json.loads(strip_text(STRIP)) | change
    with pytest.raises(StripError, match=words):
        strip_from(json.dumps(tree), "a.strip")


def test_files_that_are_no_strips_are_refused_with_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "a.strip"
    for data, words in ((b"", "no JSON"), (b"\xff\xfe\x00", "not text"), (b"{}", "patches")):
        path.write_bytes(data)
        with pytest.raises(StripError, match=words):
            read_strip(path)
    for nowhere in (tmp_path / "none.strip", tmp_path):
        with pytest.raises(StripError, match="cannot be opened"):
            read_strip(nowhere)
    path.write_bytes(b" " * 2_000_000)
    with pytest.raises(StripError, match="far too long"):
        read_strip(path)


def test_an_older_file_stays_when_the_new_one_cannot_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "a.strip"
    write_strip(path, STRIP)
    before = path.read_bytes()

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OutputError, match="could not be written"):
        write_strip(path, replace(STRIP, note="new"))
    assert path.read_bytes() == before
    assert [one.name for one in tmp_path.iterdir()] == ["a.strip"]


def test_a_strip_that_nobody_could_read_again_is_not_written(tmp_path: Path) -> None:
    with pytest.raises(StripError, match="lightness of patch 1"):
        write_strip(tmp_path / "a.strip", replace(STRIP, patches=(Patch(0.0, 101.0),)))
    assert list(tmp_path.iterdir()) == []
