"""Every text of the program is there in every language, and compiled."""

import re
import sys
from gettext import GNUTranslations
from io import BytesIO
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
DECIMAL, FORMAT = re.compile(r"\d[.,]\d"), re.compile(r"\{\w+:[^}]*[efg%]\}")
LANGUAGES = sorted((ROOT / "core" / "toneladder" / "languages").glob("*/LC_MESSAGES/toneladder.po"))

HEAD = '''# A language.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\\n"'''


@pytest.fixture(scope="session")
def tool() -> ModuleType:
    from importlib.util import module_from_spec, spec_from_file_location

    spec = spec_from_file_location("catalogue", ROOT / "packaging" / "catalogue.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


def test_nothing_is_missing_or_stale_or_otherwise_named(tool: ModuleType) -> None:
    """Run packaging/catalogue.py after a text has come, gone or changed; it lists what to mend."""
    texts, lost = tool.texts_of_program()
    assert not lost
    assert LANGUAGES
    for file in LANGUAGES:
        catalogue = tool.read(file.read_text(encoding="utf-8"), file.parts[-3])
        assert not tool.faults_of(catalogue, texts)


def test_quotation_marks_of_another_language_are_a_fault(tool: ModuleType) -> None:
    said = {("“{name}” is there",): ("“{name}” ist da",)}
    wrong = tool.Catalogue(HEAD, said, language="de")
    assert any("quotation marks" in fault for fault in tool.faults_of(wrong, {}))


@pytest.mark.parametrize("file", LANGUAGES, ids=lambda file: file.parts[-3])
def test_what_the_program_reads_is_what_people_edit(tool: ModuleType, file: Path) -> None:
    catalogue = tool.read(file.read_text(encoding="utf-8"))
    compiled = file.with_suffix(".mo").read_bytes()
    assert compiled == tool.compiled(catalogue)
    spoken = GNUTranslations(BytesIO(compiled))
    for key, forms in catalogue.said.items():
        for n, form in enumerate(forms):
            one = spoken.gettext(key[0])
            said = one if len(key) == 1 else spoken.ngettext(key[0], key[1], 1 + n)
            assert said == form


def test_a_file_is_written_as_it_was_read(tool: ModuleType) -> None:
    texts = '\n\nmsgid "a \\"b\\"\\n"\nmsgstr "ä"\n\nmsgid "{n} c"\nmsgid_plural "{n} d"\n'
    texts += 'msgstr[0] "{n} e"\nmsgstr[1] "{n} f"\n'
    read = tool.read(HEAD + texts)
    assert read.said == {('a "b"\n',): ("ä",), ("{n} c", "{n} d"): ("{n} e", "{n} f")}
    assert tool.written(read) == HEAD + texts


def test_long_texts_may_stand_on_several_lines(tool: ModuleType) -> None:
    read = tool.read(HEAD + '\n\nmsgid ""\n"one "\n"text"\nmsgstr ""\n"ein "\n"Text"\n')
    assert read.said == {("one text",): ("ein Text",)}


@pytest.mark.parametrize(
    ("said", "fault"),
    [
        ("", "missing"),
        ("{m} Töne", "braces"),
        ("{n:.0f} Töne", "braces"),
        ("Töne", "braces"),
        (" {n} Töne", "spaces"),
    ],
)
def test_a_faulty_text_is_named(tool: ModuleType, said: str, fault: str) -> None:
    read = tool.read(f'{HEAD}\n\nmsgid "{{n}} tones"\nmsgstr "{said}"\n')
    (named,) = tool.faults_of(read, {("{n} tones",): ["here.py"]})
    assert fault in named


def test_a_text_that_nobody_says_any_more_is_named(tool: ModuleType) -> None:
    (named,) = tool.faults_of(tool.read(HEAD + '\n\nmsgid "gone"\nmsgstr "fort"\n'), {})
    assert "stale" in named
    assert "fort" in named


SOURCE = """
_WORDS = {1: "a word", 2: "another"}

class Metal(StrEnum):
    COPPER = "copper"

def words(kind, metal, broad):
    text = "from a name"
    say("plain", n=1)
    say_number("{n} one", "{n} many", 2)
    say(_WORDS[kind])
    say(text)
    say("wide" if broad else "narrow")
    say(metal.value)
    say(kind)
"""


def test_texts_are_found_by_reading(
    tool: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "core").mkdir()
    (tmp_path / "core" / "some.py").write_text(SOURCE, encoding="utf-8")
    monkeypatch.setattr(tool, "ROOT", tmp_path)
    texts, lost = tool.texts_of_program()
    assert set(texts) - {(text,) for text in tool.OF_COMMAND_LINES} == {
        ("copper",),
        ("plain",),
        ("{n} one", "{n} many"),
        ("a word",),
        ("another",),
        ("from a name",),
        ("wide",),
        ("narrow",),
    }
    assert lost == ["core/some.py:15"]


TYPED = {
    (
        "“{text}” is no grey scale. Write its densities from light to dark, such as “0.05 0.20 "
        "0.35 0.50 0.65”, or its steps, such as “21x0.15”"
    ),
    "of a grey scale in the same scan: its densities, or “21x0.15”",
    "smallest mark, such as 1.5mm",
    "“{text}” is not a bite and a lightness, such as 0:30 62.5.",
    "a check patch of today's bath, such as 1:00,62; an hour or two: grain, clean, ink, pull, dry",
    "of the strip that become tones, such as 0:15,1:00,4:00",
    "the totals really given, such as “0:25,1:00,2:30”; as planned if not said",
    "total bites of the line depths, finest first, such as 15:00,60:00",
    "the total bite of every patch, such as “0,0:15,0:30,1:00”",
}
"""Texts with a number that is to be typed just so, on a command line or in a table for programs."""


def test_no_text_writes_a_number_by_itself(tool: ModuleType) -> None:
    """Numbers come filled in, written as the reader likes them: none in a text or by a format."""
    texts, _ = tool.texts_of_program()
    forms = {form for key in texts for form in key} - TYPED
    assert sorted(form for form in forms if DECIMAL.search(form) or FORMAT.search(form)) == []
    assert {form for key in texts for form in key} >= TYPED
