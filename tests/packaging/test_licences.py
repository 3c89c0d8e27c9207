"""Everything that is installed may be used, and nothing in it is behind a known mending."""

import importlib.util
from pathlib import Path
from types import ModuleType

import pytest


@pytest.fixture(scope="module")
def licences() -> ModuleType:
    path = Path(__file__).parents[2] / "packaging" / "licences.py"
    spec = importlib.util.spec_from_file_location("licences", path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_every_licence_is_allowed_or_has_its_reason(licences: ModuleType) -> None:
    assert list(licences.unlicensed()) == []
    assert {"numpy", "pillow", "PySide6_Essentials", "pytest"} <= set(licences.needed())


def test_a_licence_that_nobody_allowed_is_told_of(
    licences: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(licences, "ALLOWED", {"MIT"})
    told = " ".join(licences.unlicensed())
    assert "tifffile: “BSD-3-Clause”" in told
    assert "pydantic" not in told


def test_no_version_is_behind_a_known_mending(
    licences: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert list(licences.known_holes()) == []
    monkeypatch.setattr(licences, "MENDED", {"pillow": ("999.0", "everything")})
    assert [line.split()[0] for line in licences.known_holes()] == ["pillow", "pillow:"]


def test_no_library_packed_into_a_wheel_is_behind_a_known_mending(
    licences: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert list(licences.packed_holes()) == []
    monkeypatch.setattr(licences, "PACKED", {"libwebp": ("999.0", "everything"), "libx": ("1", "")})
    assert [line.partition(":")[0].split()[::3] for line in licences.packed_holes()] == [
        ["libwebp", "imagecodecs"],
        ["libwebp", "pillow"],
        ["libx", "imagecodecs"],
    ]
