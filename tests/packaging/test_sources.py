"""Every source that is cited can be looked up."""

import re
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
KEY = r"\[([A-Z][A-Za-z]+[0-9][0-9A-Za-z.-]*)\]"


def test_every_cited_key_is_listed_once() -> None:
    page = (ROOT / "core" / "toneladder" / "sources.md").read_text(encoding="utf-8")
    listed = Counter(re.findall(f"^- {KEY} ", page, flags=re.MULTILINE))
    modules = [path for room in ("core", "desktop") for path in (ROOT / room).glob("**/*.py")]
    cited = {key for path in modules for key in re.findall(KEY, path.read_text(encoding="utf-8"))}
    assert "CIE15" in cited
    assert sorted(cited - set(listed)) == []
    assert [key for key, times in listed.items() if times > 1] == []
