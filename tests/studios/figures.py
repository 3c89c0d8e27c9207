"""All figures of the trial as a table, met or missed:

python -m tests.studios.figures
"""

import numpy as np
from tests.studios.loop import Loop, closed, read_from_a_scan
from tests.studios.trial import Series, Table, five_plates, tones_hit

ROWS = (
    ("eight patches", tuple(range(8)), False),
    ("eight patches, one bad", tuple(range(8)), True),
    ("four: none, 15 s, 1, 4 min", (0, 1, 3, 5), False),
    ("four: none, 30 s, 2, 8 min", (0, 2, 4, 6), False),
    ("four: none, 1, 4, 16 min", (0, 3, 5, 7), False),
    ("two: 15 s, 1 min", (1, 3), False),
    ("two: 30 s, 2 min", (2, 4), False),
    ("two: none, 1 min", (0, 3), False),
    ("two: 1, 8 min", (3, 6), False),
)


def print_table(name: str, table: Table, *, one_bad: bool) -> None:
    print(name)
    for way in table.misses:
        print(f"  {way:15s} median {table.middle(way):.2f}  nine in ten {table.tail(way):.2f}")
    print(f"  the band holds {table.cover:.1%}, in the worst studio {table.worst_cover:.1%}")
    if one_bad:
        tried = len(table.misses["fit"])
        print(f"  bad patches named {table.named} of {tried}; good ones {table.wrongly_named}")


def print_series(series: Series) -> None:
    held, after = np.mean(series.held_first), np.mean(series.held_after)
    width, narrow = np.mean(series.width_first), np.mean(series.width_after)
    fewer = np.mean(np.less(series.width_after, series.width_first))
    print("a strip, then five plates")
    print(f"  the band holds {held:.1%}, then {after:.1%}; worst bath {min(series.held_after):.1%}")
    print(f"  its width is {width:.2f}, then {narrow:.2f}; narrower in {fewer:.0%} of the baths")


def print_loop(name: str, loop: Loop) -> None:
    print(f"a plate from a strip of another day, its proof {name}, and the next plate")
    for what, misses in (
        ("first plate", loop.first),
        ("next plate", loop.after),
        ("next, tone by tone", loop.tones_after),
    ):
        median, most = np.median(misses), np.percentile(misses, 90.0)
        print(f"  {what:18s} median {median:.2f}  nine in ten {most:.2f}  worst {max(misses):.2f}")


if __name__ == "__main__":
    for name, patches, one_bad in ROWS:
        print_table(name, tones_hit(patches, seeds=8, one_bad=one_bad), one_bad=one_bad)
    for count, one_bad in ((8, False), (8, True), (4, False)):
        table = tones_hit(seeds=8, telling=count, one_bad=one_bad)
        bad = ", one bad" if one_bad else ""
        print_table(f"{count} patches chosen for the bath{bad}", table, one_bad=one_bad)
    print_series(five_plates())
    print_loop("read to 0.6 L*", closed(seeds=8))
    print_loop("read from a scan", closed(seeds=2, read=read_from_a_scan))
