"""Keeps the languages complete: every text of the program, and what each language lacks of it.

python packaging/catalogue.py            bring every language up to date and compile it
python packaging/catalogue.py --check    change nothing; list what is missing, stale or wrong

A language is a folder in core/toneladder/languages with a toneladder.po, which people edit, and
a toneladder.mo, which the program reads. A text whose English has changed is stale: its line is
printed before it goes, so that it can be used again.
"""

import ast
import re
import struct
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from string import Formatter

ROOT = Path(__file__).parents[1]
LANGUAGES = ROOT / "core" / "toneladder" / "languages"
NOT_SHOWN = {
    "lettering.Face",
    "sheets.marks.Ink",
    "sheets.marks.Anchor",
    "strip.readings.Unit",
    "tank.values.State",
    "tank.values.Act",
    "tones.values.Choice",
    "tones.values.Wish",
    "bench.look.View",
    "drawing.style.Scheme",
    "ladder.content.Side",
}
"""Words that only files and the program itself read; the values of all others are texts."""

OF_COMMAND_LINES = (
    "usage: ",
    "positional arguments",
    "options",
    "show this help message and exit",
    "the following arguments are required: %s",
    "unrecognized arguments: %s",
    "expected one argument",
    "expected at least one argument",
    "argument %(argument_name)s: %(message)s",
    "unknown parser %(parser_name)r (choices: %(choices)s)",
    "ambiguous option: %(option)s could match %(matches)s",
    "ignored explicit argument %r",
)
"""What argparse says by itself; it asks the same catalogue."""

QUOTED = {"de": "„[^„“”]*“"}
"""What stands in quotation marks in a language."""

Key = tuple[str, ...]
"""A text, or the form for one and the form for many."""


@dataclass
class Catalogue:
    """A language: what it says, in the order of the file, under the comments at the file's head."""

    head: str
    said: dict[Key, tuple[str, ...]]
    places: dict[Key, list[str]] = field(default_factory=dict)
    language: str = ""


def main(arguments: list[str]) -> int:
    """Bring the languages up to date, or only look; the status is 1 if anything is not well."""
    texts, lost = texts_of_program()
    faults = [f"{place}: its text cannot be found by reading" for place in lost]
    for file in sorted(LANGUAGES.glob("*/LC_MESSAGES/toneladder.po")):
        language = file.parts[-3]
        catalogue = read(file.read_text(encoding="utf-8"), language)
        faults += [f"{language}: {fault}" for fault in faults_of(catalogue, texts)]
        if "--check" not in arguments:
            whole = {key: catalogue.said.get(key, ()) for key in texts}
            fresh = Catalogue(catalogue.head, whole, texts)
            file.write_text(written(fresh), encoding="utf-8")
            file.with_suffix(".mo").write_bytes(compiled(fresh))
        elif file.with_suffix(".mo").read_bytes() != compiled(catalogue):
            faults.append(f"{language}: toneladder.mo is not what toneladder.po says")
    print("\n".join([*faults, f"{len(texts)} texts, {len(faults)} to mend"]))
    return 1 if faults else 0


def texts_of_program() -> tuple[dict[Key, list[str]], list[str]]:
    """Every text with the files that say it, and the places whose text cannot be found."""
    texts: dict[Key, list[str]] = {(text,): ["argparse"] for text in OF_COMMAND_LINES}
    lost: list[str] = []
    for path in sorted([*ROOT.glob("core/**/*.py"), *ROOT.glob("desktop/**/*.py")]):
        module = ast.parse(path.read_text(encoding="utf-8"))
        place = path.relative_to(ROOT).as_posix()
        for key in [*_shown_values(module, place), *_said(module, place, lost)]:
            if place not in texts.setdefault(key, []):
                texts[key].append(place)
    return texts, lost


def _shown_values(module: ast.Module, place: str) -> Iterator[Key]:
    """The values of enumerations, unless nobody is shown them."""
    room = ".".join(Path(place).with_suffix("").parts[2:]).removesuffix(".__init__")
    for node in module.body:
        if isinstance(node, ast.ClassDef) and "StrEnum" in map(ast.unparse, node.bases):
            if f"{room}.{node.name}" in NOT_SHOWN:
                continue
            for member in node.body:
                if isinstance(member, ast.Assign) and isinstance(member.value, ast.Constant):
                    yield (str(member.value.value),)


def _said(module: ast.Module, place: str, lost: list[str]) -> Iterator[Key]:
    """What calls of say and say_number say."""
    for node in ast.walk(module):
        if not isinstance(node, ast.Call) or not isinstance(node.func, ast.Name):
            continue
        if node.func.id == "say":
            found = _followed(node.args[0], module)
            yield from ((text,) for text in found or ())
        elif node.func.id == "say_number":
            one, many = (_followed(form, module) for form in node.args[:2])
            found = one and many
            yield from zip(one or (), many or (), strict=True)
        else:
            continue
        if found is None and place != "core/toneladder/wording.py":
            lost.append(f"{place}:{node.lineno}")


def _followed(node: ast.expr | None, module: ast.Module) -> list[str] | None:
    """The texts that an expression may be; none of its own for an enumeration's value."""
    match node:
        case ast.Constant(value=str(text)):
            found: list[str] | None = [text]
        case ast.Attribute(attr="value"):
            found = []
        case ast.IfExp():
            found = _all([node.body, node.orelse], module)
        case ast.Dict():
            found = _all(node.values, module)
        case ast.Tuple() | ast.List():
            found = _all(node.elts, module)
        case ast.Subscript():
            found = _followed(node.value, module)
        case ast.Name():
            found = _all(_given(node.id, module), module)
        case _:
            found = None
    return found


