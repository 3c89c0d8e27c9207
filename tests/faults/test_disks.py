"""A disk that is full, a place that cannot be written to, a file that goes away."""

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication
from tests.faults.people import as_nobody, files, let_in, small_disk, told
from tests.hostile.archives import plate, strip
from tests.hostile.pictures import pictures
from tests.kills.acts import ACTS, Act

from toneladder.bite.curve import starting_curve
from toneladder.bite.values import Conditions
from toneladder.errors import OutputError, PictureError, ToneLadderError
from toneladder.picture.opening import open_picture
from toneladder.plate.file import PlateFile, read_plate, write_plate
from toneladder.strip.file import strip_text
from toneladder.writing import write_whole
from toneladder_desktop.app import main
from toneladder_desktop.bench.bench import Bench, Lying
from toneladder_desktop.bench.recovery import Recovery
from toneladder_desktop.command.plan import picture_bytes

CURVE = starting_curve(Conditions())
SAVING = [act for act in ACTS if act.name in {"plate", "strip", "bath"}]


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """A folder with a picture, readings and a strip in it."""
    (tmp_path / "picture.png").write_bytes(pictures()["png"])
    (tmp_path / "readings.csv").write_text(
        "total_bite,lightness\n0 s,91\n0:30,75\n1:00,62\n2:00,46\n4:00,31\n"
    )
    (tmp_path / "a.strip").write_text(strip_text(strip()), encoding="utf-8")
    write_plate(tmp_path / "a.plate", PlateFile(plate(), CURVE, pictures()["png"]))
    return tmp_path


def fill(disk: Path) -> None:
    """Leave room for next to nothing."""
    with (disk / "filling").open("wb", buffering=0) as file:
        try:
            while file.write(b"\0" * 4096) == 4096:
                pass
        except OSError:
            return


@pytest.mark.parametrize("act", SAVING, ids=lambda act: act.name)
def test_on_a_full_disk_the_older_file_stays(act: Act) -> None:
    with small_disk() as disk:
        act.save(disk, 1)
        fill(disk)
        with pytest.raises(OutputError, match=r"could not be written .*no room is left"):
            act.save(disk, 2)
        assert act.found(disk) == 1
        assert not [path for path in disk.iterdir() if path.name.startswith(".")]
        (disk / "filling").unlink()
        act.save(disk, 2)
        assert act.found(disk) == 2


def test_a_plan_for_a_full_disk_leaves_nothing_behind(table: Path) -> None:
    with small_disk("64k") as disk:
        (disk / "letter").write_text("kept")
        status, sentence = told(
            table, "plan", "picture.png", "--plate", "30x22", "--out", str(disk / "out")
        )
        assert (status, sentence.count("no room is left")) == (2, 1)
        assert files(disk) == {"letter": b"kept"}


@pytest.mark.parametrize(
    "words",
    [
        ("plan", "picture.png", "--plate", "30x22", "--out", "out"),
        ("sheets", "a.plate", "--only", "order", "--out", "out"),
        ("strip", "plan", "--out", "card.pdf"),
    ],
    ids=lambda words: " ".join(words[:2]),
)
def test_a_file_that_may_not_grow_is_not_left_by_halves(
    table: Path, words: tuple[str, ...]
) -> None:
    before = files(table)
    status, sentence = told(table, *words, limits=json.dumps({"RLIMIT_FSIZE": 3_000}))
    assert status == 2
    assert "it is too large for the disk" in sentence
    assert files(table) == before


def test_without_memory_nothing_is_left_by_halves(table: Path) -> None:
    before = files(table)
    limits = json.dumps({"RLIMIT_AS": 150_000_000})
    words = ("plan", "picture.png", "--plate", "300x220", "--out", "out")
    status, sentence = told(table, *words, limits=limits)
    assert (status, files(table)) == (2, before)
    assert "not enough memory" in sentence or "missing here" in sentence


WORDS: list[Callable[[Path, str], list[str]]] = [
    lambda table, out: ["plan", f"{table}/picture.png", "--plate", "30x22", "--out", f"{out}/a"],
    lambda table, out: ["sheets", f"{table}/a.plate", "--only", "order", "--out", f"{out}/b"],
    lambda _table, out: ["strip", "plan", "--out", f"{out}/card.pdf"],
    lambda table, out: ["strip", "fit", f"{table}/readings.csv", "--out", f"{out}/c.strip"],
]


