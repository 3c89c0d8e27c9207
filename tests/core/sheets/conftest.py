"""One drawn picture, planned with any number of tones: what the tests of the sheets lay out."""

from collections.abc import Callable, Mapping
from datetime import date
from functools import cache
from io import BytesIO

import numpy as np
import pytest
from PIL import Image

from toneladder.bite.values import Standing
from toneladder.order.values import Order
from toneladder.picture.opening import Picture, open_picture
from toneladder.picture.values import PlateSize
from toneladder.plan.planning import Plan, plan
from toneladder.plate.values import Plate
from toneladder.sheets.marks import A4, Paper, Sheet
from toneladder.sheets.order_sheet import order_sheet
from toneladder.tones.values import ToneChoice

PlanOf = Callable[..., Plan]
SheetOf = Callable[..., tuple[Sheet, ...]]

MADE_ON = date(2026, 3, 16)
SOURCE = "a strip of the same grain, read dry, bath 20 °C"


@cache
def waves() -> Picture:
    y, x = np.mgrid[0:300, 0:400]
    grey = np.clip(128 + 90 * np.sin(x / 61) + 60 * np.cos(y / 37 + x / 90), 0, 255)
    file = BytesIO()
    Image.fromarray(grey.astype(np.uint8)).save(file, "PNG")
    return open_picture(file.getvalue(), name="waves.png")


@cache
def planned(count: int, size: PlateSize) -> Plan:
    picture = waves()
    tones = ToneChoice(count=count, gap_lightness=0.0)
    return plan(picture, Plate("Waves", picture.ref, size, tones=tones))


@pytest.fixture
def plan_of() -> PlanOf:
    def make(count: int, width_mm: float = 120.0, height_mm: float = 90.0) -> Plan:
        return planned(count, PlateSize(width_mm, height_mm))

    return make


@cache
def sheets(count: int, paper: Paper) -> tuple[Sheet, ...]:
    made = planned(count, PlateSize(120.0, 90.0))
    bites = tuple(step.bite_s for step in made.order.steps)
    return order_sheet(
        made.plate,
        made.order,
        made.tones,
        standing=Standing.UNTESTED,
        source=SOURCE,
        made_on=MADE_ON,
        paper=paper,
        bath_bites={18.0: tuple(1.1 * bite for bite in bites), 20.0: bites, 22.0: bites},
    )


@pytest.fixture
def usual_sheets(count: int, paper: Paper) -> tuple[Sheet, ...]:
    """The sheet of ``count`` tones on ``paper``, untested, with the bites of three baths."""
    return sheets(count, paper)


@pytest.fixture
def sheet_of() -> SheetOf:
    def make(
        made: Plan,
        *,
        plate: Plate | None = None,
        order: Order | None = None,
        paper: Paper = A4,
        standing: Standing = Standing.UNTESTED,
        bath_bites: Mapping[float, tuple[float, ...]] | None = None,
    ) -> tuple[Sheet, ...]:
        return order_sheet(
            plate or made.plate,
            order or made.order,
            made.tones,
            standing=standing,
            source=SOURCE,
            made_on=MADE_ON,
            paper=paper,
            bath_bites=bath_bites,
        )

    return make
