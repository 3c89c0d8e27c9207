"""From a plan to what the ladder shows: holds, remarks, what prints alike."""

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from toneladder.bite.values import Standing
from toneladder.optics import lightness, linear_from_srgb
from toneladder.tones.values import Choice
from toneladder_desktop.ladder.content import Content, Peg, Remark, Side
from toneladder_desktop.ladder.making import content_of
from toneladder_desktop.ladder.words import letting_all_go, standing_of

if TYPE_CHECKING:
    from tests.desktop.conftest import Worked


def content(worked: "Worked", *, whole: bool = True) -> Content:
    plan = worked.plan if whole else None
    return content_of(worked.plate, worked.prepared, worked.chosen, plan, worked.curve)


def test_every_peg_follows_until_it_is_held(worked: "Worked") -> None:
    shown = content(worked)
    assert (shown.count, shown.held) == (6, 0)
    level = shown.partings[1].lightness - 1.0
    held = content(worked.with_tones(held_partings=(level,), held_bites=((3, 200.0),)))
    assert held.is_held(Peg(Side.PARTING, 2))
    assert held.partings[1].lightness == pytest.approx(level)
    assert held.is_held(Peg(Side.BITE, 3))
    assert held.held == 2


def test_what_is_held_and_finds_no_place_is_counted(worked: "Worked") -> None:
    level = content(worked).partings[1].lightness - 1.0
    few = content(worked.with_tones(count=3, held_partings=(level, 99.9), held_bites=((5, 400.0),)))
    assert few.set_aside == 3 - few.held > 0
    assert standing_of(few).endswith(f"{few.set_aside} set aside")
    assert content(worked).set_aside == 0
    assert letting_all_go(few)


def test_a_bite_keeps_its_asked_number_when_tones_are_joined(worked: "Worked") -> None:
    many = worked.with_tones(count=12, gap_lightness=0.0)
    shown = content(many)
    joined = many.chosen.parted.joined
    asked = [rung.asked for rung in shown.rungs]
    assert asked == [k for k in range(shown.count + len(joined)) if k not in joined]


def test_places_and_minutes_are_those_of_the_plan_or_left_open(worked: "Worked") -> None:
    known, open_ = content(worked), content(worked, whole=False)
    steps = worked.plan.order.steps
    assert [rung.places for rung in known.rungs[1:]] == [s.painting.places for s in steps]
    assert all(rung.places is None and rung.minutes is None for rung in open_.rungs)


def test_a_plan_of_other_tones_tells_no_places(worked: "Worked") -> None:
    other = worked.with_tones(choice=Choice.EVEN)
    shown = content_of(worked.plate, worked.prepared, worked.chosen, other.plan, worked.curve)
    assert all(rung.places is None for rung in shown.rungs)


def test_a_tone_whose_band_reaches_its_neighbour_prints_alike(worked: "Worked") -> None:
    assert content(worked).alike == ()
    wide = replace(worked.curve, high=tuple(x + 30.0 for x in worked.curve.lightness))
    chosen = type(worked)(worked.plate, worked.prepared, wide).chosen
    shown = content_of(worked.plate, worked.prepared, chosen, None, wide)
    assert shown.alike == tuple(range(5))


def test_without_a_strip_overlapping_doubt_is_no_sign(worked: "Worked") -> None:
    wide = replace(
        worked.curve,
        standing=Standing.UNTESTED,
        high=tuple(x + 30.0 for x in worked.curve.lightness),
    )
    chosen = type(worked)(worked.plate, worked.prepared, wide).chosen
    shown = content_of(worked.plate, worked.prepared, chosen, None, wide)
    assert shown.untested
    assert shown.alike == ()


def test_a_tone_held_light_prints_lighter_than_its_place(worked: "Worked") -> None:
    even = worked.with_tones(choice=Choice.EVEN)
    levels = [p.lightness for p in content(even).partings]
    crossed = even.with_tones(
        held_partings=tuple(levels), held_bites=((1, 15.0), (2, 30.0), (3, 45.0))
    )
    remarks = [rung.remarks for rung in content(crossed).rungs]
    assert Remark.LIGHTER in remarks[3]
    assert Remark.LIGHTER not in remarks[5]


def test_past_the_longest_tested_bite_nobody_knows(worked: "Worked") -> None:
    long = worked.with_tones(held_bites=((5, worked.curve.longest_tested_s + 300.0),))
    shown = content(long)
    assert Remark.UNTESTED in shown.rungs[5].remarks
    assert shown.end_s > shown.rungs[5].tone.total_bite_s > shown.tested_s


def test_a_tone_without_area_says_so(worked: "Worked") -> None:
    chosen = worked.chosen
    bare = replace(chosen.ladder.tones[0], share=0.0)
    ladder = replace(chosen.ladder, tones=(bare, *chosen.ladder.tones[1:]))
    shown = content_of(
        worked.plate, worked.prepared, replace(chosen, ladder=ladder), None, worked.curve
    )
    assert Remark.EMPTY in shown.rungs[0].remarks


def test_the_histogram_lies_between_paper_and_deepest(worked: "Worked") -> None:
    shown = content(worked)
    assert max(shown.histogram) == pytest.approx(1.0)
    filled = [k for k, share in enumerate(shown.histogram) if share > 0.0]
    assert min(filled) >= int(100.0 - shown.paper)
    assert max(filled) <= int(100.0 - shown.deepest)


def test_swatches_are_as_light_as_they_print(worked: "Worked") -> None:
    shown = content(worked)
    for rung, colour in zip(shown.rungs, shown.swatches, strict=True):
        red, green, blue = (linear_from_srgb(b / 255.0) for b in bytes.fromhex(colour[1:]))
        # luminance of linear sRGB: IEC 61966-2-1
        seen = float(lightness(0.2126 * red + 0.7152 * green + 0.0722 * blue))
        assert seen == pytest.approx(rung.tone.lightness, abs=0.5)