@pytest.mark.parametrize("mode", [0o555, 0o000], ids=["read only", "locked"])
@pytest.mark.parametrize("words", WORDS, ids=["plan", "sheets", "strip plan", "strip fit"])
def test_a_folder_that_may_not_be_written_to_is_told_of(
    table: Path,
    words: Callable[[Path, str], list[str]],
    mode: int,
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(words(table, str(table))) == 0  # everything is loaded before rights are dropped
    barred = table / "barred"
    barred.mkdir()
    let_in(table)
    barred.chmod(mode)
    capsys.readouterr()
    with as_nobody():
        status = main(words(table, str(barred)))
    barred.chmod(0o755)
    assert (status, list(barred.iterdir())) == (2, [])
    assert "you have no permission" in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        lambda path: ["plan", path, "--out", "out"],
        lambda path: ["sheets", path, "--out", "out"],
        lambda path: ["curve", path],
        lambda path: ["strip", "fit", path, "--out", "out"],
        lambda path: ["tank", path, "--simulate", path],
        lambda path: ["strip", "read", path, "--bites", "0,0:15", "--out", "out"],
    ],
    ids=["plan", "sheets", "curve", "strip fit", "tank", "strip read"],
)
def test_a_file_that_may_not_be_read_is_told_of(
    words: Callable[[str], list[str]],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    secret = tmp_path / "secret"
    secret.write_bytes(b"anything")
    secret.chmod(0o000)
    tmp_path.chmod(0o777)
    assert main(words("nowhere")) == 2  # which also loads everything
    capsys.readouterr()
    with as_nobody():
        assert main(words("secret")) == 2
    assert "you have no permission" in capsys.readouterr().err
    assert [path.name for path in tmp_path.iterdir()] == ["secret"]


def test_a_picture_that_changes_or_goes_while_it_is_planned_is_told_of(table: Path) -> None:
    path = table / "picture.png"
    ref = open_picture(path, name=path.name).ref
    assert picture_bytes(path, ref) == pictures()["png"]
    path.write_bytes(pictures()["bmp"])
    with pytest.raises(PictureError, match="was changed or taken away"):
        picture_bytes(path, ref)
    path.unlink()
    with pytest.raises(PictureError, match="was changed or taken away"):
        picture_bytes(path, ref)


@pytest.mark.parametrize("name", ["/dev/null", "/dev/full"])
def test_a_device_is_never_replaced_by_a_file(name: str) -> None:
    if not Path(name).is_char_device():
        pytest.skip("there are no such devices here")
    with pytest.raises(OutputError, match="not a file"):
        write_whole(Path(name), lambda file: file.write(b"x"))
    assert Path(name).is_char_device()


@pytest.mark.parametrize(
    "words", [["curve"], ["sheets", "--out", "x"], ["strip", "fit", "--out", "x"]]
)
def test_a_file_without_an_end_is_refused(words: list[str]) -> None:
    if not Path("/dev/zero").is_char_device():
        pytest.skip("there is no such device here")
    assert main([*words, "/dev/zero"]) == 2


def test_a_name_that_is_no_text_still_gives_a_plan(
    table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    odd = table / b"wave\xff.png".decode("utf-8", "surrogateescape")
    try:
        odd.write_bytes(pictures()["png"])
    except OSError:
        pytest.skip("this disk has no such names")
    assert main(["plan", str(odd), "--plate", "30x22", "--out", str(table / "out")]) == 0
    assert read_plate(table / "out" / "plan.plate").plate.title == "Wave?"
    capsys.readouterr()
    words = ["plan", str(odd), "--plate", "30x22", "--out", str(table / "no"), "--title", "\udcff"]
    assert main(words) == 2
    assert "signs that cannot be written" in capsys.readouterr().err


@pytest.mark.parametrize("letters", [300, 5_000])
@pytest.mark.parametrize("words", WORDS, ids=["plan", "sheets", "strip plan", "strip fit"])
def test_a_name_that_is_too_long_is_told_of(
    words: Callable[[Path, str], list[str]],
    letters: int,
    table: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    before = files(table)
    assert main(words(table, str(table / ("x" * letters)))) == 2
    assert "its name is too long" in capsys.readouterr().err
    assert files(table) == before


def test_recovery_on_a_full_disk_says_so_and_goes_on_once_there_is_room(
    qapp: QApplication,
) -> None:
    assert qapp is not None
    with small_disk() as disk:
        fill(disk)
        bench = Bench()
        recovery = Recovery(bench, disk / "recovery", lambda _lying: CURVE, lambda act: act())
        bench.lay(Lying(plate(), pictures()["png"]))
        bench.change("title", replace(plate(), title="A"))
        told: list[bool] = []
        recovery.told.connect(lambda: told.append(recovery.broken))
        recovery.keep()
        (disk / "filling").unlink()
        recovery.keep()
        recovery.close()
        assert told == [True, False]


def test_a_read_only_strip_is_as_it_was(table: Path) -> None:
    before = files(table)
    with pytest.raises(ToneLadderError):
        write_whole(table / "nowhere" / "a.strip", lambda file: file.write(b"x"))
    assert files(table) == before
