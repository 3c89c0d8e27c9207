"""What the ladder says in words: heads, ranges, names, and what a screen reader speaks."""

from math import isinf

from toneladder.quantities import (
    Manner,
    Scale,
    scale_name,
    tone_figure,
    write_bite,
    write_least,
    write_range,
    write_tone,
    written,
)
from toneladder.tones.values import Choice
from toneladder.wording import say, say_number
from toneladder_desktop.ladder.content import Content, Parting, Peg, Remark, Rung, Side


def title_of(content: Content) -> str:
    """How many tones, how many bites."""
    tones = say_number("{n} tone", "{n} tones", content.count)
    bites = say_number("{n} bite", "{n} bites", content.count - 1)
    return say("{tones}, {bites}", tones=tones, bites=bites)


def standing_of(content: Content) -> str:
    """How the tones are chosen, or that nothing was tested; how many pegs are held."""
    chosen = say("starting points, untested") if content.untested else _choices()[content.choice]
    parts = [chosen]
    if content.asked_tones > content.count:
        parts.append(say("{n} asked for", n=content.asked_tones))
    if content.held:
        parts.append(say("{n} held", n=content.held))
    if content.set_aside:
        parts.append(say("{n} set aside", n=content.set_aside))
    return " · ".join(parts)


def _choices() -> dict[Choice, str]:
    return {
        Choice.EVEN: say("even steps"),
        Choice.PICTURE: say("following the picture"),
        Choice.STRIP: say("copied from the strip"),
    }


def letting_all_go(content: Content) -> str:
    """What the link at the head says; nothing if no peg is held."""
    held = content.held + content.set_aside
    if not held:
        return ""
    return say("Let go of 1 peg") if held == 1 else say("Let all go")


def key_of(content: Content) -> tuple[str, ...]:
    """What the figures on the ladder mean, in a few lines."""
    lines = (
        _rung_key(),
        say("Move a peg: it is held, the others follow."),
    )
    if not content.untested:
        return lines
    return (*lines, say("Neighbours may come out alike until a strip is read."))


def _rung_key() -> str:
    if written().scale is Scale.DARKNESS:
        return say("A rung: number, darkness (0 white, 10 black), total bite.")
    return say("A rung: number, {scale}, total bite.", scale=scale_name())


def range_of(rung: Rung) -> str:
    """How long the total bite may need to be; past the tested bites nobody knows."""
    tone = rung.tone
    if Remark.UNTESTED in rung.remarks:
        return say("not tested")
    if tone.total_bite_s <= 0.0:
        return ""
    if isinf(tone.longest_s):
        return say("from {bite}", bite=write_least(tone.shortest_s))
    return write_range(max(tone.shortest_s, 1.0), tone.longest_s)


def range_in_short(rung: Rung) -> str:
    """As `range_of`, with a sign in place of a word where nobody knows the longest bite."""
    if Remark.UNTESTED in rung.remarks or not isinf(rung.tone.longest_s):
        return range_of(rung)
    return f"≥\N{NO-BREAK SPACE}{write_least(rung.tone.shortest_s)}"


def name_of(peg: Peg) -> str:
    """What a peg is."""
    if peg.side is Side.PARTING:
        return say("Parting of tones {a} and {b}", a=peg.step - 1, b=peg.step)
    return say("Total bite of tone {tone}", tone=peg.step)


def described(content: Content, peg: Peg, manner: Manner) -> str:
    """Where a peg is and whether it is held."""
    if peg.side is Side.PARTING:
        where = f"{scale_name(manner)} {parting_tone(content, peg.step, manner)}"
    else:
        where = write_bite(content.value(peg))
    held = say("held") if content.is_held(peg) else say("follows")
    return say("{where}, {held}", where=where, held=held)


def spoken(content: Content, peg: Peg, manner: Manner) -> str:
    """What a moved peg changed, as a screen reader says it once the hand rests."""
    rung = content.rungs[peg.step]
    if peg.side is Side.BITE:
        return say(
            "Tone {tone}, total bite {total}, prints {darkness}. Step {step} bites {bite}.",
            tone=peg.step,
            total=write_bite(rung.tone.total_bite_s),
            darkness=write_tone(rung.tone.lightness, manner),
            step=peg.step,
            bite=write_bite(rung.bite_s),
        )
    said = say(
        "Parting {a} and {b}, {scale} {figure}. Tone {a}, {share} percent.",
        a=peg.step - 1,
        b=peg.step,
        scale=scale_name(manner),
        figure=parting_tone(content, peg.step, manner),
        share=percent(content.rungs[peg.step - 1].tone.share),
    )
    if rung.places is None or rung.minutes is None:
        return said
    places = say_number("{n} place", "{n} places", rung.places)
    minutes = say_number("{n} minute", "{n} minutes", round(rung.minutes))
    return say(
        "{said} Step {step}, {places}, {minutes}.",
        said=said,
        step=peg.step,
        places=places,
        minutes=minutes,
    )


def parting_tone(content: Content, step: int, manner: Manner) -> str:
    """Printed tone of a parting, as a figure; a held darkness in hundredths, if it has them."""
    parting: Parting = content.partings[step - 1]
    if not parting.held or manner.scale is not Scale.DARKNESS:
        return tone_figure(parting.lightness, manner)
    return manner.rounded(10.0 - parting.lightness / 10.0, 2).removesuffix("0")


def percent(share: float) -> str:
    """A share of the plate in whole percent."""
    if 0.0 < share < 0.01:
        return say("under 1")
    return f"{100.0 * share:.0f}"
