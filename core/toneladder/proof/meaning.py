"""What a read proof means: for the bath's curve, and for the plate that it was pulled from."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from toneladder.bite.session import Patch, Session
from toneladder.bite.values import Conditions
from toneladder.errors import ProofError
from toneladder.proof.values import ToneReading
from toneladder.strip.values import Dryness, Means, Strip
from toneladder.tones.parting import TOLD_APART
from toneladder.wording import say


def session_of_proof(
    tones: Sequence[ToneReading],
    bites_s: Sequence[float],
    *,
    temperature_c: float = 20.0,
    name: str = "",
    regrained: Collection[int] = (),
) -> Session:
    """The readings of a proof as a session of its bath.

    Parameters
    ----------
    tones : sequence of ToneReading
        What was read; tones that could not be read are not among them.
    bites_s : sequence of float
        Total bite that each tone of the plate really got, clock seconds, tone 0 first.
    temperature_c : float
        Of the bath.
    name : str
        How remarks speak of it.
    regrained : collection of int
        Tones bitten in a second grain too: they tell nothing of the first one's curve.

    Raises
    ------
    ProofError
        If a tone was read whose bite is not said, or none was read; if the longest bitten printed
        lighter than the shortest, as on a negative.
    """
    if not tones or max(tone.tone for tone in tones) >= len(bites_s):
        raise ProofError(
            say(
                "{tones} tones and {bites} bites do not go together. Nothing was changed. Give"
                " the total bite of every tone, the white first: 0.",
                tones=1 + max((tone.tone for tone in tones), default=-1),
                bites=len(bites_s),
            )
        )
    patches = tuple(
        Patch(float(bites_s[tone.tone]), tone.printed_lightness, tone.spread)
        for tone in tones
        if tone.tone not in regrained
    )
    _refuse_negative(patches)
    return Session(patches, temperature_c, proof=True, name=name)


def with_proof(strip: Strip, session: Session) -> Strip:
    """The strip with a proof's readings added; the same proof is not counted twice.

    Raises
    ------
    ProofError
        If the strip was read wet; proofs are read dry.
    """
    if strip.dryness is Dryness.WET:
        raise ProofError(
            say(
                "The bath's strip was read wet, and a dry proof cannot be added to it: ink dries to"
                " another tone. Nothing was changed. Read the strip again when it is dry."
            )
        )
    if session in strip.proofs:
        return strip
    return replace(strip, proofs=(*strip.proofs, session))


def strip_of_proof(session: Session, conditions: Conditions) -> Strip:
    """A strip made of a proof alone, for a bath that has none: its tones are the patches.

    Parameters
    ----------
    session : Session
        The proof's readings, the unbitten tone among them if it was read.
    conditions : Conditions
        Of the plate.
    """
    return Strip(
        replace(conditions, temperature_c=session.temperature_c),
        session.patches,
        means=Means.SCAN,
        note=say("read from the proof of a plate: {name}", name=session.name),
    )


def advice(tones: Sequence[ToneReading]) -> Iterator[str]:
    """What can still be done for the same plate; nothing if every tone is near its plan.

    Trade practice, no source; the readings' own spread is allowed for.
    """
    far = [tone for tone in tones if abs(tone.difference) > max(TOLD_APART, tone.spread)]
    if not far:
        yield say("Every tone is as near its plan as can be told. Nothing needs to be done.")
        return
    white = [tone for tone in far if tone.tone == 0]  # never bitten
    dark = [tone.tone for tone in far if tone.difference < 0.0 and tone not in white]
    light = [tone.tone for tone in far if tone.difference > 0.0 and tone not in white]
    if any(tone.difference < 0.0 for tone in white):
        yield say("The white is darker than planned: wipe it cleaner before you burnish anything.")
    elif white:
        yield say("The white is cleaner than planned: that is the wiping, and nothing to mend.")
    if dark or light:
        yield say("The grain is gone, so this plate cannot simply be bitten on.")
    if dark:
        yield say(
            "Too dark: {tones}. Burnish these first, and proof again.",
            tones=_listed(dark),
        )
    if light:
        yield say(
            "Too light: {tones}. These need a new grain, with everything else stopped out anew;"
            " bites in it do not add to the old curve.",
            tones=_listed(light),
        )


def _refuse_negative(patches: Sequence[Patch]) -> None:
    shortest = min(patches, key=lambda patch: patch.total_bite_s)
    longest = max(patches, key=lambda patch: patch.total_bite_s)
    if longest.lightness > shortest.lightness + TOLD_APART:
        raise ProofError(
            say(
                "The longest bite printed lighter than the shortest: light and dark are exchanged"
                " on this scan, or it shows another plate. Nothing was kept. Scan the print as it"
                " is, and not as a negative."
            )
        )


def _listed(tones: Sequence[int]) -> str:
    return ", ".join(say("tone {n}", n=tone) for tone in tones)
