"""Menu entry, kinds of file, store page and icons: as the desktops' specifications want them."""

import configparser
import os
import re
import shlex
import shutil
import stat
import subprocess
import tomllib
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from PIL import Image

from toneladder.book import giving
from toneladder.plate.file import KIND, SUFFIX
from toneladder.strip import file as strip_file

ROOT = Path(__file__).parents[2]
LINUX = ROOT / "packaging" / "linux"
SHARE = LINUX / "share"
NAME = "art.toneladder.planner"
ENTRY = SHARE / "applications" / f"{NAME}.desktop"
PAGE = SHARE / "metainfo" / f"{NAME}.metainfo.xml"
KINDS = SHARE / "mime" / "packages" / f"{NAME}.xml"
THEME = SHARE / "icons" / "hicolor"
MIME = "{http://www.freedesktop.org/standards/shared-mime-info}"  # shared-mime-info 2.2
SYSTEM_KINDS = Path("/usr/share/mime/packages/freedesktop.org.xml")


def entry_of(path: Path) -> configparser.SectionProxy:
    read = configparser.RawConfigParser(delimiters=("=",))
    read.optionxform = str  # type: ignore[assignment,method-assign]  # keys are told apart by case
    read.read(path, encoding="utf-8")
    return read["Desktop Entry"]


def tree_of(path: Path) -> ET.Element:
    return ET.parse(path).getroot()  # noqa: S314  # a file of our own


def needs(tool: str) -> str:
    found = shutil.which(tool)
    if found is None:
        pytest.skip(f"{tool} is not installed")
    return found


def run(*command: str | Path, **more: str) -> subprocess.CompletedProcess[str]:
    settings = {**os.environ, **more}
    return subprocess.run(command, env=settings, capture_output=True, text=True, check=False)


# what the files say of each other and of the program


def test_one_name_holds_the_files_together() -> None:
    page = tree_of(PAGE)
    assert page.findtext("id") == NAME
    assert page.findtext("launchable") == ENTRY.name
    assert entry_of(ENTRY)["Icon"] == NAME
    start = ROOT / "desktop" / "toneladder_desktop" / "window" / "start.py"
    text = start.read_text(encoding="utf-8")
    assert f'setDesktopFileName("{NAME}")' in text  # what Wayland knows a window by
    assert f'setApplicationName("{entry_of(ENTRY)["StartupWMClass"]}")' in text  # and X11


def test_the_menu_starts_the_command_that_the_wheel_installs() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    command, files = shlex.split(entry_of(ENTRY)["Exec"])
    assert command in project["gui-scripts"]
    assert files == "%F"
    page = tree_of(PAGE)
    binaries = {one.text for one in page.iter("binary")}
    assert binaries == {*project["scripts"], *project["gui-scripts"]}


def test_the_store_page_tells_of_this_version() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    releases = [one.get("version") for one in tree_of(PAGE).iter("release")]
    assert releases[0] == project["version"]


def test_every_file_the_program_writes_has_its_kind() -> None:
    known = {
        glob.get("pattern"): kind.get("type")
        for kind in tree_of(KINDS).iter(f"{MIME}mime-type")
        for glob in kind.iter(f"{MIME}glob")
    }
    assert known == {
        f"*{SUFFIX}": KIND.decode(),
        f"*{strip_file.SUFFIX}": "application/x-toneladder-strip",
        f"*{giving.SUFFIX}": "application/x-toneladder-bath",
    }
    assert KIND.decode() in entry_of(ENTRY)["MimeType"].split(";")


def test_german_stands_beside_every_english_word() -> None:
    entry = entry_of(ENTRY)
    for key in ("GenericName", "Comment", "Keywords"):
        assert entry[f"{key}[de]"] != entry[key]
    for kind in tree_of(KINDS).iter(f"{MIME}mime-type"):
        tongues = [one.keys() for one in kind.iter(f"{MIME}comment")]
        assert len(tongues) == 2


def test_icons_are_as_large_as_their_folders_say() -> None:
    sizes = set()
    for path in THEME.glob("*x*/apps/*.png"):
        side = int(path.parts[-3].split("x")[0])
        with Image.open(path) as icon:
            assert icon.size == (side, side)
        assert path.stem == NAME
        sizes.add(side)
    assert {16, 24, 32, 48, 64, 128, 256, 512} <= sizes


# what the desktops' own tools say


def test_the_menu_entry_is_valid() -> None:
    done = run(needs("desktop-file-validate"), ENTRY)
    assert (done.stdout, done.returncode) == ("", 0)


