"""Two hundred random scans of proofs, with and without their resolution:

python -m tests.core.proof.figures [first seed] [last seed]
"""

import sys

import numpy as np
from tests.core.proof.trial import Trial, taken_for_a_proof, tried


def print_trials(trials: list[Trial]) -> None:
    laid = [trial for trial in trials if trial.laid]
    errors = np.abs([error for trial in trials for error in trial.errors])
    off = np.array([trial.off_mm for trial in trials])
    off = off[np.isfinite(off)]
    print(f"laid to 0.3 mm: {len(laid)} of {len(trials)}, {len(trials) - len(off)} refused")
    print(f"off by {np.median(off):.3f} mm (median), {off.max():.3f} (worst)")
    print(f"lightness off by {np.median(errors):.2f} (median), {errors.max():.2f} (worst)")
    print(f"tones over 1 % not read: {sum(trial.missing for trial in trials)}")
    print(f"least score {min(trial.score for trial in trials):.3f}")
    seconds = [trial.seconds for trial in trials]
    print(f"processor {np.median(seconds):.2f} s (median), {max(seconds):.2f} s (worst)")


if __name__ == "__main__":
    first, last = (int(word) for word in (sys.argv[1:3] or ("0", "200")))
    for says_dpi in (True, False):
        trials = []
        for seed in range(first, last):
            trial = tried(seed, says_dpi=says_dpi)
            trials.append(trial)
            worst = max((abs(error) for error in trial.errors), default=np.inf)
            print(
                f"{seed} {trial.off_mm:.3f} mm, residual {trial.residual_mm:.3f}, score"
                f" {trial.score:.3f}, worst tone {worst:.2f}, missing {trial.missing}, places"
                f" {trial.places}, {trial.seconds:.2f} s, {trial.tones} tones,"
                f" {trial.look.dpi:.0f} dpi, cropped {trial.look.margin is None}",
                flush=True,
            )
        print_trials(trials)
    taken = sum(taken_for_a_proof(seed) for seed in range(first, last))
    print(f"photographs and other plates taken for a proof: {taken} of {last - first}")
