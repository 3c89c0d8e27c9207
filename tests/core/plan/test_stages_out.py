"""Lines and second grain in what goes out: the preview, order.json, pictures."""

import json
from dataclasses import replace
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from toneladder.lines.values import Lines
from toneladder.order.values import SecondGrain
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.export import lines_png, order_json, tones_png
from toneladder.plan.planning import Plan, plan
from toneladder.plan.previewing import preview_of, printed_after
from toneladder.plate.values import Plate


def drawn(lines: Lines | None, second: SecondGrain | None = None) -> Plan:
    """Paper, grey and dark fields side by side, with an upright line across each."""
    grey = np.full((240, 360), 235, np.uint8)
    grey[:, 120:] = 140
    grey[:, 240:] = 70
    for x in (60, 180, 300):
        grey[20:220, x : x + 3] = 10
    file = BytesIO()
    Image.fromarray(grey).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="fields.png")
    plate = Plate("Fields", picture.ref, PlateSize(45.0, 30.0), lines=lines, second_grain=second)
    return plan(picture, plate)


@pytest.fixture(scope="module")
def with_both() -> Plan:
    return drawn(Lines(depths=2), SecondGrain(darkest=1))


@pytest.fixture(scope="module")
def bare() -> Plan:
    return drawn(None)


def test_lines_print_black_whatever_lies_round_them(with_both: Plan) -> None:
    for step in (0, 1, None):
        print_ = preview_of(with_both, step=step, margins=False).astype(int)
        for x in (61, 181, 301):
            assert print_[120, x].max() < 60
    # before the first bite everything else is white
    first = preview_of(with_both, step=0, margins=False).astype(int)
    assert first[120, 330].min() > 180


def test_a_line_thinner_than_a_cell_prints_lighter_than_a_wide_one() -> None:
    grey = np.full((240, 360), 235.0)
    grey[20:220, 100:104] = 10
    # half a cell of ink, as a scanner sees it in linear light
    light = (235 / 255) ** 2.2 / 2
    grey[20:220, 200] = 255 * light ** (1 / 2.2)
    file = BytesIO()
    Image.fromarray(np.rint(grey).astype(np.uint8)).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="fine.png")
    plate = Plate("Fine", picture.ref, PlateSize(45.0, 30.0), lines=Lines())
    print_ = preview_of(plan(picture, plate), step=0, margins=False).astype(int)
    fine, wide, paper = (print_[120, x].mean() for x in (200, 102, 300))
    assert wide + 40 < fine < paper - 20


def test_the_finished_print_has_the_second_grain_and_no_step_has(with_both: Plan) -> None:
    order = with_both.order
    assert order.second_grain is not None
    (deepest,) = order.second_grain.tones
    assert printed_after(order)[-1] == deepest.lightness
    assert printed_after(order)[:-1] == tuple(tone.lightness for tone in order.tones[:-1])
    last = printed_after(order, len(order.steps))
    assert last == tuple(tone.lightness for tone in order.tones)


def test_the_tones_picture_never_holds_lines(with_both: Plan, bare: Plan) -> None:
    tones = np.asarray(Image.open(BytesIO(tones_png(with_both))))
    assert not tones[:, :110].any()
    assert lines_png(bare) is None
    found = lines_png(with_both)
    assert found is not None
    with Image.open(BytesIO(found)) as lines:
        assert (lines.mode, lines.size) == ("L", (360, 240))
        assert lines.info["dpi"] == pytest.approx((8.0 * 25.4,) * 2, abs=0.05)
        depths = np.asarray(lines)
    assert set(np.unique(depths)) <= {0, 1, 2}
    assert (depths[40:200, 61] > 0).all()
    assert not depths[:, 70:170].any()


def test_order_json_has_their_keys_only_where_there_is_something(
    with_both: Plan, bare: Plan
) -> None:
    told = json.loads(order_json(with_both))
    assert list(told) == [
        "format",
        "plate",
        "conditions",
        "asked_tones",
        "tones",
        "steps",
        "line_steps",
        "second_grain",
        "cautions",
        "warnings",
    ]
    assert [step["stop_out"] for step in told["line_steps"]] == [[], [1]]
    assert [step["total_bite_s"] for step in told["line_steps"]] == [1800.0, 3600.0]
    last = told["tones"][-1]["tone"]
    assert [tone["tone"] for tone in told["second_grain"]["tones"]] == [last]
    assert told["second_grain"]["steps"][0]["stop_out"] == list(range(last))
    plain = json.loads(order_json(bare))
    assert "line_steps" not in plain
    assert "second_grain" not in plain


def test_the_second_grain_changes_nothing_of_the_first(with_both: Plan) -> None:
    lines = with_both.plate.lines
    alone = drawn(lines)
    assert alone.order.tones == with_both.order.tones
    assert alone.order.steps == with_both.order.steps
    assert replace(with_both.plate, second_grain=None) == alone.plate