def _all(nodes: list[ast.expr], module: ast.Module) -> list[str] | None:
    texts = [_followed(node, module) for node in nodes]
    if not texts or None in texts:
        return None
    return [text for some in texts for text in some or ()]


def _given(name: str, module: ast.Module) -> list[ast.expr]:
    """What a name is given in a module."""
    return [
        node.value
        for node in ast.walk(module)
        if isinstance(node, ast.Assign | ast.AnnAssign) and node.value is not None
        for target in (node.targets if isinstance(node, ast.Assign) else [node.target])
        if isinstance(target, ast.Name) and target.id == name
    ]


def faults_of(catalogue: Catalogue, texts: dict[Key, list[str]]) -> list[str]:
    """What a language lacks, has too much, or says with other names in braces."""
    faults = [
        f"missing: {key[0]!r} ({places[0]})"
        for key, places in texts.items()
        if not _whole(catalogue, key)
    ]
    for key, forms in catalogue.said.items():
        if key not in texts:
            faults.append(f"stale: {key[0]!r} was {forms!r}")
        for source, form in zip(key, forms, strict=False):
            if names_in(source) != names_in(form):
                faults.append(f"other names in braces: {source!r} → {form!r}")
            if not quoted_well(form, catalogue.language):
                faults.append(f"quotation marks of another language: {form!r}")
            if _edges(source) != _edges(form):
                faults.append(f"other spaces at the ends: {source!r} → {form!r}")
    return faults


def _whole(catalogue: Catalogue, key: Key) -> bool:
    forms = catalogue.said.get(key, ())
    return len(forms) == len(key) and all(forms)


def names_in(text: str) -> set[tuple[str, str]]:
    """The names in braces and how they are to be written; and those after a per cent sign.

    >>> sorted(names_in("{n} of {share:.0f} %"))
    [('n', ''), ('share', '.0f')]
    >>> sorted(names_in("required: %s"))
    [('%s', '')]
    """
    signs = re.findall(r"%(?:\(\w+\))?[rs]\b", text)
    return {(sign, "") for sign in signs} | {
        (name, how or "") for _, name, how, _ in Formatter().parse(text) if name is not None
    }


def quoted_well(text: str, language: str) -> bool:
    """Whether a text has quotation marks of its own language alone, and in pairs.

    >>> [quoted_well(text, "de") for text in ("„{name}“ ist da", "“{name}” ist da", "„{name}")]
    [True, False, False]
    """
    if language not in QUOTED:
        return True
    return not re.search("[“”„«»]", re.sub(QUOTED[language], "", text))


def _edges(text: str) -> tuple[str, str]:
    return text[: len(text) - len(text.lstrip())], text[len(text.rstrip()) :]


def read(text: str, language: str = "") -> Catalogue:
    """A .po file: its head with everything before the first text, and what it says."""
    blocks = re.split(r"\n\s*\n", text.strip())
    catalogue = Catalogue(blocks[0], {}, language=language)
    for block in blocks[1:]:
        strings: dict[str, str] = {}
        name = ""
        for line in block.splitlines():
            if line.startswith("#"):
                continue
            said, quote, rest = line.partition('"')
            name = said.strip() or name
            strings[name] = strings.get(name, "") + str(ast.literal_eval(quote + rest))
        ids = tuple(strings[name] for name in ("msgid", "msgid_plural") if name in strings)
        forms = tuple(value for name, value in strings.items() if name.startswith("msgstr"))
        catalogue.said[ids] = forms if all(forms) else ()
    return catalogue


def written(catalogue: Catalogue) -> str:
    """A catalogue as the text of a .po file."""
    blocks = [catalogue.head]
    for key, forms in catalogue.said.items():
        lines = [f"#: {place}" for place in catalogue.places.get(key, ())]
        names = ("msgid", "msgid_plural")
        lines += [f"{name} {_quoted(text)}" for name, text in zip(names, key, strict=False)]
        for number, form in enumerate(forms or ("",) * len(key)):
            lines.append(f"msgstr{f'[{number}]' if len(key) > 1 else ''} {_quoted(form)}")
        blocks.append("\n".join(lines))
    return "\n\n".join(blocks) + "\n"


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return '"' + escaped.replace("\t", "\\t") + '"'


def compiled(catalogue: Catalogue) -> bytes:
    """A catalogue as gettext's .mo file: sorted texts behind two tables of lengths and places."""
    heading = _heading(catalogue.head)
    pairs = {"": heading} | {
        "\0".join(key): "\0".join(forms) for key, forms in catalogue.said.items() if forms
    }
    rows = sorted((key.encode(), said.encode()) for key, said in pairs.items())
    start = 7 * 4
    texts_at = start + 16 * len(rows)
    tables: list[int] = []
    body = b""
    for side in (0, 1):
        for row in rows:
            tables += (len(row[side]), texts_at + len(body))
            body += row[side] + b"\0"
    head = (0x950412DE, 0, len(rows), start, start + 8 * len(rows), 0, start)
    return struct.pack(f"<{7 + len(tables)}I", *head, *tables) + body


def _heading(head: str) -> str:
    """What the head of the file says of its letters and of its forms for numbers."""
    quoted = [line for line in head.splitlines() if line.startswith('"')]
    return "".join(str(ast.literal_eval(line)) for line in quoted)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
