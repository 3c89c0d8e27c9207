"""Where the program keeps what it remembers from day to day."""

import os
import sys
from pathlib import Path

NAME = "toneladder"
PREFERENCES_FILE = "preferences.ini"
"""What is preferred, in the folder for it."""


def config_folder(system: str = sys.platform) -> Path:
    """Where preferences are kept."""
    if system == "linux":
        return _of_freedesktop("XDG_CONFIG_HOME", ".config")
    from platformdirs import user_config_path

    return user_config_path(NAME)


def state_folder(system: str = sys.platform) -> Path:
    """Where recent plates and what is to be recovered are kept."""
    if system == "linux":
        return _of_freedesktop("XDG_STATE_HOME", ".local/state")
    from platformdirs import user_state_path

    return user_state_path(NAME)


def data_folder(system: str = sys.platform) -> Path:
    """Where the studio book lies."""
    if system == "linux":
        return _of_freedesktop("XDG_DATA_HOME", ".local/share")
    from platformdirs import user_data_path

    return user_data_path(NAME)


def _of_freedesktop(variable: str, otherwise: str) -> Path:
    """The XDG base directory, without a library: the first window waits for this."""
    said = os.environ.get(variable, "").strip()
    return (Path(said) if said else Path.home() / otherwise) / NAME
