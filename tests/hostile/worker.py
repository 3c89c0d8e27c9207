"""Feeds a row of damaged inputs to what reads them, in a process of its own.

``python -m tests.hostile.worker KIND SEED FIRST NUMBER TOLD`` writes the number of the input
under way to the file TOLD, and a line of JSON for every input that was not taken as it must be.
"""

import contextlib
import io
import json
import os
import shutil
import sys
import tempfile
import traceback
import warnings
from collections import Counter
from pathlib import Path

from tests.hostile.awkward import chance_of
from tests.hostile.guarding import Guard, refuse_the_network, snapshot
from tests.hostile.kinds import KINDS, Hostile
from tests.hostile.limits import MOST_BYTES, limit_the_process, limited, most_memory

from toneladder.errors import ToneLadderError

_LONGEST_SENTENCE = 40_000


def fault_of(kind: Hostile, data: bytes, folder: Path, guard: Guard, ends: Counter[str]) -> str:
    """What is wrong with how one input was taken; empty if nothing is."""
    said = io.StringIO()
    try:
        with limited(), guard.watching(folder), contextlib.redirect_stderr(said):
            kind.read(data, folder)
        ends["taken"] += 1
    except ToneLadderError as refused:
        ends["refused"] += 1
        sentence = str(refused)
        if not 10 < len(sentence) < _LONGEST_SENTENCE or "Traceback" in sentence:
            return f"no sentence: {sentence[:200]!r}"
    except BaseException:  # noqa: BLE001 (whatever it is, it is what is looked for)
        return traceback.format_exc(limit=-6)
    if guard.seen:
        return guard.seen[0]
    if most_memory() > MOST_BYTES:
        return f"{most_memory() / 1e6:.0f} MB"
    return ""


def main(words: list[str]) -> None:
    """Run one row of inputs."""
    name, seed, first, number, told = words
    kind = next(kind for kind in KINDS if kind.name == name)
    limit_the_process()
    refuse_the_network()
    warnings.simplefilter("ignore")
    room = Path(os.path.realpath(tempfile.mkdtemp(prefix="hostile-")))
    os.environ["HOME"] = os.environ["XDG_CONFIG_HOME"] = str(room / "home")
    (room / "home").mkdir()
    (room / "home" / "letter").write_text("untouched", encoding="utf-8")
    os.chdir(room / "home")
    before, guard, ends = snapshot(room), Guard(), Counter[str]()
    try:
        for at in range(int(first), int(first) + int(number)):
            Path(told).write_text(str(at), encoding="ascii")
            data = kind.damaged(chance_of(int(seed), name, at))
            folder = room / "work"
            folder.mkdir()
            fault = fault_of(kind, data, folder, guard, ends)
            shutil.rmtree(folder)
            if not fault and at % 50 == 0 and snapshot(room).keys() != before.keys():
                fault = f"files came or went: {sorted(snapshot(room).keys() ^ before.keys())}"
            if fault:
                _tell({"kind": name, "seed": int(seed), "number": at, "fault": fault})
        _tell({"taken": ends["taken"], "refused": ends["refused"]})
    finally:
        os.chdir("/")
        shutil.rmtree(room, ignore_errors=True)


def _tell(found: dict[str, object]) -> None:
    os.write(1, json.dumps(found).encode() + b"\n")


if __name__ == "__main__":
    main(sys.argv[1:])
