"""The lock installs exactly what the project asks for, from wherever a person's pip looks."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.specifiers import SpecifierSet
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def lock() -> str:
    return (ROOT / "packaging" / "requirements.lock").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def locked(lock: str) -> dict[str, Requirement]:
    rows = re.findall(r"^([a-z0-9][^\\\n]*)", lock, flags=re.MULTILINE)
    return {canonicalize_name(row.name): row for row in map(Requirement, rows)}


def wanted() -> list[Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = project["dependency-groups"].values()
    named = [row for group in groups for row in group if isinstance(row, str)]
    return [Requirement(row) for row in project["project"]["dependencies"] + named]


def test_there_is_no_address_in_it(lock: str) -> None:
    assert "://" not in lock
    assert not [row for row in lock.splitlines() if row.startswith("-")]


def test_every_package_has_its_hashes(lock: str, locked: dict[str, Requirement]) -> None:
    blocks = re.split(r"^(?=[a-z0-9])", lock, flags=re.MULTILINE)[1:]
    assert len(blocks) == len(locked)
    assert all("--hash=sha256:" in block for block in blocks)


@pytest.mark.parametrize("asked", wanted(), ids=lambda asked: asked.name)
def test_what_is_asked_for_is_locked_at_a_fitting_version(
    asked: Requirement, locked: dict[str, Requirement]
) -> None:
    (exactly,) = locked[canonicalize_name(asked.name)].specifier
    assert exactly.operator == "=="
    assert asked.specifier.contains(exactly.version)


def test_pyside_stays_below_the_version_that_kills_python_3_11(
    locked: dict[str, Requirement],
) -> None:
    (exactly,) = locked["pyside6-essentials"].specifier
    assert SpecifierSet("<6.12").contains(exactly.version)
