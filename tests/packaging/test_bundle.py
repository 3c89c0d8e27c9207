"""The bundle is made of what the tests are run with, and of no more."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

PACKAGING = Path(__file__).parents[2] / "packaging"
BUILDERS = {  # PyInstaller and what it needs; nothing of the program's own
    *("altgraph", "macholib", "pefile", "pyinstaller", "pyinstaller-hooks-contrib"),
    *("pywin32-ctypes", "setuptools"),
}


def locked(name: str) -> dict[str, Requirement]:
    text = (PACKAGING / name).read_text(encoding="utf-8")
    assert "://" not in text
    blocks = re.split(r"^(?=[a-z0-9])", text, flags=re.MULTILINE)
    rows = [block for block in blocks if block and not block.startswith("#")]
    assert all("--hash=sha256:" in row for row in rows)
    found = [Requirement(row.split("\\")[0].strip()) for row in rows]
    return {canonicalize_name(row.name): row for row in found}


def test_what_is_bundled_is_what_was_tested() -> None:
    tested, bundled = locked("requirements.lock"), locked("bundle-requirements.lock")
    assert set(bundled) - set(tested) <= BUILDERS
    for name in set(bundled) & set(tested):
        assert bundled[name].specifier == tested[name].specifier


@pytest.mark.parametrize("name", ["test", "check"])
def test_nothing_that_only_tests_need_is_bundled(name: str) -> None:
    kept = {"test": ("pytest", "hypothesis", "pint"), "check": ("ruff", "mypy")}[name]
    assert not set(kept) & set(locked("bundle-requirements.lock"))


def test_the_spec_names_every_codec_that_the_core_asks_for() -> None:
    core = PACKAGING.parent / "core"
    asked = {
        name
        for path in core.rglob("*.py")
        for name in re.findall(r"imagecodecs\.(\w+)", path.read_text(encoding="utf-8"))
    }
    assert "png_decode" in asked
    loading = "import imagecodecs, sys; [getattr(imagecodecs, name) for name in sys.argv[1:]]"
    loading += "; print(*(name for name in sys.modules if name.startswith('imagecodecs._')))"
    done = subprocess.run(
        [sys.executable, "-c", loading, *asked], stdout=subprocess.PIPE, text=True, check=True
    )
    homes = set(done.stdout.split())
    assert "imagecodecs._png" in homes
    spec = (PACKAGING / "bundle.spec").read_text(encoding="utf-8")
    (named,) = re.findall(r"^CODECS = (\(.*?\))$", spec, flags=re.MULTILINE)
    assert homes <= {f"imagecodecs._{name}" for name in ast.literal_eval(named)}
