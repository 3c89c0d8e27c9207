"""How well lines and washes are parted, on drawings made by script, as a table:

python -m tests.core.lines.figures
"""

import sys

from tests.core.lines.trial import HARDER, Outcome, trial

SEEDS = range(24)


def print_outcome(name: str, outcomes: list[Outcome]) -> None:
    count = len(outcomes)
    mean = {key: sum(getattr(o, key) for o in outcomes) / count for key in Outcome.__slots__}
    worst = min(o.found for o in outcomes), max(o.false for o in outcomes)
    sys.stdout.write(
        f"{name:34s} found {mean['found']:.1%} (worst {worst[0]:.1%})  "
        f"false {mean['false']:.1%} (worst {worst[1]:.1%})  "
        f"beside within 1 L* {mean['near']:.1%}, off by {mean['off']:.2f} L*  "
        f"length {mean['length']:.2f}\n"
    )


if __name__ == "__main__":
    for name, changes in HARDER.items():
        print_outcome(name, [trial(seed, **changes) for seed in SEEDS])
