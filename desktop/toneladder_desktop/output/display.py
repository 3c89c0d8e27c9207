"""Whether there is a screen to open a window on: asked before Qt, which would abort."""

import os
import sys
from collections.abc import Mapping
from pathlib import Path

from toneladder.errors import ToneLadderError
from toneladder.wording import say


def has_display(environment: Mapping[str, str] = os.environ, system: str = sys.platform) -> bool:
    """Whether a window can be opened here."""
    if not system.startswith("linux"):
        return True
    wanted = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")
    return any(environment.get(name) for name in wanted)


def require_display() -> None:
    """Refuse with a sentence where there is no display, or Qt cannot have a window on it.

    Raises
    ------
    ToneLadderError
        No display, or a library of the system is missing.
    """
    if not has_display():
        raise ToneLadderError(
            say(
                "There is no display here to open a window on. Nothing was changed. Plan without "
                "one: toneladder plan PICTURE --out FOLDER."
            )
        )
    if sys.platform.startswith("linux"):
        require_windows()


def require_windows(environment: Mapping[str, str] = os.environ) -> None:
    """Refuse with a sentence where a library that windows under X11 need is missing.

    Raises
    ------
    ToneLadderError
        It names what is missing.
    """
    wanted = environment.get("QT_QPA_PLATFORM") or "xcb"
    other = environment.get("WAYLAND_DISPLAY") and not environment.get("QT_QPA_PLATFORM")
    plugin = _windows_of_x11()
    if other or wanted != "xcb" or not plugin.is_file():
        return
    import ctypes

    try:
        ctypes.CDLL(str(plugin))
    except OSError as missing:
        raise ToneLadderError(
            say(
                "No window can be opened here: {reason}. Nothing was changed. Install what is "
                "named, and start again; planning works without a window: toneladder plan PICTURE "
                "--out FOLDER.",
                reason=missing,
            )
        ) from missing


def _windows_of_x11() -> Path:
    """What Qt opens windows with; where Qt lies is found without loading it."""
    from importlib.util import find_spec

    found = find_spec("PySide6")
    home = Path(found.origin).parent if found and found.origin else Path()
    return home / "Qt" / "plugins" / "platforms" / "libqxcb.so"


def draw_without_display() -> None:
    """Let Qt draw off screen where there is no display; call it before any Qt import."""
    if not has_display():
        os.environ["QT_QPA_PLATFORM"] = "offscreen"
