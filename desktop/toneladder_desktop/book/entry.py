"""What the book keeps of a plate when it is saved."""

from pathlib import Path

from toneladder.book.values import PlateEntry
from toneladder.plate.identity import identity_of
from toneladder.plate.values import Plate
from toneladder.wording import say
from toneladder_desktop.card.printing import inks, papers

LONGEST = 400


def entry_of(plate: Plate, tones: int, path: Path, utc_s: float) -> PlateEntry:
    """The entry of a plate that was saved to ``path`` at that time, with so many tones."""
    conditions, printing = plate.conditions, plate.printing
    found_by = (
        say(conditions.mordant.value),
        conditions.strength,
        say(conditions.grain.value),
        plate.grained_on,
        plate.picture.name,
    )
    return PlateEntry(
        identity=identity_of(plate),
        title=" ".join(plate.title.split())[:LONGEST],
        path=str(path.absolute()),
        saved_utc_s=utc_s,
        metal=conditions.metal,
        tones=tones,
        bath=plate.bath[:LONGEST],
        paper=dict(papers()).get(printing.paper, ""),
        ink=dict(inks()).get(printing.ink, ""),
        record=" ".join(words for words in found_by if words),
    )
