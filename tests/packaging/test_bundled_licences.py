"""A bundle holds the licence text of everything in it, or is not built."""

from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def collecting() -> ModuleType:
    script = ROOT / "packaging" / "bundled_licences.py"
    spec = spec_from_file_location("bundled_licences", script)
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


class Built:
    """An environment with some packages, and PyInstaller's table of what it took from them."""

    def __init__(self, folder: Path) -> None:
        self.venv, self.work = folder / "venv", folder / "work"
        self.site = self.venv / "lib" / "python3.11" / "site-packages"
        self.taken: list[tuple[str, str, str]] = []
        self.site.mkdir(parents=True)
        self.work.mkdir()

    def package(self, name: str, files: dict[str, str], *, taken: bool) -> None:
        metadata = f"Metadata-Version: 2.4\nName: {name}\nVersion: 1\nLicense-Expression: MIT\n"
        whole = {**files, f"{name}-1.dist-info/METADATA": metadata}
        record = f"{name}-1.dist-info/RECORD"
        whole[record] = "".join(f"{path},,\n" for path in [*whole, record])
        for path, text in whole.items():
            (self.site / path).parent.mkdir(parents=True, exist_ok=True)
            (self.site / path).write_text(text, encoding="utf-8")
        module = self.site / f"{name}.py"
        if taken:
            self.taken.append((name, str(module), "PYMODULE"))
        (self.work / "PYZ-00.toc").write_text(repr(("PYZ", self.taken)), encoding="utf-8")


@pytest.fixture
def built(tmp_path: Path) -> Built:
    return Built(tmp_path)


def test_texts_of_what_was_taken_are_there_and_no_others(
    collecting: ModuleType, built: Built, tmp_path: Path
) -> None:
    texts = {"a.py": "", "a-1.dist-info/licenses/LICENSE": "first", "a/COPYING": "second"}
    built.package("a", texts, taken=True)
    built.package("b", {"b.py": "", "b-1.dist-info/LICENSE": "third"}, taken=False)
    folder = tmp_path / "licences"
    collecting.write_licences(folder, ROOT, built.work, built.venv)
    assert (folder / "a" / "LICENSE").read_text(encoding="utf-8") == "first"
    assert (folder / "a" / "COPYING").read_text(encoding="utf-8") == "second"
    assert not (folder / "b").exists()
    assert "a/: a 1, MIT" in (folder / "list.txt").read_text(encoding="utf-8")
    ours = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert (folder / "tone-ladder.txt").read_text(encoding="utf-8") == ours
    assert "SIL OPEN FONT LICENSE" in (folder / "letters.txt").read_text(encoding="utf-8").upper()


def test_a_package_without_its_text_is_not_bundled(
    collecting: ModuleType, built: Built, tmp_path: Path
) -> None:
    built.package("a", {"a.py": ""}, taken=True)
    with pytest.raises(SystemExit, match="a is in the bundle, and its licence text is not"):
        collecting.write_licences(tmp_path / "licences", ROOT, built.work, built.venv)


def test_two_texts_of_one_name_are_both_kept(
    collecting: ModuleType, built: Built, tmp_path: Path
) -> None:
    texts = {"a.py": "", "a-1.dist-info/LICENSE": "all", "a/part/LICENSE": "part"}
    built.package("a", texts, taken=True)
    collecting.write_licences(tmp_path / "licences", ROOT, built.work, built.venv)
    kept = {path.read_text(encoding="utf-8") for path in (tmp_path / "licences" / "a").iterdir()}
    assert kept == {"all", "part"}


def test_the_texts_for_qt_are_the_ones_it_is_used_under() -> None:
    folder = ROOT / "packaging" / "licences"
    lesser = (folder / "LGPL-3.0.txt").read_text(encoding="utf-8")
    general = (folder / "GPL-3.0.txt").read_text(encoding="utf-8")
    assert "GNU LESSER GENERAL PUBLIC LICENSE\n                       Version 3" in lesser
    assert "GNU GENERAL PUBLIC LICENSE\n                       Version 3" in general
    assert general.rstrip().count("\n") > 600
