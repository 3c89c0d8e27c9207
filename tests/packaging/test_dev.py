"""The two commands know what a system lacks, and change nothing of it unasked."""

import os
import shutil
import subprocess
import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest

SCRIPT = Path(__file__).parents[2] / "packaging" / "dev.py"


@pytest.fixture
def dev() -> ModuleType:
    spec = spec_from_file_location("dev", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.mark.parametrize(
    ("library", "package"),
    [  # as the lists of files in the packages of Debian 12 have them
        ("libEGL.so.1", "libegl1"),
        ("libX11-xcb.so.1", "libx11-xcb1"),
        ("libbrotlicommon.so.1", "libbrotli1"),
        ("libcups.so.2", "libcups2"),
        ("libdbus-1.so.3", "libdbus-1-3"),
        ("libglib-2.0.so.0", "libglib2.0-0"),
        ("libwayland-cursor.so.0", "libwayland-cursor0"),
        ("libxcb-icccm.so.4", "libxcb-icccm4"),
        ("libxcb-render-util.so.0", "libxcb-render-util0"),
        ("libxkbcommon-x11.so.0", "libxkbcommon-x11-0"),
        ("libz.so.1", "zlib1g"),
    ],
)
def test_a_library_is_found_in_its_package(dev: ModuleType, library: str, package: str) -> None:
    assert dev.package_of(library) == package


def test_who_is_not_root_is_told_one_line_and_nothing_is_run(
    dev: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shutil, "which", lambda tool: f"/usr/bin/{tool}")
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    monkeypatch.setattr(subprocess, "call", lambda *_, **__: pytest.fail("something was run"))
    with pytest.raises(SystemExit) as stopped:
        dev.need_packages({"libgl1", "libegl1"})
    lines = [line for line in str(stopped.value).splitlines() if "apt-get" in line]
    assert lines == ["sudo apt-get install -y --no-install-recommends libegl1 libgl1"]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="elsewhere there is a screen")
def test_without_a_display_there_is_no_screen_unless_a_platform_is_set(
    dev: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    assert not dev.has_screen()
    monkeypatch.setenv("QT_QPA_PLATFORM", "offscreen")
    assert dev.has_screen()


def test_another_word_gets_the_two_commands_explained() -> None:
    done = subprocess.run(
        [sys.executable, SCRIPT, "walk"], capture_output=True, text=True, check=False
    )
    assert done.returncode != 0
    assert "dev.py run" in done.stderr
    assert "dev.py test" in done.stderr
