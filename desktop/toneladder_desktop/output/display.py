"""Whether there is a screen to open a window on: asked before Qt, which would abort."""

import os
import sys
from collections.abc import Mapping

from toneladder.errors import ToneLadderError
from toneladder.wording import say


def has_display(environment: Mapping[str, str] = os.environ, system: str = sys.platform) -> bool:
    """Whether a window can be opened here."""
    if not system.startswith("linux"):
        return True
    wanted = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return any(environment.get(name) for name in wanted)


def require_display() -> None:
    """Refuse with a sentence where there is no display.

    Raises
    ------
    ToneLadderError
        No display.
    """
    if not has_display():
        raise ToneLadderError(
            say(
                "There is no display here to open a window on. Nothing was changed. Plan without "
                "one: toneladder plan PICTURE --out FOLDER."
            )
        )


def draw_without_display() -> None:
    """Let Qt draw off screen where there is no display; call it before any Qt import."""
    if not has_display():
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
