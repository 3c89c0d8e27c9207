"""How well strips are found and read, as a table of figures:

python -m tests.core.scans.figures [how many scans]
"""

import sys
from collections.abc import Callable

import numpy as np
from tests.core.scans.trial import Trial, photographed, scaled, scanned


def print_row(name: str, trial: Callable[[int], Trial], seeds: range) -> None:
    tried = [trial(seed) for seed in seeds]
    read = [one for one in tried if not one.fault]
    errors = np.concatenate([np.abs(one.errors) for one in read])
    spreads = np.concatenate([one.spreads for one in read])
    print(
        f"{name:12s} found {len(read)}/{len(tried)} = {len(read) / len(tried):.1%};"
        f" L* off: median {np.median(errors):.2f}, 95 % {np.quantile(errors, 0.95):.2f},"
        f" worst {errors.max():.2f}; spread {np.median(spreads):.2f}, within 2 spreads"
        f" {np.mean(errors < 2 * spreads):.0%}; slowest {max(o.seconds for o in tried):.2f} s,"
        f" median {np.median([o.seconds for o in tried]):.2f} s"
    )
    for one in tried:
        if one.fault or max(np.abs(one.errors)) > 1.0:
            print("   ", one.seed, one.patches, one.dpi, one.fault, np.round(one.errors, 1))


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    print_row("scans", scanned, range(count))
    print_row("grey scale", scaled, range(1000, 1000 + count))
    print_row("photographs", photographed, range(2000, 2000 + count))
