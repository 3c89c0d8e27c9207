"""What is saved: each act puts version one or two of something into a folder, and tells which."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from tests.hostile.archives import plate, strip
from tests.hostile.pictures import pictures

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions, Metal, Mordant
from toneladder.book.giving import read_bath, write_bath
from toneladder.book.opening import open_book
from toneladder.book.plates import keep_plate, list_plates, thumbnail_of
from toneladder.book.tank_log import append_event, begin_session, events_of, sessions_of
from toneladder.book.values import Bath, GivenBath, Logged, PlateEntry, TankSession
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder.strip.file import read_strip, write_strip
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recent import Recent
from toneladder_desktop.bench.recovery import Recovery, take_back
from toneladder_desktop.bench.settings import Preferences
from toneladder_desktop.output.folder import all_or_none

_CURVE = starting_curve(Conditions())
_PICTURES = {1: "png", 2: "png 16"}


@dataclass(frozen=True, slots=True)
class Act:
    """``save`` puts a version into a folder, ``found`` tells which one lies there, or None."""

    name: str
    save: Callable[[Path, int], object]
    found: Callable[[Path], int | None]


def _plate_file(version: int) -> PlateFile:
    name = _PICTURES[version]
    return PlateFile(replace(plate(name), title=str(version)), _CURVE, pictures()[name], b"")


def _save_plate(folder: Path, version: int) -> None:
    write_plate(folder / "a.plate", _plate_file(version))


def _found_plate(folder: Path) -> int | None:
    path = folder / "a.plate"
    if not path.exists():
        return None
    found = read_plate(path)
    version = int(found.plate.title)
    if found != _plate_file(version):
        raise AssertionError("a plate of halves")
    return version


def _save_strip(folder: Path, version: int) -> None:
    write_strip(folder / "a.strip", replace(strip(), note=str(version) * 5_000))


def _found_strip(folder: Path) -> int | None:
    path = folder / "a.strip"
    return int(read_strip(path).note[0]) if path.exists() else None


def _save_bath(folder: Path, version: int) -> None:
    bath = Bath(str(version), Metal.COPPER, Mordant.FERRIC_CHLORIDE)
    write_bath(folder / "a.bath", GivenBath(bath, (strip(),) * 20))


def _found_bath(folder: Path) -> int | None:
    path = folder / "a.bath"
    return int(read_bath(path).bath.name) if path.exists() else None


def _keep(folder: Path, version: int) -> None:
    """What the window does at every rest of the hand, in a folder of a window of its own."""
    bench = Bench()
    recovery = Recovery(bench, folder / "recovery", lambda _lying: _CURVE, lambda act: act())
    recovery._own = folder / "recovery" / "window"
    name = _PICTURES[version]
    bench.lay(Lying(replace(plate(name), title="0"), pictures()[name]))
    bench.change("title", replace(plate(name), title=str(version)))
    recovery.keep()


def _kept(folder: Path) -> int | None:
    if not (folder / "recovery").exists():
        return None
    (folder / "recovery" / "window" / "lock").unlink(missing_ok=True)  # its owner was a fork of us
    left = Recovery(Bench(), folder / "recovery", lambda _lying: _CURVE, lambda act: act()).left()
    if not left:
        return None
    lying = take_back(left[0])
    if lying.picture != pictures()[_PICTURES[int(lying.plate.title)]]:
        raise AssertionError("another plate's picture")
    return int(lying.plate.title)


def _prefer(folder: Path, version: int) -> None:
    Preferences(folder / "preferences.ini").change(
        paper="a3" if version == 1 else "letter", screen_px_per_mm=float(version)
    )


def _preferred(folder: Path) -> int | None:
    path = folder / "preferences.ini"
    if not path.exists():
        return None
    found = Preferences(path).now
    version = {"a3": 1, "letter": 2}[found.paper]
    if found.screen_px_per_mm != float(version):
        raise AssertionError(found)
    return version


def _remember(folder: Path, version: int) -> None:
    Recent(folder / "recent.json").add(folder / f"{version}.plate")


def _remembered(folder: Path) -> int | None:
    files = Recent(folder / "recent.json").files()
    return int(files[0].stem) if files else None


def _enter(folder: Path, version: int) -> None:
    """What a save puts into the studio book: the plate's entry and its small picture."""
    with open_book(folder / "book.sqlite") as book:
        entry = PlateEntry("boats", str(version), "/boats.plate", 1.0, Metal.COPPER, 5)
        keep_plate(book, entry, pictures()[_PICTURES[version]])


def _entered(folder: Path) -> int | None:
    if not (folder / "book.sqlite").exists():
        return None
    with open_book(folder / "book.sqlite") as book:
        (kept,) = list_plates(book)
        version = int(kept.plate.title)
        if thumbnail_of(book, "boats") != pictures()[_PICTURES[version]]:
            raise AssertionError("another plate's picture")
    return version


def _note(folder: Path, version: int) -> None:
    """One event more at the tank."""
    with open_book(folder / "book.sqlite") as book:
        if not sessions_of(book, "boats"):
            begin_session(book, TankSession("stay", "boats", 0.0, "{}"))
        number = len(events_of(book, "stay"))
        append_event(book, "stay", Logged(number, "note", float(number), 1.0, "boot", str(version)))


def _noted(folder: Path) -> int | None:
    if not (folder / "book.sqlite").exists():
        return None
    with open_book(folder / "book.sqlite") as book:
        events = events_of(book, "stay")
    if [event.number for event in events] != list(range(len(events))):
        raise AssertionError(events)
    return int(events[-1].detail) if events else None


def _put_out(folder: Path, version: int) -> None:
    """The sheets of a plan, into a new folder."""
    number = 1 + max(
        (int(path.name) for path in folder.iterdir() if path.name.isdecimal()), default=0
    )
    with all_or_none(folder / str(number)) as unfinished:
        for name in ("map", "order", "tracing"):
            (unfinished / name).write_text(str(version) * 5_000)


def _put(folder: Path) -> int | None:
    found = sorted(_folders(folder), key=_number)
    for path in found:
        texts = {one.read_text() for one in path.iterdir()}
        if len(list(path.iterdir())) != 3 or len(texts) != 1 or len(texts.pop()) != 5_000:
            raise AssertionError(path)
    return int((found[-1] / "map").read_text()[0]) if found else None


def _folders(folder: Path) -> list[Path]:
    return [path for path in folder.iterdir() if path.name.isdecimal()]


def _number(path: Path) -> int:
    return int(path.name)


ACTS = (
    Act("plate", _save_plate, _found_plate),
    Act("strip", _save_strip, _found_strip),
    Act("bath", _save_bath, _found_bath),
    Act("recovery", _keep, _kept),
    Act("settings", _prefer, _preferred),
    Act("recent", _remember, _remembered),
    Act("book", _enter, _entered),
    Act("tank", _note, _noted),
    Act("folder", _put_out, _put),
)


def unfinished(folder: Path) -> list[Path]:
    """Files that a killed writer left beside the ones that count."""
    with suppress(OSError):
        return [path for path in folder.rglob(".*") if path.is_file()]
    return []
