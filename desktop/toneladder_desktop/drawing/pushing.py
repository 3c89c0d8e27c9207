"""Marks that want to stand too close together, pushed apart by the smallest moves."""

from collections.abc import Sequence


def pushed_apart(
    wanted: Sequence[float], gaps: Sequence[float], low: float, high: float
) -> tuple[float, ...]:
    """Places as near as can be to ``wanted``, in the same order and at least ``gaps`` apart.

    The sum of the squared moves is the least there is. Where low..high is too short for all
    gaps, the gaps are narrowed alike.

    Parameters
    ----------
    wanted : sequence of float, rising
        Where each mark belongs.
    gaps : sequence of float, one fewer, >= 0
        Least distance from each mark to the next.
    low, high : float
        No mark stands outside, ``low <= high``.

    References
    ----------
    [Ayer1955] pooling adjacent violators: the least squares solution under an order.
    """
    if not wanted:
        return ()
    reach = [0.0]
    for gap in gaps:
        reach.append(reach[-1] + gap)
    room = high - low
    if reach[-1] > room:
        reach = [place * room / reach[-1] for place in reach]
    rising = _never_falling([want - place for want, place in zip(wanted, reach, strict=True)])
    top = high - reach[-1]
    return tuple(
        min(max(level, low), top) + place for level, place in zip(rising, reach, strict=True)
    )


def _never_falling(values: Sequence[float]) -> list[float]:
    """The nearest values, by squares, that never fall."""
    pools: list[tuple[float, int]] = []
    for value in values:
        mean, size = value, 1
        while pools and pools[-1][0] > mean:
            before, count = pools.pop()
            mean = (before * count + mean * size) / (count + size)
            size += count
        pools.append((mean, size))
    return [mean for mean, size in pools for _ in range(size)]
