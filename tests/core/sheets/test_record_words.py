"""The words of a plate's record."""

from toneladder.book.values import Pull, PullKind
from toneladder.sheets.record_words import prints_counted


def test_prints_are_counted_by_kind_so_that_no_artists_proof_passes_for_a_trial() -> None:
    kinds = (PullKind.EDITION, PullKind.ARTIST, PullKind.ARTIST, PullKind.TRIAL, PullKind.SPOILT)
    counted = prints_counted([Pull("2026-03-15", kind) for kind in kinds])
    assert counted == "1 edition print, 2 artist's proofs, 1 proof, 1 spoilt"
