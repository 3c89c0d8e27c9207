"""Makes the bundled letters from two open families, Alegreya Sans and Alegreya.

    npm pack @expo-google-fonts/alegreya-sans@0.4.2 @expo-google-fonts/alegreya@0.4.2
    python packaging/make_letters.py expo-google-fonts-alegreya*.tgz

Not every layout and not every reader of a PDF knows OpenType features, so what a sheet needs is
put into the letters themselves: figures that line up and are all equally wide, no ligatures, and
one plain table each of characters, widths and kerning, which toneladder.lettering measures by and
Qt draws by. What is missing for a list to tick is drawn here. The families get names of their
own, so that they never meet an installed one.
"""

import sys
import tarfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path

from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont, newTable
from fontTools.ttLib.tables import otTables
from fontTools.ttLib.tables._c_m_a_p import CmapSubtable
from fontTools.ttLib.tables._g_l_y_f import USE_MY_METRICS
from fontTools.ttLib.tables._k_e_r_n import KernTable_format_0
from fontTools.ttLib.tables.otBase import ValueRecord

Outline = Callable[[TTGlyphPen, int], int]

LETTERING = Path(__file__).parents[1] / "core" / "toneladder" / "lettering"

FACES = {  # our file: (file in the package, family, style)
    "sans.ttf": ("AlegreyaSans_400Regular.ttf", "Tone Ladder Sans", "Regular"),
    "sans-bold.ttf": ("AlegreyaSans_700Bold.ttf", "Tone Ladder Sans", "Bold"),
    "sans-italic.ttf": ("AlegreyaSans_400Regular_Italic.ttf", "Tone Ladder Sans", "Italic"),
    "serif-bold.ttf": ("Alegreya_700Bold.ttf", "Tone Ladder Serif", "Bold"),
    "serif-italic.ttf": ("Alegreya_400Regular_Italic.ttf", "Tone Ladder Serif", "Italic"),
}
LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x180)]
SIGNS = "–—‘’‚“”„†•…‰′″‹›⁄€™Ωμπ←↑→↓−√≈≠≤≥▲▶▼◀⅓⅔⅛⅜⅝⅞\u2007\u2009"
BOX, TICK = 0x2610, 0x2713
DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
LEAST_KERN = 6  # thousandths of the size; less is not seen


def main(packages: list[str]) -> None:
    """Write every face and its licence from the packed ``packages``."""
    originals = dict(_members(packages))
    licences = {name: text for name, text in originals.items() if name.startswith("LICENSE_FONT")}
    for ours, (theirs, family, style) in FACES.items():
        font = TTFont(BytesIO(originals[theirs]), recalcTimestamp=False)
        _bake_figures(font)
        _settle_widths(font)
        pairs = _kerning(font)
        _keep_only_what_is_set(font)
        _kern(font, pairs)
        _draw(font, BOX, "ballotbox", _box)
        _draw(font, TICK, "checkmark", _tick)
        _list_characters(font)
        _rename(font, family, style)
        font.save(LETTERING / ours)
        sys.stdout.write(f"{ours}: {(LETTERING / ours).stat().st_size} bytes\n")
    (LETTERING / "OFL.txt").write_bytes(_joined(sorted(licences.values())))


def _members(packages: list[str]) -> list[tuple[str, bytes]]:
    found = []
    for number, package in enumerate(packages):
        with tarfile.open(package) as tar:
            for member in tar.getmembers():
                name = Path(member.name).name
                if (stream := tar.extractfile(member)) and (
                    name.endswith(".ttf") or name == "LICENSE_FONT"
                ):
                    key = f"{name}{number}" if name == "LICENSE_FONT" else name
                    found.append((key, stream.read()))
    return found


def _joined(licences: list[bytes]) -> bytes:
    """One licence under the copyright lines of all."""
    texts = [licence.decode().replace("\r\n", "\n").strip() for licence in licences]
    lines = [text.split("\n", 1)[0] for text in texts]
    rest = {text.split("\n", 1)[1] for text in texts}
    if len(rest) != 1:
        raise SystemExit("The licences of the families differ: join them by hand.")
    return ("\n".join(lines) + "\n" + rest.pop() + "\n").encode()


def _bake_figures(font: TTFont) -> None:
    """Map the digits to the lining, tabular ones and centre each in one common width."""
    width = font["hmtx"]["one.tf"][0]
    for character, digit in zip("0123456789", DIGITS, strict=True):
        name = f"{digit}.tf"
        advance, bearing = font["hmtx"][name]
        shift = round((width - advance) / 2)
        glyph = font["glyf"][name]
        glyph.coordinates.translate((shift, 0))
        glyph.recalcBounds(font["glyf"])
        font["hmtx"][name] = (width, bearing + shift)
        for table in font["cmap"].tables:
            if ord(character) in table.cmap:
                table.cmap[ord(character)] = name
    font["hmtx"][font.getBestCmap()[0x2007]] = (width, 0)


def _settle_widths(font: TTFont) -> None:
    """Give a letter with an accent the width of its letter where the outline asks for it."""
    for name in font.getGlyphOrder():
        for part in getattr(font["glyf"][name], "components", []):
            if part.flags & USE_MY_METRICS:
                font["hmtx"][name] = (font["hmtx"][part.glyphName][0], font["hmtx"][name][1])


