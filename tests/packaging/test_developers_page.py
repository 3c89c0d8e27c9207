"""The architecture in DEVELOPERS.md is the one in the tree."""

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]


def listed() -> list[tuple[str, str]]:
    page = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return re.findall(r"^- `((?:core|desktop)/[^`]*)`: (.+)$", page, flags=re.MULTILINE)


def test_every_module_is_listed_once_and_no_other() -> None:
    names = Counter(re.sub("/$", "/__init__.py", name) for name, _ in listed())
    files = [path for room in ("core", "desktop") for path in (ROOT / room).glob("**/*.py")]
    assert names == Counter(path.relative_to(ROOT).as_posix() for path in files)


def test_every_module_is_described_in_its_own_words() -> None:
    """Run packaging/list_modules.py --write after a module has come, gone or changed its words."""
    printed = subprocess.run(
        [sys.executable, ROOT / "packaging" / "list_modules.py"],
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    )
    rows = [f"- `{name}`: {sentence}" for name, sentence in listed()]
    assert rows == printed.stdout.splitlines()
    assert all(sentence.endswith(".") for _, sentence in listed())