def test_the_store_page_is_valid() -> None:
    done = run(needs("appstreamcli"), "validate", "--no-net", "--no-color", PAGE)
    issues = re.findall(r"^[EW]: .*$", done.stdout, flags=re.MULTILINE)
    # newer validators miss the address of a home page; there is none to be named yet
    assert [issue for issue in issues if not issue.endswith("url-homepage-missing")] == []
    assert bool(done.returncode) == bool(issues), done.stdout


def test_the_kinds_of_file_keep_to_their_grammar(tmp_path: Path) -> None:
    tool = needs("xmllint")
    if not SYSTEM_KINDS.is_file():
        pytest.skip("shared-mime-info is not installed")
    grammar = tmp_path / "kinds.dtd"
    (inside,) = re.findall(r"<!DOCTYPE[^\[]*\[(.*?)\]>", SYSTEM_KINDS.read_text("utf-8"), re.DOTALL)
    grammar.write_text(inside, encoding="utf-8")
    done = run(tool, "--noout", "--nonet", "--dtdvalid", grammar, KINDS)
    assert (done.stderr, done.returncode) == ("", 0)


def test_the_system_recognises_a_plate_by_its_first_bytes(tmp_path: Path) -> None:
    tool = needs("update-mime-database")
    mime = tmp_path / "mime"
    shutil.copytree(SHARE / "mime", mime)
    done = run(tool, mime, XDG_DATA_HOME=str(tmp_path))
    assert (done.stderr, done.returncode) == ("", 0)
    magic = (mime / "magic").read_bytes()
    assert b"[60:" + KIND + b"]" in magic
    assert b">30=\x00\x26mimetype" + KIND in magic


# installed for one user


@pytest.fixture
def bundle(tmp_path: Path) -> Path:
    """A folder as the bundle has it, with a name that a menu entry must quote."""
    folder = tmp_path / "it's 100% $HOME `a` folder"
    shutil.copytree(LINUX, folder)
    program = folder / "toneladder"
    program.write_text("#!/bin/sh\n", encoding="utf-8")
    program.chmod(program.stat().st_mode | stat.S_IXUSR)
    return folder


def install(bundle: Path, home: Path, *words: str) -> subprocess.CompletedProcess[str]:
    home.mkdir(exist_ok=True)
    return run(bundle / "install.sh", *words, HOME=str(home), XDG_DATA_HOME=str(home / "data"))


def test_installing_puts_every_file_in_its_place_and_removing_takes_it_away(
    bundle: Path, tmp_path: Path
) -> None:
    home = tmp_path / "home"
    done = install(bundle, home)
    assert (done.stderr, done.returncode) == ("", 0)
    files = [path.relative_to(SHARE) for path in SHARE.rglob("*") if path.is_file()]
    assert [path for path in files if not (home / "data" / path).is_file()] == []
    assert (home / ".local" / "bin" / "toneladder").resolve() == bundle / "toneladder"
    done = install(bundle, home, "--remove")
    assert (done.stderr, done.returncode) == ("", 0)
    assert [path for path in files if (home / "data" / path).exists()] == []
    assert not (home / ".local" / "bin" / "toneladder").is_symlink()
    assert (bundle / "toneladder").is_file()


def test_the_installed_entry_starts_the_bundle_wherever_it_lies(
    bundle: Path, tmp_path: Path
) -> None:
    install(bundle, tmp_path / "home")
    entry = tmp_path / "home" / "data" / "applications" / ENTRY.name
    # the specification: first \\\\ becomes one, then quoting counts as in a shell, then %% is one %
    value = entry_of(entry)["Exec"].replace("\\\\", "\\")
    command, files = run("sh", "-c", f"printf '%s\\n' {value}").stdout.splitlines()
    assert (command.replace("%%", "%"), files) == (str(bundle / "toneladder"), "%F")
    if shutil.which("desktop-file-validate"):
        assert run("desktop-file-validate", entry).stdout == ""


def test_a_command_of_somebody_else_is_left_as_it_is(bundle: Path, tmp_path: Path) -> None:
    theirs = tmp_path / "home" / ".local" / "bin" / "toneladder"
    theirs.parent.mkdir(parents=True)
    theirs.write_text("theirs", encoding="utf-8")
    for words in ((), ("--remove",)):
        assert install(bundle, tmp_path / "home", *words).returncode == 0
        assert theirs.read_text(encoding="utf-8") == "theirs"


def test_nothing_is_installed_where_the_program_is_not(bundle: Path, tmp_path: Path) -> None:
    (bundle / "toneladder").unlink()
    done = install(bundle, tmp_path / "home")
    assert done.returncode == 1
    assert list((tmp_path / "home").iterdir()) == []
