"""What the tests of the window share: pictures, plates and their plans, a ladder, a window."""

import gc
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from io import BytesIO
from itertools import pairwise
from pathlib import Path
from typing import Any, Protocol

import numpy as np
import pytest
from PIL import Image
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot
from skimage import data

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import BiteCurve, Standing
from toneladder.order.values import Tone
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.choosing import Chosen, choose
from toneladder.plan.memory import Memory
from toneladder.plan.planning import Plan, finish
from toneladder.plan.preparing import Prepared, prepare, seen_of
from toneladder.plate.values import Plate
from toneladder.tones.values import Choice, ToneChoice
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.day.view import DayView
from toneladder_desktop.drawing.style import LIGHT, wear
from toneladder_desktop.ladder.content import Content, Parting, Remark, Rung
from toneladder_desktop.ladder.view import LadderView
from toneladder_desktop.window.bench_window import BenchWindow

PLENTY_MS = 60_000


@pytest.fixture(autouse=True)
def _homes(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing a test does is kept outside a folder of its own."""
    home = tmp_path_factory.mktemp("home")
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(home))


@pytest.fixture(autouse=True)
def _tidied() -> Iterator[None]:
    """Cycles are searched between the tests, never in the background's thread."""
    gc.disable()
    yield
    gc.enable()
    gc.collect(0)


@pytest.fixture(scope="session")
def picture_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A hill under a sky with a sun, 360 by 240 pixels."""
    down, across = np.mgrid[0:240, 0:360]
    grey = 90.0 + 110.0 * (1.0 - down / 240.0) + 20.0 * np.sin(across / 40.0)
    grey[np.hypot(down - 60, across - 250) < 30] = 250.0
    grey[down > 180 - 60 * np.exp(-(((across - 120) / 70.0) ** 2))] = 40.0
    path = tmp_path_factory.mktemp("pictures") / "hill_and_sun.png"
    Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8)).save(path)
    return path


@pytest.fixture
def lying(picture_file: Path) -> Lying:
    """A small plate of that picture."""
    ref = open_picture(picture_file, name=picture_file.name).ref
    return Lying(Plate("Hill", ref, PlateSize(60.0, 40.0)), picture_file.read_bytes())


@pytest.fixture
def bench(qapp: QApplication) -> Bench:
    """An empty bench."""
    assert qapp is not None
    return Bench()


@pytest.fixture
def make_window(
    qtbot: QtBot, qapp: QApplication, tmp_path: Path
) -> Iterator[Callable[[], BenchWindow]]:
    """Opens windows that share one folder; each is closed without a question in the end."""
    wear(qapp, LIGHT)
    windows: list[BenchWindow] = []

    def make() -> BenchWindow:
        preferences = Preferences(tmp_path / "preferences.ini", qapp)
        window = BenchWindow(preferences, tmp_path / "state")
        qtbot.addWidget(window)
        window.show()
        qtbot.waitExposed(window)
        windows.append(window)
        return window

    yield make
    for window in windows:
        window.bench.give_up()
        window.close()


@pytest.fixture
def window(make_window: Callable[[], BenchWindow]) -> BenchWindow:
    """An open window with an empty bench."""
    return make_window()


@pytest.fixture
def planned(window: BenchWindow, lying: Lying, qtbot: QtBot) -> BenchWindow:
    """A window whose small plate is worked out and drawn."""
    window.bench.lay(lying)
    qtbot.waitUntil(
        lambda: window.workings.plan is not None and window.top.paper.fine, timeout=PLENTY_MS
    )
    return window


@dataclass(frozen=True, eq=False)
class Worked:
    """A plate whose tones are chosen on a curve, and its plan when somebody asks for it."""

    plate: Plate
    prepared: Prepared
    curve: BiteCurve

    @cached_property
    def chosen(self) -> Chosen:
        return choose(self.prepared, self.plate, self.curve)

    @cached_property
    def plan(self) -> Plan:
        return finish(self.prepared, self.chosen, self.plate, self.curve)

    def with_tones(self, **new: Any) -> "Worked":
        tones = replace(self.plate.tones, **new)
        return Worked(replace(self.plate, tones=tones), self.prepared, self.curve)

    def show_on(self, view: LadderView | DayView, *, whole: bool = True) -> None:
        plan = self.plan if whole else None
        view.show_plan(self.plate, self.prepared, self.chosen, plan, self.curve)


class MadeLadder(Protocol):
    """Makes what a ladder shows from lightnesses and total bites alone."""

    def __call__(
        self,
        lightness: Sequence[float],
        totals: Sequence[float],
        partings_at: Sequence[float] = (),
        **other: Any,
    ) -> Content:
        raise NotImplementedError


@pytest.fixture(scope="session")
def worked() -> Worked:
    """Six tones following a photograph of scikit-image's (camera: CC0), on a strip's curve."""
    file = BytesIO()
    Image.fromarray(data.camera()).save(file, "PNG")
    picture = open_picture(file.getvalue(), name="camera.png")
    plate = Plate(
        "Camera",
        picture.ref,
        PlateSize(60.0, 60.0),
        tones=ToneChoice(count=6, choice=Choice.PICTURE),
        start="09:30",
    )
    start = starting_curve(plate.conditions)
    curve = replace(
        start,
        standing=Standing.STRIP,
        low=tuple(level - 1.0 for level in start.lightness),
        high=tuple(level + 1.0 for level in start.lightness),
    )
    return Worked(plate, prepare(picture, seen_of(plate), Memory()), curve)


@pytest.fixture(scope="session")
def made_ladder() -> MadeLadder:
    return _made_ladder


def _made_ladder(
    lightness: Sequence[float],
    totals: Sequence[float],
    partings_at: Sequence[float] = (),
    *,
    held_partings: Sequence[int] = (),
    held_bites: Sequence[int] = (),
    remarks: tuple[Remark, ...] = (),
    **other: Any,
) -> Content:
    """Partings half-way unless they are given; equal shares; step n has 10 n places."""
    count = len(lightness)
    rungs = tuple(
        Rung(
            tone=Tone(
                tone=k,
                target_lightness=level,
                lightness=level,
                lightness_low=level - 3.0,
                lightness_high=level + 3.0,
                total_bite_s=total,
                share=1.0 / count,
                shortest_s=0.8 * total,
                longest_s=1.25 * total,
            ),
            asked=k,
            bite_s=total - totals[k - 1] if k else 0.0,
            held=k in held_bites,
            places=10 * k,
            minutes=5.0 * k,
            remarks=remarks,
        )
        for k, (level, total) in enumerate(zip(lightness, totals, strict=True))
    )
    partings = tuple(
        Parting(level, held=n in held_partings)
        for n, level in enumerate(
            partings_at or [(lighter + darker) / 2.0 for lighter, darker in pairwise(lightness)],
            start=1,
        )
    )
    plain = Content(
        rungs=rungs,
        partings=partings,
        alike=(),
        histogram=(1.0,) * 10,
        paper=lightness[0],
        deepest=lightness[-1],
        tested_s=900.0,
        end_s=max(960.0, *totals),
        shortest_s=15.0,
        untested=False,
        choice=Choice.PICTURE,
        asked_tones=count,
        swatches=("#808080",) * count,
    )
    return replace(plain, **other)
