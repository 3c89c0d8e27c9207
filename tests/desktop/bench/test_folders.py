"""The program's folders are where every program of this system has them."""

from pathlib import Path

import platformdirs
import pytest

from toneladder_desktop.bench.folders import config_folder, state_folder


@pytest.mark.parametrize("said", ["", "elsewhere"])
def test_folders_are_those_of_the_system(
    said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Beside platformdirs, which follows the XDG Base Directory Specification 0.8."""
    for name in ("XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.setenv(name, str(tmp_path / said) if said else "")
    assert config_folder() == platformdirs.user_config_path("toneladder")
    assert state_folder() == platformdirs.user_state_path("toneladder")
