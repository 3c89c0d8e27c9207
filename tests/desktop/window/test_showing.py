"""What the paper shows follows the look, however finely the last look was drawn."""

from collections import Counter

from pytestqt.qtbot import QtBot

from toneladder_desktop.bench.look import View
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 60_000


def share_of_flat(window: BenchWindow) -> float:
    """How much of the plate, away from its edges, wears one of its few commonest colours."""
    paper, chosen = window.top.paper, window.workings.chosen
    assert chosen is not None
    picture = paper.grab(paper.rect().adjusted(200, 160, -200, -160)).toImage()
    places = ((x, y) for x in range(picture.width()) for y in range(picture.height()))
    seen = Counter(picture.pixel(x, y) for x, y in places)
    return sum(n for _, n in seen.most_common(chosen.count)) / seen.total()


def test_flat_tones_have_no_grain_and_the_preview_has(planned: BenchWindow, qtbot: QtBot) -> None:
    assert share_of_flat(planned) < 0.5
    planned.look.show_view(View.TONES)
    qtbot.waitUntil(
        lambda: planned.top.paper.fine and not planned.workings.background.busy,
        timeout=PLENTY_MS,
    )
    assert share_of_flat(planned) > 0.9
    planned.look.show_view(View.PREVIEW)
    qtbot.waitUntil(lambda: share_of_flat(planned) < 0.5, timeout=PLENTY_MS)
