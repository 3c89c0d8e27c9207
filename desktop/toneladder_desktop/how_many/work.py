"""What is worked out for the test strip beside the window: tones at once, costs after them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from toneladder_desktop.bench.background import Tell

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from toneladder.bite.values import BiteCurve
    from toneladder.plan.comparing import Offer
    from toneladder.plan.preparing import Prepared
    from toneladder.plate.values import Plate


@dataclass(frozen=True, slots=True, eq=False)
class Compare:
    """One plate in several numbers of tones, to be worked out in this order."""

    plate: "Plate"
    prepared: "Prepared"
    curve: "BiteCurve" = field(repr=False)
    counts: tuple[int, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Offered:
    """One number of tones worked out, its costs perhaps not yet.

    ``tones`` is the tone of every cell where a look-up table alone does not tell it, because
    places under a smallest area were left out; else None.
    """

    offer: "Offer"
    tones: "NDArray[np.uint8] | None" = field(default=None, repr=False)


@dataclass(frozen=True, slots=True)
class Floor:
    """The distance, in darkness, below which the brush leads no number of tones."""

    darkness: float


def compare(request: Compare, tell: Tell) -> Iterator[Offered | Floor]:
    """Every number of tones, then the brush's floor, then every number with its costs."""
    from toneladder.plan.comparing import costed, floor_of_brush, offer, plan_of

    prepared, plate, curve = request.prepared, request.plate, request.curve
    offers = []
    for count in request.counts:
        offers.append(offer(prepared, plate, curve, count))
        yield Offered(offers[-1])
    yield Floor(floor_of_brush(prepared, plate, curve))
    for light in offers:
        tell("")
        plan = plan_of(light, prepared, plate, curve)
        yield Offered(costed(light, plan), plan.tones if plate.brush.smallest_area_mm2 else None)


def nearest_first(counts: Sequence[int], own: int) -> tuple[int, ...]:
    """The numbers of tones in the order in which somebody looks at them."""
    return tuple(sorted(counts, key=lambda count: (abs(count - own), count)))
