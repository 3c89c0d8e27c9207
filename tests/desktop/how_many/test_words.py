"""What the test strip says: figures, remarks, and a column in one sentence."""

from dataclasses import replace

import numpy as np
import pytest

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Standing
from toneladder.picture.values import Grid, PictureRef, PlateSize
from toneladder.plan.comparing import Costs, offer
from toneladder.plan.preparing import Prepared, seen_of
from toneladder.plate.values import Plate
from toneladder.quantities import Manner
from toneladder.tones.lattice import Lattice
from toneladder.tones.parting import step_counts
from toneladder.tones.values import ToneChoice
from toneladder_desktop.how_many.content import Content, content_of
from toneladder_desktop.how_many.layout import Row
from toneladder_desktop.how_many.words import (
    act_of,
    beside_number,
    caption_of,
    duration,
    explained,
    figure_of,
    longer_of,
    remarks_of,
    spoken,
    subtitle_of,
)
from toneladder_desktop.how_many.work import Floor, Offered, nearest_first

PLATE = Plate(
    "ramp", PictureRef("", "ramp", 256, 128, 8), PlateSize(32.0, 16.0), tones=ToneChoice(5)
)
PLAIN = Manner()
CURVE = starting_curve(PLATE.conditions)
DISTANCES = (2.46, 0.89, 0.62, 0.50, 0.39, 0.34, 0.29, 0.26, 0.24)
DAYS_MIN = (64, 124, 158, 201, 249, 282, 345, 423, 487)


def offered(count: int, *, costs: bool = True, day_min: int | None = None) -> Offered:
    """So many tones of a ramp of all greys, at a distance and with costs made up for it."""
    cells = np.tile(np.arange(256, dtype=np.uint8), (128, 1))
    counts = step_counts(cells)
    lattice = Lattice(5.0, 90.0 / 255.0, 94.0, 6.0)
    ready = Prepared(seen_of(PLATE), Grid(256, 128, 8.0), lattice, cells, cells, counts, counts, ())
    away, usual_min = DISTANCES[count - 2], DAYS_MIN[count - 2]
    day_s = 60.0 * (day_min or usual_min)
    found = replace(offer(ready, PLATE, CURVE, count), distance=away, alike=())
    some = Costs(10 * count, 5 * count, 100.0, 20.0 * count, 10.0, day_s)
    return Offered(replace(found, costs=some if costs else None))


def strip(*, costs: bool = True, manner: Manner = PLAIN) -> Content:
    content = content_of(PLATE, Standing.UNTESTED, 0.1, manner)
    for count in content.counts:
        content = content.with_answer(offered(count, costs=costs))
    return content


def test_the_plates_own_number_is_looked_at_first() -> None:
    content = content_of(PLATE, Standing.UNTESTED, 0.1, PLAIN)
    assert content.counts == tuple(range(2, 11))
    assert content.counts[content.focus] == content.own == 5
    many = replace(PLATE, tones=ToneChoice(12))
    assert content_of(many, Standing.UNTESTED, 0.1, PLAIN).counts[-1] == 12


def test_columns_go_up_to_twelve_and_never_leave_out_the_plates_own() -> None:
    content = strip()
    assert content.up_to(12).counts[-1] == content.up_to(40).counts[-1] == 12
    assert content.up_to(12).up_to(4).counts == content.counts
    assert content.up_to(12).offered[:9] == content.offered
    assert content.up_to(12).missing == (11, 12)


def test_how_many_are_enough_is_said_only_when_every_column_is_known() -> None:
    content = content_of(PLATE, Standing.UNTESTED, 0.1, PLAIN)
    for count in content.counts[:-1]:
        content = content.with_answer(offered(count, costs=False))
    assert content.enough is None
    content = content.with_answer(offered(10, costs=False))
    assert content.enough is not None
    assert content.enough.asked == 6
    assert [content.is_enough(k) for k in range(9)].index(True) == 4


