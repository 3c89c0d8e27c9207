"""The words of the sheet are the trade's, and their numbers are true."""

from dataclasses import replace
from datetime import date

import pytest

from toneladder.bite.values import Conditions, Standing
from toneladder.order.values import Order, Step, Tone
from toneladder.picture.values import PlateSize
from toneladder.sheets.order_words import (
    conditions_words,
    doubt,
    in_dips,
    likely_bite,
    painting_lines,
    standing_words,
    stopped_out,
    written_date,
)
from toneladder.tones.values import Painting

TONES = tuple(Tone(tone, 50.0, 50.0, 38.0, 62.0, 60.0 * tone, 0.3) for tone in range(4))
FIRST = Step(1, (0,), 35.0, 35.0, Painting(12.0, 3, 40.0), 23.0, 10.0, (35.0,), 0.0, 20.0, 55.0)
SECOND = replace(FIRST, step=2, stop_out=(1,), painting=Painting(3.0, 1, 4.0), paint_min=4.2)
ORDER = Order(4, TONES, (FIRST, SECOND), (), (), (), (), ())


def plain(text: str) -> str:
    return " ".join(text.split())


def with_share(share: float, tone: int) -> Order:
    tones = tuple(replace(it, share=share) if it.tone == tone else it for it in TONES)
    return replace(ORDER, tones=tones)


def test_the_date_is_written_with_its_month_as_a_word() -> None:
    assert written_date(date(2026, 3, 16)) == "16 March 2026"


@pytest.mark.parametrize(
    ("shortest", "longest", "said"),
    [
        (20.0, 55.0, "perhaps 20 – 55 s"),
        (31.0, 78.0, "perhaps 30 – 80 s"),
        (92.0, 239.0, "perhaps 1½ – 4 min"),
        (430.0, 1070.0, "perhaps 7 – 18 min"),
        (7.2, 160.0, "perhaps 7 s – 2¾ min"),
        (3000.0, 6000.0, "perhaps 50 – 100 min"),
        (0.4, 10.0, "perhaps 1 – 10 s"),
        (3.2, 74.0, "perhaps 3 – 75 s"),
    ],
)
def test_a_range_has_its_unit_and_is_rounded_outwards(
    shortest: float, longest: float, said: str
) -> None:
    step = replace(FIRST, shortest_s=shortest, longest_s=longest)
    bites = likely_bite(step)
    assert bites is not None
    assert bites[0] <= max(shortest, 1.0)
    assert bites[1] >= longest
    assert plain(doubt(step, TONES[1])) == said


@pytest.mark.parametrize(("shortest", "longest"), [(9.0, float("inf")), (2.0, 900.0), (0.0, 0.0)])
def test_a_range_that_says_nothing_in_time_is_told_in_darkness(
    shortest: float, longest: float
) -> None:
    step = replace(FIRST, shortest_s=shortest, longest_s=longest)
    assert plain(doubt(step, TONES[1])) == "darkness perhaps 3.8 – 6.2"


def test_step_one_paints_bevel_and_edges_even_without_whites() -> None:
    assert stopped_out(FIRST, TONES) == "bevel, edges, whites"
    bare = with_share(0.0, 0)
    assert stopped_out(FIRST, bare.tones) == "bevel, edges"
    assert painting_lines(FIRST, bare)[0] == "nothing of the picture to stop out"


def test_every_step_after_the_first_goes_over_old_varnish() -> None:
    assert "go over old varnish, edges, pinholes" not in painting_lines(FIRST, ORDER)
    assert painting_lines(SECOND, ORDER) == (
        "1 place",
        "paint about 4\u00a0min, dry 10\u00a0min",
        "go over old varnish, edges, pinholes",
    )


def test_a_tone_without_area_is_said() -> None:
    bare = with_share(0.0, 1)
    assert painting_lines(SECOND, bare)[0] == "nothing of the picture to stop out"
    assert stopped_out(SECOND, bare.tones) == "tone 1"


@pytest.mark.parametrize(
    ("dips", "said"),
    [
        ((35.0,), ""),
        ((225.0, 225.0), "2 dips of 3 min 45 s, look between"),
        ((220.0, 230.0), "2 dips: 3 min 40 s, then 3 min 50 s; look between"),
        ((280.0, 280.0, 285.0), "3 dips of 4 min 40 s, the last 4 min 45 s; look between"),
    ],
)
def test_dips_are_told_with_the_look_between(dips: tuple[float, ...], said: str) -> None:
    assert plain(in_dips(dips)) == said


def test_the_conditions_name_metal_bath_grain_and_varnish() -> None:
    words = conditions_words(PlateSize(200, 149.5), Conditions(strength="40 °Bé"))
    assert [plain(part) for part in words] == [
        "Copper 200 × 149.5 mm",
        "ferric chloride 40 °Bé, still, 20 °C",
        "rosin, medium",
        "spirit varnish",
    ]


def test_untested_times_are_called_so() -> None:
    words, advice = standing_words(Standing.UNTESTED)
    assert words == "STARTING POINTS, UNTESTED"
    assert "companion strip" in advice
