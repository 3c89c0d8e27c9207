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
from toneladder.book.values import Bath, GivenBath
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder.strip.file import read_strip, write_strip
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recent import Recent
from toneladder_desktop.bench.recovery import Recovery, take_back
from toneladder_desktop.bench.settings import Preferences

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


ACTS = (
    Act("plate", _save_plate, _found_plate),
    Act("strip", _save_strip, _found_strip),
    Act("bath", _save_bath, _found_bath),
    Act("recovery", _keep, _kept),
    Act("settings", _prefer, _preferred),
    Act("recent", _remember, _remembered),
)


def unfinished(folder: Path) -> list[Path]:
    """Files that a killed writer left beside the ones that count."""
    with suppress(OSError):
        return [path for path in folder.rglob(".*") if path.is_file()]
    return []