def _kerning(font: TTFont) -> dict[tuple[str, str], int]:
    """Every kerned pair among the kept letters, read from the classes of GPOS."""
    cmap = font.getBestCmap()
    kept = {cmap[code] for code in (*range(0x20, 0x7F), *range(0xC0, 0x100), *map(ord, "–—‘’“”…"))}
    kept -= {f"{digit}.tf" for digit in DIGITS}
    gpos = font["GPOS"].table
    lookups = {
        index
        for record in gpos.FeatureList.FeatureRecord
        if record.FeatureTag == "kern"
        for index in record.Feature.LookupListIndex
    }
    pairs: dict[tuple[str, str], int] = {}
    for index in sorted(lookups):
        found: dict[tuple[str, str], int] = {}
        for subtable in gpos.LookupList.Lookup[index].SubTable:
            plain = getattr(subtable, "ExtSubTable", subtable)
            for pair, value in _subtable_pairs(plain, kept):
                found.setdefault(pair, value)  # the first subtable that knows a pair decides
        for pair, value in found.items():
            pairs[pair] = pairs.get(pair, 0) + value
    return {pair: value for pair, value in pairs.items() if abs(value) >= LEAST_KERN}


def _subtable_pairs(
    subtable: otTables.PairPos, kept: set[str]
) -> list[tuple[tuple[str, str], int]]:
    firsts = [name for name in subtable.Coverage.glyphs if name in kept]
    if subtable.Format == 1:
        sets = dict(zip(subtable.Coverage.glyphs, subtable.PairSet, strict=True))
        return [
            ((first, record.SecondGlyph), _advance(record.Value1))
            for first in firsts
            for record in sets[first].PairValueRecord
            if record.SecondGlyph in kept
        ]
    left, right = subtable.ClassDef1.classDefs, subtable.ClassDef2.classDefs
    return [
        ((first, second), _advance(record.Value1))
        for first in firsts
        for second in sorted(kept)
        for record in [subtable.Class1Record[left.get(first, 0)].Class2Record[right.get(second, 0)]]
        if right.get(second, 0)
    ]


def _advance(value: ValueRecord | None) -> int:
    return getattr(value, "XAdvance", 0) or 0


def _keep_only_what_is_set(font: TTFont) -> None:
    """Drop every letter that no text needs, the features and the hinting."""
    options = Options(
        layout_features=[],
        hinting=False,
        notdef_outline=True,
        name_IDs=["*"],
        glyph_names=False,
        drop_tables=["GSUB", "GPOS", "GDEF", "STAT", "GlyphOrder"],
    )
    keeper = Subsetter(options)
    keeper.populate(unicodes=[*LATIN, *map(ord, SIGNS)])
    keeper.subset(font)


def _kern(font: TTFont, pairs: dict[tuple[str, str], int]) -> None:
    table = KernTable_format_0()
    table.version, table.coverage, table.tupleIndex = 0, 1, None
    table.kernTable = pairs
    font["kern"] = newTable("kern")
    font["kern"].version, font["kern"].kernTables = 0, [table]


def _draw(font: TTFont, code: int, name: str, outline: Outline) -> None:
    pen = TTGlyphPen(None)
    width = outline(pen, font["OS/2"].sCapHeight)
    glyph = pen.glyph()
    font["glyf"][name] = glyph
    glyph.recalcBounds(font["glyf"])
    font["hmtx"][name] = (width, glyph.xMin)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def _box(pen: TTGlyphPen, height: int) -> int:
    margin, line = 60, 50
    for inset in (0, line):
        low, high = inset, height - inset
        left, right = margin + low, margin + high
        corners = [(left, low), (left, high), (right, high), (right, low)]
        _contour(pen, corners if inset == 0 else corners[::-1])
    return height + 2 * margin


def _tick(pen: TTGlyphPen, height: int) -> int:
    foot, top = (240, 0), height
    _contour(pen, [(60, 250), (125, 305), (245, 135), (505, top), (580, top), foot])
    return 640


def _contour(pen: TTGlyphPen, corners: list[tuple[int, int]]) -> None:
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    pen.closePath()


def _list_characters(font: TTFont) -> None:
    """The same characters twice: as everybody reads them, and as plain runs of codes."""
    named = font.getBestCmap()
    font["cmap"].tables = [_characters(4, 1, named), _characters(12, 10, named)]


def _characters(kind: int, encoding: int, named: dict[int, str]) -> CmapSubtable:
    table = CmapSubtable.newSubtable(kind)
    table.platformID, table.platEncID, table.language, table.reserved = 3, encoding, 0, 0
    table.length = table.nGroups = 0
    table.cmap = dict(named)  # the same dictionary would be written once, in one format
    return table


def _rename(font: TTFont, family: str, style: str) -> None:
    names = font["name"]
    original = names.getDebugName(4)
    kept = {key: names.getDebugName(key) for key in (0, 5, 8, 9, 11, 12, 13, 14)}
    names.names = []
    compact = f"{family.replace(' ', '')}-{style}"
    ours = {
        1: family,
        2: style,
        3: f"{compact};from {original}",
        4: f"{family} {style}",
        6: compact,
        10: f"Made from {original}: tabular lining figures, no ligatures, a box and a tick added.",
    }
    for key, text in sorted((kept | ours).items()):
        names.setName(text, key, 3, 1, 0x409)
    metrics, line = font["OS/2"], font["hhea"]
    metrics.sTypoAscender, metrics.sTypoDescender = line.ascent, line.descent
    metrics.sTypoLineGap = line.lineGap
    metrics.fsSelection |= 1 << 7  # these are the line's measures on every system


if __name__ == "__main__":
    main(sys.argv[1:])