def test_the_figures_of_a_column() -> None:
    content = strip()
    assert [figure_of(row, content, 4) for row in Row] == [
        "5",
        "2\u00a0h",
        "60",
        "4\u00a0h\u00a09\u00a0min",
        "0.39",
        "0.05",
    ]
    assert longer_of(content, 4) == "33\u00a0min"
    late = content.with_answer(offered(7, day_min=360))
    assert longer_of(late, 4) == "1\u00a0h\u00a051\u00a0min"
    assert longer_of(late, 4, narrow=True) == "1\u00a0h 51"
    assert figure_of(Row.GAIN, content, 8) == ""


def test_what_is_not_known_yet_is_not_said() -> None:
    content = strip(costs=False)
    assert figure_of(Row.STEPS, content, 4) == "5"
    assert figure_of(Row.DISTANCE, content, 4) == "0.39"
    for row in (Row.PAINTING, Row.PLACES, Row.DAY):
        assert figure_of(row, content, 4) == "…"
    assert longer_of(content, 4) == "…"
    empty = content_of(PLATE, Standing.UNTESTED, 0.1, PLAIN)
    assert figure_of(Row.STEPS, empty, 4) == "…"
    assert spoken(empty, 4) == "6 tones: being worked out."
    assert act_of(empty) == "Take 5 tones"


@pytest.mark.parametrize(
    ("minutes", "written", "short"),
    [
        (0.2, "0\u00a0min", "0\u00a0min"),
        (59.4, "59\u00a0min", "59\u00a0min"),
        (59.6, "1\u00a0h", "1\u00a0h"),
        (61.0, "1\u00a0h\u00a01\u00a0min", "1\u00a0h 01"),
        (604.0, "10\u00a0h\u00a04\u00a0min", "10\u00a0h 04"),
        (6061.0, "101\u00a0h", "101\u00a0h"),
    ],
)
def test_a_stretch_of_the_day_is_hours_and_minutes(
    minutes: float, written: str, short: str
) -> None:
    assert duration(minutes) == written
    assert duration(minutes, narrow=True) == short


def test_a_column_is_read_as_one_sentence() -> None:
    assert spoken(strip(), 4) == (
        "6 tones: 5 steps, painting 2\u00a0h, 60 places to stop out, "
        "whole day 4\u00a0h\u00a09\u00a0min, "
        "0.39 of darkness from the picture. Enough for this picture."
    )
    assert spoken(strip(), 3).endswith("The plate has so many now.")


def test_what_speaks_against_a_number_is_said() -> None:
    content = strip()
    known = content.offered[6]
    assert known is not None
    assert known.offer.costs is not None
    costs = replace(known.offer.costs, most_places=151)
    worse = replace(known.offer, asked=8, alike=(3,), costs=costs)
    fewer = content.offer(5)
    assert fewer is not None
    worse = replace(worse, chosen=fewer.chosen)
    content = content.with_answer(Offered(worse)).focused(6)
    said = ["there is room for 7 only", "tones 3 and 4 print alike"]
    said.append("151 places in one step are hard to paint")
    assert remarks_of(content, 6) == said
    assert caption_of(content) == ("8 tones, whole picture", " · ".join(said))
    assert beside_number(content, 6) == ("≈", "")
    assert beside_number(content, 3) == ("", "now")
    assert act_of(content) == "Take 7 tones"
    assert content.hard
    assert not strip().hard


def test_enough_is_explained_and_the_brush_has_its_floor() -> None:
    content = strip(manner=Manner(decimal=","))
    assert "less than 0,1 of darkness" in explained(content)
    assert "brush" not in explained(content)
    assert "keeps the print 0,11 away" in explained(content.with_answer(Floor(0.1149)))
    assert "brush" not in explained(content.with_answer(Floor(0.004)))


def test_the_bath_is_said_once_if_it_is_the_same_for_all() -> None:
    same = strip()
    assert "in the bath with any of them. Starting points, untested." in subtitle_of(same)
    first = same.offered[0]
    assert first is not None
    other = same.with_answer(Offered(replace(first.offer, bath_s=first.offer.bath_s / 2.0)))
    assert " to " in subtitle_of(other).split("print. ")[1]
    assert "untested" not in subtitle_of(replace(same, standing=Standing.STRIP))


def test_the_columns_nearest_to_the_plates_own_come_first() -> None:
    assert nearest_first((2, 3, 4, 5, 6, 7), 5) == (5, 4, 6, 3, 7, 2)
