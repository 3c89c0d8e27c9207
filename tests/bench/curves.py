"""Strips and proofs: fitting a curve, planning a strip, reading scans."""

from collections.abc import Iterator, Sequence

import numpy as np
from scipy import optimize
from tests.bench.clock import Work, in_turn, peak_of
from tests.bench.table import Row, tell
from tests.core.proof import drawing as proofs
from tests.core.scans import drawing as scans

from toneladder.bite.values import Conditions
from toneladder.optics import FloatArray
from toneladder.picture.opening import open_picture
from toneladder.picture.values import PictureRef, PlateSize
from toneladder.plan.memory import Memory
from toneladder.plan.standing import curve_of
from toneladder.plate.values import Plate
from toneladder.proof.reading import read_tones
from toneladder.proof.registering import register
from toneladder.scans.finding import find_strip
from toneladder.scans.reading import read_patches
from toneladder.strip.curve import fit_strips
from toneladder.strip.planning import telling_strip
from toneladder.strip.values import Evidence, Patch, Strip

LEAST_SQUARES = "curve_fit, three parameters"
PX_PER_MM = 8.0


def strip_of(patches: int) -> Strip:
    """A strip of an invented bath, its bites growing evenly from 15 s to 25 min."""
    bites = np.concatenate([[0.0], np.geomspace(15.0, 1500.0, patches - 1)])
    return Strip(Conditions(), tuple(map(Patch, bites.tolist(), tones_of(bites).tolist())))


def tones_of(bites_s: FloatArray) -> FloatArray:
    """What it prints: CIE L* falling as a stretched exponential."""
    fallen: FloatArray = 22.0 + 68.0 * np.exp(-((bites_s / 150.0) ** 0.8))
    return fallen


def falling(bite: FloatArray, white: float, black: float, tau: float) -> FloatArray:
    """The floor's own idea of a curve."""
    fallen: FloatArray = black + (white - black) * np.exp(-bite / tau)
    return fallen


def least_squares(strip: Strip) -> Work:
    """Three parameters through the same patches, by a general fitter."""
    bites = np.array([patch.total_bite_s for patch in strip.patches])
    tones = np.array([patch.lightness for patch in strip.patches])
    return lambda: optimize.curve_fit(falling, bites, tones, p0=(90.0, 20.0, 100.0))


def rows(runs: int) -> Iterator[Row]:
    """Everything about strips and proofs that a person waits for."""
    strip = strip_of(16)
    yield _beside("fit a strip of 16 patches", lambda: fit_strips([strip]), strip, runs, "≤ 50 ms")
    size = PlateSize(297.0, 210.0)
    plate = Plate("bench", PictureRef("0" * 64, "none", 1, 1, 8), size, evidence=Evidence((strip,)))
    memory = Memory()
    what = "its curve once more, on another day"
    yield _beside(what, lambda: curve_of(plate, memory), strip, runs)
    wanted: Sequence[float] = (30.0, 75.0, 160.0, 330.0, 700.0)
    what = "the patches that tell most about five bites"
    (spent,) = in_turn([lambda: telling_strip(Conditions(), wanted_s=wanted)], runs)
    yield Row(what, spent)
    yield _strip_scan(runs)
    yield _proof(runs)


def _beside(what: str, work: Work, strip: Strip, runs: int, goal: str = "") -> Row:
    tell(what)
    ours, floor = in_turn([work, least_squares(strip)], runs)
    return Row(what, ours, LEAST_SQUARES, floor, goal, peak_of(work))


def _strip_scan(runs: int) -> Row:
    """A strip of eight patches on A4 at 300 dpi, askew."""
    tell("a strip's scan")
    row = scans.even_row(30.0, 120.0, 20.0, 40.0, (93.0, 85.0, 76.0, 66.0, 55.0, 44.0, 35.0, 28.0))
    page = scans.Page(210.0, 297.0, rows=(row,))
    data = scans.draw(page, scans.Look(dpi=300.0, turn=3.0), 3).data
    bites = (0.0, 15.0, 30.0, 60.0, 120.0, 240.0, 480.0, 960.0)

    def read() -> object:
        light = open_picture(data, name="scan").light
        return read_patches(light, find_strip(light, patches=8), bites)

    ours, floor = in_turn([read, lambda: open_picture(data, name="scan")], runs)
    what = "find and read a strip on a scan, A4 at 300 dpi"
    return Row(what, ours, "opening the scan", floor, "", peak_of(read))


def _proof(runs: int) -> Row:
    """A print of 15 × 12 cm scanned at 300 dpi, askew."""
    tell("a proof's scan")
    shape = (round(120.0 * PX_PER_MM), round(150.0 * PX_PER_MM))
    tones = proofs.blobs(6, 1, shape)
    printed = np.linspace(92.0, 27.0, 6)
    look = proofs.Look(dpi=300.0, turn=2.0)
    data = proofs.draw(tones, printed, PX_PER_MM, look, 2).data

    def read() -> object:
        light = open_picture(data, name="proof").light
        laid = register(light, tones, PX_PER_MM, dpi=look.dpi)
        return read_tones(light, laid, tones, PX_PER_MM, printed.tolist())

    ours, floor = in_turn([read, lambda: open_picture(data, name="proof")], runs)
    what = "lay a proof on its plan and read it, 15 × 12 cm at 300 dpi"
    return Row(what, ours, "opening the scan", floor, "", peak_of(read))
