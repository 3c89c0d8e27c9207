"""What the system refuses is said in plain words, in every language."""

import errno
from collections.abc import Iterator
from pathlib import Path

import pytest

from toneladder.refusals import reason_of
from toneladder.wording import ENGLISH, speak_language


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    speak_language(ENGLISH)


def test_a_refusal_is_said_in_the_readers_language(tmp_path: Path) -> None:
    speak_language("de")
    with pytest.raises(OSError, match="No such file") as missing:
        (tmp_path / "none").read_bytes()
    assert reason_of(missing.value) == "nichts dieses Namens ist da"


def test_what_is_met_seldom_keeps_the_systems_words() -> None:
    assert reason_of(OSError(errno.EXDEV, "Invalid cross-device link")) == (
        "Invalid cross-device link"
    )
    assert reason_of(OSError()) == "OSError"
