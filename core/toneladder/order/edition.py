"""What an edition needs: size of paper, sheets, days of printing, and what not to forget.

Everything here but the sum of sheets and sides is an assumption or common practice without a
source, and the etcher's own figures take its place.
"""

from dataclasses import dataclass
from math import ceil

from toneladder.errors import PlanError
from toneladder.picture.values import PlateSize
from toneladder.wording import say, say_number

USUAL_ARTIST_SHARE = 0.1
"""Artist's proofs to an edition print: common practice, no source."""

USUAL_PULL_MIN = 15.0
"""Minutes to ink, wipe, print and lay away one sheet: an assumption."""

USUAL_DAY_HOURS = 6.0
"""Hours of printing in a day: an assumption."""

MOST_PRINTS = 1000


@dataclass(frozen=True, slots=True)
class Edition:
    """What an edition shall be.

    ``proofs`` are trial proofs pulled until the plate prints as it should; ``spoilt_share`` is
    the share (0..1) of all prints that go wrong. ``foot_mm`` None is a foot as wide as the other
    margins.
    """

    prints: int = 10
    artist_proofs: int = 1
    proofs: int = 3
    spoilt_share: float = 0.1
    margin_mm: float = 50.0
    foot_mm: float | None = None
    pull_min: float = USUAL_PULL_MIN
    day_hours: float = USUAL_DAY_HOURS


@dataclass(frozen=True, slots=True)
class Needs:
    """What it takes: sides of one sheet in millimetres, sheets, prints a day, days, reminders."""

    width_mm: float
    height_mm: float
    sheets: int
    spare: int
    prints_a_day: int
    days: int
    reminders: tuple[str, ...]


def edition_needs(size: PlateSize, edition: Edition) -> Needs:
    """What an edition of a plate needs.

    Parameters
    ----------
    size : PlateSize
        The plate's sides.
    edition : Edition
        Counts of 0 to 1000 with one print at least, margins above 0 mm, minutes and hours
        above 0, spoilage below one half.

    Returns
    -------
    Needs
        ``spare`` sheets of ``sheets`` are for what is spoilt.

    Raises
    ------
    PlanError
        Something is out of these bounds.
    """
    _require(edition)
    foot = edition.margin_mm if edition.foot_mm is None else edition.foot_mm
    good = edition.prints + edition.artist_proofs + edition.proofs
    spare = ceil(round(good * edition.spoilt_share / (1.0 - edition.spoilt_share), 6))
    sheets = good + spare
    a_day = max(1, int(edition.day_hours * 60.0 / edition.pull_min))
    return Needs(
        width_mm=size.width_mm + 2.0 * edition.margin_mm,
        height_mm=size.height_mm + edition.margin_mm + foot,
        sheets=sheets,
        spare=spare,
        prints_a_day=a_day,
        days=ceil(sheets / a_day),
        reminders=_reminders(min(a_day, sheets)),
    )


def _reminders(a_day: int) -> tuple[str, ...]:
    """Common practice, no source; the paper's maker knows better."""
    return (
        say_number(
            "The evening before: soak {n} sheet, blot it, and keep it damp under plastic and a"
            " board. Soft papers need minutes, sized ones hours.",
            "The evening before: soak {n} sheets, blot them, and keep them damp under plastic and"
            " a board. Soft papers need minutes, sized ones hours.",
            a_day,
        ),
        say(
            "After printing: dry between blotters under boards; change the blotters the same"
            " evening and daily until they stay dry."
        ),
        say("Judge the tones when ink and paper are dry, a day later at the soonest."),
        say("An aquatint wears: compare every tenth print with the proof to print by."),
    )


def _require(edition: Edition) -> None:
    counts = (edition.prints, edition.artist_proofs, edition.proofs)
    if not (edition.prints >= 1 and all(0 <= n <= MOST_PRINTS for n in counts)):
        raise PlanError(
            say(
                "An edition has 1 to {most} prints and up to {most} proofs. Nothing was reckoned.",
                most=MOST_PRINTS,
            )
        )
    lengths = (edition.margin_mm, edition.foot_mm if edition.foot_mm is not None else 1.0)
    times = (edition.pull_min, edition.day_hours)
    good_times = all(0.0 < value < 1000.0 for value in times)
    good_margins = all(0.0 < value <= 1000.0 for value in lengths)
    if not (good_times and good_margins and 0.0 <= edition.spoilt_share < 0.5):
        raise PlanError(
            say(
                "Margins and times are above nothing, and fewer than half of the prints are"
                " spoilt. Nothing was reckoned."
            )
        )
