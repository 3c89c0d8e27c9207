"""A plate worked out: tones in the moment of the change, the plan when it is ready."""

import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pytestqt.qtbot import QtBot

from toneladder.bite.curve import starting_curve
from toneladder.picture import opening
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan import planning, preparing, previewing
from toneladder.plan.planning import plan
from toneladder.plate import file
from toneladder.plate.file import read_plate
from toneladder.tones.values import Choice
from toneladder_desktop.bench import seeing
from toneladder_desktop.bench.bench import Bench, KnownCurve, Lying
from toneladder_desktop.bench.look import View
from toneladder_desktop.bench.workings import Workings, same_work

PLENTY_MS = 60_000


@pytest.fixture
def workings(bench: Bench) -> Iterator[Workings]:
    workings = Workings(bench)
    yield workings
    workings.background.close()


def until_planned(qtbot: QtBot, workings: Workings) -> None:
    qtbot.waitUntil(lambda: workings.plan is not None, timeout=PLENTY_MS)


def counted(workings: Workings) -> tuple[int | None, int | None]:
    """Tones as chosen, steps as planned."""
    tones = None if workings.chosen is None else workings.chosen.count
    steps = None if workings.plan is None else len(workings.plan.order.steps)
    return tones, steps


def test_the_plan_is_the_one_the_core_makes(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    alone = plan(open_picture(lying.picture, name="hill_and_sun.png"), lying.plate)
    assert workings.plan is not None
    assert workings.plan.order == alone.order
    assert (workings.plan.tones == alone.tones).all()


def test_a_large_plate_is_glanced_at_before_it_is_looked_at_closely(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(replace(lying, plate=replace(lying.plate, size=PlateSize(297.0, 198.0))))
    until_planned(qtbot, workings)
    looks: list[tuple[int, bool]] = []

    def look() -> None:
        if workings.prepared is not None:
            looks.append((workings.prepared.coarser, workings.chosen is not None))

    workings.worked.connect(look)
    assert bench.plate is not None
    bench.change("Squint 2 mm", replace(bench.plate, squint_mm=2.0))
    until_planned(qtbot, workings)
    assert looks == [(1, False), (3, True), (1, True), (1, True)]
    assert workings.plan is not None
    assert workings.plan.prepared.coarser == 1


def test_a_new_number_of_tones_is_chosen_at_once(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    tones = replace(lying.plate.tones, count=3, choice=Choice.PICTURE)
    bench.change("Make it 3 tones", replace(lying.plate, tones=tones))
    assert counted(workings) == (3, None)
    until_planned(qtbot, workings)
    assert counted(workings) == (3, 2)


def test_another_brush_has_no_tones_until_the_picture_is_cleaned_for_it(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    brush = replace(lying.plate.brush, mark_mm=3.0)
    bench.change("Paint dots from 3 mm", replace(lying.plate, brush=brush))
    assert workings.chosen is None
    until_planned(qtbot, workings)
    assert workings.prepared is not None
    assert workings.prepared.seen.brush == brush


def test_a_plan_of_an_older_plate_never_arrives(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    counts = []
    workings.worked.connect(
        lambda: counts.append(None if workings.plan is None else workings.plan.chosen.count)
    )
    for count in (3, 4, 6, 2):
        tones = replace(lying.plate.tones, count=count)
        bench.change("tones", replace(lying.plate, tones=tones))
    until_planned(qtbot, workings)
    assert set(counts) <= {None, 2}
    assert counts[-1] == 2


def test_another_title_ink_or_start_needs_no_new_plan(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    before = workings.plan
    assert before is not None
    other = replace(lying.plate, title="Other", start="10:00")
    assert same_work(lying.plate, other)
    bench.change("Call it so", other)
    assert workings.plan is not None
    assert workings.plan.order is before.order
    assert workings.plan.plate == other


def test_a_curve_that_came_with_the_plate_is_kept_until_the_bath_changes(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    conditions = lying.plate.conditions
    own = replace(starting_curve(conditions), source="my own")
    bench.lay(replace(lying, known=KnownCurve(conditions, own)))
    until_planned(qtbot, workings)
    assert workings.curve == own
    coarse = replace(conditions, fineness=type(conditions.fineness).COARSE)
    bench.change("Take a coarse grain", replace(lying.plate, conditions=coarse))
    until_planned(qtbot, workings)
    assert workings.curve == starting_curve(coarse)
    bench.undo.undo()
    until_planned(qtbot, workings)
    assert workings.curve == own


def test_what_is_saved_can_be_read_with_the_same_plan(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot, tmp_path: Path
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    with qtbot.waitSignal(workings.saved, timeout=PLENTY_MS):
        workings.save(tmp_path / "hill.plate")
    file = read_plate(tmp_path / "hill.plate")
    assert file.plate == lying.plate
    assert file.picture == lying.picture
    assert file.preview.startswith(b"\x89PNG")
    again = plan(open_picture(file.picture, name="x"), file.plate, file.curve)
    assert workings.plan is not None
    assert again.order == workings.plan.order


def test_what_cannot_be_opened_is_a_sentence(
    workings: Workings, qtbot: QtBot, tmp_path: Path
) -> None:
    bad = tmp_path / "bad.png"
    bad.write_bytes(b"no picture")
    with qtbot.waitSignal(workings.failed) as told:
        request = workings.open(bad, bad.name, 400.0)
    assert told.args is not None
    assert told.args[0] is request
    assert told.args[1].startswith("bad.png is not a")


def test_the_plan_waits_until_a_moving_hand_is_still(
    bench: Bench, workings: Workings, lying: Lying, qtbot: QtBot
) -> None:
    bench.lay(lying)
    until_planned(qtbot, workings)
    qtbot.waitUntil(lambda: not workings.background.busy, timeout=PLENTY_MS)
    workings._still.setInterval(PLENTY_MS)  # however slow this machine is
    bench.hold(True)
    for count in (5, 6, 7):
        tones = replace(lying.plate.tones, count=count)
        bench.change("More", replace(lying.plate, tones=tones), "tones")
        assert workings.chosen is not None
        assert workings.chosen.count == count
        assert not workings.background.busy
    workings._still.start(0)
    until_planned(qtbot, workings)
    assert workings.plan is not None
    assert workings.plan.plate.tones.count == 7


def test_no_heavy_work_is_done_in_the_window_s_thread(
    bench: Bench,
    workings: Workings,
    lying: Lying,
    picture_file: Path,
    tmp_path: Path,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Every heavy function of the core notes the thread that it runs in."""
    heavy = (
        (opening, "open_picture"),
        (preparing, "prepare"),
        (planning, "finish"),
        (previewing, "preview_of"),
        (seeing, "seen"),
        (file, "write_plate"),
        (file, "read_plate"),
    )
    threads: dict[str, set[int]] = {name: set() for _, name in heavy}
    for module, name in heavy:
        monkeypatch.setattr(module, name, _noting(getattr(module, name), threads[name]))
    workings.open(picture_file, "hill.png", 400.0)
    with qtbot.waitSignal(workings.opened, timeout=PLENTY_MS):
        pass
    bench.lay(lying)
    until_planned(qtbot, workings)
    with qtbot.waitSignal(workings.pulled, timeout=PLENTY_MS):
        workings.pull(View.PREVIEW, None, 2.0)
    with qtbot.waitSignal(workings.saved, timeout=PLENTY_MS):
        workings.save(tmp_path / "a.plate")
    with qtbot.waitSignal(workings.opened, timeout=PLENTY_MS):
        workings.open(tmp_path / "a.plate", "a.plate", 400.0)
    assert all(threads.values()), threads
    assert threading.get_ident() not in set().union(*threads.values())


def _noting(heavy: Callable[..., Any], threads: set[int]) -> Callable[..., Any]:
    def noted(*words: Any, **named: Any) -> Any:
        threads.add(threading.get_ident())
        return heavy(*words, **named)

    return noted
