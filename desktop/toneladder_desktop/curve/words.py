"""What the curve says in words: the read-out of a rung, its patches as rows."""

from toneladder.quantities import Manner, write_apart, write_bite, write_tone, write_tones
from toneladder.wording import say
from toneladder_desktop.curve.content import Content, Reading, Rung


def told(content: Content, tone: int | None, manner: Manner) -> str:
    """One line about the rung that is picked out, or about the whole curve."""
    rung = next((one for one in content.rungs if one.tone == tone), None)
    if rung is None:
        return _of_all(content)
    words = say(
        "Tone {tone}: {bite} prints {darkness}; the next plate {range}",
        tone=rung.tone,
        bite=write_bite(rung.clock_s),
        darkness=write_tone(rung.lightness, manner),
        range=write_tones(rung.high, rung.low, manner),
    )
    if rung.bite_s > content.longest_tested_s * 1.001:
        return say("{words} · past the longest patch", words=words)
    return words


def _of_all(content: Content) -> str:
    if content.untested:
        return say("Starting point, untested: no strip of this bath was read.")
    return say(
        "{n} patches · black enough from {deepest} · not tested beyond {longest}",
        n=len(content.readings),
        deepest=write_bite(content.deepest_useful_s),
        longest=write_bite(content.longest_tested_s),
    )


def difference(reading: Reading, manner: Manner) -> str:
    """How far a patch lies from what all of them lead to, and which way."""
    darker = reading.expected - reading.lightness
    if abs(darker) < 0.05:
        return say("as expected")
    amount = write_apart(darker, manner)
    return (
        say("{amount} darker", amount=amount)
        if darker > 0
        else say("{amount} lighter", amount=amount)
    )


def described(rung: Rung, manner: Manner) -> str:
    """A rung as a screen reader speaks it."""
    return say(
        "{bite}, prints {darkness}, perhaps {range}",
        bite=write_bite(rung.clock_s),
        darkness=write_tone(rung.lightness, manner),
        range=write_tones(rung.high, rung.low, manner),
    )
