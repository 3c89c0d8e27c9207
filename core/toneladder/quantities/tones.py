"""Darkness, as etchers speak of it."""

from toneladder.quantities.manner import Manner

_PLAIN = Manner()


def write_darkness(lightness: float, manner: Manner = _PLAIN) -> str:
    """Darkness from 0.0 (white) to 10.0 (black) of CIE L* (0..100).

    >>> write_darkness(48.0)
    '5.2'
    """
    return f"{10.0 - lightness / 10.0:.1f}".replace(".", manner.decimal)
