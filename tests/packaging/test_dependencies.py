"""The table of what is depended on: whole, with nothing in it that nobody uses."""

import importlib.util
import re
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def dependencies() -> ModuleType:
    path = ROOT / "packaging" / "dependencies.py"
    spec = importlib.util.spec_from_file_location("dependencies", path)
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def test_everything_that_is_asked_for_is_used(dependencies: ModuleType) -> None:
    assert list(dependencies.unused()) == []


def test_everything_that_is_used_is_asked_for(dependencies: ModuleType) -> None:
    assert list(dependencies.missing()) == []


def test_what_nobody_uses_and_what_nobody_asked_for_is_found(
    dependencies: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    odd = dependencies.Group("odd", ("numpy", "ruff", "pypdf"), ("core",))
    monkeypatch.setattr(dependencies, "groups", lambda: (odd,))
    assert [line.partition(":")[0] for line in dependencies.unused()] == ["pypdf"]
    tops = {line.partition(":")[0].partition(".")[0] for line in dependencies.missing()}
    assert {"PIL", "pydantic", "scipy", "skimage", "tifffile"} <= tops
    assert "numpy" not in tops


def test_the_table_has_every_package_with_its_reason(dependencies: ModuleType) -> None:
    """Run packaging/dependencies.py --write after a package has come or gone."""
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    rows = page.split(dependencies.START)[1].split(dependencies.END)[0].splitlines()[2:]
    told = [re.split(r" *\| *", row.strip("|").strip()) for row in rows if "| *" not in row]
    asked = [name for group in dependencies.groups() for name in sorted(group.asked)]
    assert [cells[0] for cells in told] == asked
    assert [cells[1] for cells in told] == [dependencies.REASONS[name] for name in asked]
    assert all(cells[2] and float(cells[3]) > 0.0 for cells in told)
