"""Labels of passages keep clear of numbers, of each other and of the dots."""

from itertools import combinations

import numpy as np
from scipy.ndimage import gaussian_filter

from toneladder.borders.arcs import trace
from toneladder.borders.labels import place_labels
from toneladder.borders.numbers import needed_mm, place_numbers
from toneladder.borders.soft import soft_passages
from toneladder.borders.values import Soft

PX = 8.0
SIZE = (9.0, 2.0)


def test_labels_lie_in_free_room_beside_their_passages() -> None:
    noise = np.random.default_rng(5).normal(size=(640, 800))
    lightness = 50.0 + 1100.0 * gaussian_filter(noise, 40.0)
    tones = np.digitize(-lightness, [-58.0, -50.0, -42.0]).astype(np.uint8)
    passages = soft_passages(trace(tones, PX), lightness, PX, Soft(), 4)
    numbered = place_numbers(tones, PX)
    taken = numbered.room.taken.copy()
    places = place_labels(passages, numbered.room, lambda _: [SIZE])
    assert len(passages) > 3
    assert len(places) >= 0.8 * len(passages)
    assert np.array_equal(numbered.room.taken, taken)
    square = 1.0 / numbered.room.per_mm
    for passage in passages:
        if passage.number in places:
            _, (x, y) = places[passage.number]
            apart = np.abs(passage.points - (x, y)) - np.array(SIZE) / 2.0
            assert apart.max(axis=1).min() > 0.0
            assert np.hypot(*np.maximum(apart, 0.0).T).min() < 1.0
            for number in numbered.numbers:
                away = np.abs(np.array([number.x_mm - x, number.y_mm - y])) - np.array(SIZE) / 2.0
                room = needed_mm(number.tone, 2.4) - 2.0 * square
                assert np.hypot(*np.maximum(away, 0.0)) > room or away.max() > room
    for one, other in combinations([place for _, place in places.values()], 2):
        gap = np.abs(np.subtract(one, other)) - np.array(SIZE)
        assert gap.max() > -2.0 * square


def test_a_label_too_large_for_the_plate_takes_its_shorter_form() -> None:
    lightness = np.repeat(60.0 - np.arange(160)[:, None] / PX, 240, axis=1)
    tones = (lightness < 50.0).astype(np.uint8)
    passages = soft_passages(trace(tones, PX), lightness, PX, Soft(), 2)
    room = place_numbers(tones, PX).room
    assert place_labels(passages, room, lambda _: [(99.0, 2.0), SIZE])[1][0] == 1
    assert place_labels(passages, room, lambda _: [(99.0, 2.0)]) == {}
