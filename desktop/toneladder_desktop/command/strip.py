"""``toneladder strip fit`` and ``toneladder curve``: from typed readings to a bite curve."""

import argparse
import json
import sys
from pathlib import Path

from toneladder.bite.curve import bite_for
from toneladder.bite.starting_points import require_safe_pair
from toneladder.bite.values import BiteCurve, Conditions
from toneladder.errors import StripError
from toneladder.quantities import name_tone, write_bite
from toneladder.refusals import reason_of
from toneladder.wording import say
from toneladder_desktop.command.evidence import strip_day_words
from toneladder_desktop.command.strip_plan import add_plan_words
from toneladder_desktop.command.strip_read import add_read_words
from toneladder_desktop.command.words import bath_words, conditions_of
from toneladder_desktop.output.folder import refuse_replacing

LARGEST_TABLE = 1_000_000


def add_strip_words(words: argparse.ArgumentParser) -> None:
    """The words of ``strip``."""
    commands = words.add_subparsers(required=True, metavar="plan | read | fit")
    what = say("which bites to give a strip, and its card")
    add_plan_words(commands.add_parser("plan", help=what, description=what, allow_abbrev=False))
    what = say("from a scan or photograph of a printed strip to a strip")
    add_read_words(commands.add_parser("read", help=what, description=what, allow_abbrev=False))
    fit = commands.add_parser(
        "fit",
        help=say("from typed readings to a strip"),
        description=say(
            "Keeps typed readings as a strip. The table has rows of a total bite and a reading: "
            "total_bite,lightness or total_bite,density."
        ),
        allow_abbrev=False,
    )
    fit.set_defaults(run=fit_readings)
    fit.add_argument("readings", metavar="READINGS.csv")
    fit.add_argument("--out", required=True, metavar="STRIP.strip")
    fit.add_argument("--replace", action="store_true", help=say("replace an older strip"))
    strip_day_words(fit)
    bath_words(fit)


def add_curve_words(words: argparse.ArgumentParser) -> None:
    """The words of ``curve``."""
    words.set_defaults(run=show_curve)
    words.add_argument("strip", metavar="STRIP.strip")
    words.add_argument("--json", action="store_true", help=say("for other programs"))


def fit_readings(chosen: argparse.Namespace) -> int:
    """Read a table, fit it, keep it as a strip; returns the exit status.

    Raises
    ------
    ToneLadderError
        A pair that must not meet, rows that cannot be read, a place that cannot be written to.
    """
    from toneladder.strip.curve import fit_strips
    from toneladder.strip.file import write_strip
    from toneladder.strip.table import read_table
    from toneladder.strip.values import Strip

    conditions = conditions_of(chosen, Conditions())
    require_safe_pair(conditions.metal, conditions.mordant)
    out = Path(chosen.out)
    refuse_replacing(out, replace=chosen.replace)
    table = read_table(_text_of(Path(chosen.readings)))
    if table.bad:
        raise StripError(
            say(
                "{rows} Nothing was written. Mend the table and read it again.", rows=table.sentence
            )
        )
    strip = Strip(conditions, table.patches, grained_on=chosen.grained_on or "")
    found = fit_strips([strip])
    write_strip(out, strip)
    for remark in found.remarks:
        print(remark, file=sys.stderr)
    print(say("The strip is in {file}.", file=out))
    return 0


def show_curve(chosen: argparse.Namespace) -> int:
    """Print a strip's bite curve; returns the exit status.

    Raises
    ------
    ToneLadderError
        A strip that cannot be read or that gives no curve.
    """
    from toneladder.strip.curve import fit_strips
    from toneladder.strip.file import read_strip

    found = fit_strips([read_strip(Path(chosen.strip))])
    for remark in found.remarks:
        print(remark, file=sys.stderr)
    print(curve_json(found.curve) if chosen.json else curve_text(found.curve), end="")
    return 0


def curve_json(curve: BiteCurve) -> str:
    """The curve for other programs: seconds and CIE L*, from no bite to the longest tested."""
    rows = zip(curve.bites_s, curve.lightness, curve.low, curve.high, strict=True)
    tree = {
        "curve": [
            {"total_bite_s": bite, "lightness": line, "low": low, "high": high}
            for bite, line, low, high in rows
        ],
        "longest_tested_s": curve.longest_tested_s,
        "deepest_useful_s": curve.deepest_useful_s,
    }
    return json.dumps(tree, indent=1) + "\n"


def curve_text(curve: BiteCurve) -> str:
    """The curve to be read: darkness from white downwards, and the bite it needs."""
    lightest, darkest = curve.lightness[0], min(curve.lightness)
    lines = []
    for tenth in range(int(lightest), int(darkest), -10):
        bite = write_bite(bite_for(curve, float(tenth)))
        lines.append(say("{tone}: {bite}", tone=name_tone(float(tenth)), bite=bite))
    lines.append(say("not tested beyond {bite}", bite=write_bite(curve.longest_tested_s)))
    return "\n".join(lines) + "\n"


def _text_of(path: Path) -> str:
    try:
        with path.open("rb") as file:
            data = file.read(LARGEST_TABLE + 1)
        if len(data) > LARGEST_TABLE:
            raise StripError(
                say("{name} is far too large for readings of a strip.", name=path.name)
            )
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise StripError(
            say(
                "{name} is not a text file. Nothing was written. Save the table as CSV, UTF-8.",
                name=path.name,
            )
        ) from fault
    except OSError as fault:
        raise StripError(
            say(
                "{name} cannot be read ({reason}). Nothing was written. Check its name.",
                name=path.name,
                reason=reason_of(fault),
            )
        ) from fault
