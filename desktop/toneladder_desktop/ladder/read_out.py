"""What the ladder tells of whatever is picked out: a few lines, and what a move has changed."""

from dataclasses import dataclass, replace

from toneladder.quantities import Manner, write_bite, write_tone, write_tones
from toneladder.wording import say, say_number
from toneladder_desktop.ladder.content import Content, Peg, Remark, Side
from toneladder_desktop.ladder.words import key_of, parting_tone, percent, range_of

PENDING = "…"
"""Stands for a figure that is being worked out."""

_MANY = 2


@dataclass(frozen=True, slots=True)
class ReadOut:
    """A title and a few lines."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Picked:
    """What is picked out on the ladder; the first of these that is there is told of.

    ``fault`` is what is wrong with a typed value, ``in_hand`` the peg a hand moves;
    ``pointed_lightness`` is that of the picture under the pointer on the paper; ``pointed`` and
    ``told`` are the peg or the tone under the pointer, and the one that was chosen last.
    ``before`` is the ladder before a peg was moved. ``focused`` is the peg that has the keys and
    ``chosen`` the tone with the ring; nothing is told of them.
    """

    fault: str = ""
    in_hand: Peg | None = None
    pointed_lightness: float | None = None
    pointed: Peg | int | None = None
    told: Peg | int | None = None
    before: Content | None = None
    focused: Peg | None = None
    chosen: int | None = None
    key_shown: bool = True

    @property
    def only_key(self) -> bool:
        """Whether there is nothing to tell of but the key to the ladder."""
        silent = not self.fault and self.in_hand is None and self.pointed_lightness is None
        return self.key_shown and silent and told_of(self) is None

    def within(self, count: int) -> "Picked":
        """The same on a ladder of ``count`` tones, without what is no longer there."""

        def kept(what: Peg | int | None) -> Peg | int | None:
            step = what.step if isinstance(what, Peg) else what
            return None if step is None or step >= count else what

        chosen = self.chosen if self.chosen is not None and self.chosen < count else None
        return replace(self, pointed=kept(self.pointed), told=kept(self.told), chosen=chosen)


def told_of(picked: Picked) -> Peg | int | None:
    """The peg or the tone that the foot tells of."""
    if picked.fault or picked.in_hand is not None or picked.pointed_lightness is not None:
        return None
    return picked.told if picked.pointed is None else picked.pointed


def foot_of(content: Content, picked: Picked, manner: Manner) -> ReadOut:
    """What stands below the rails; its lines may be longer than there is room."""
    if picked.fault:
        return ReadOut("", (picked.fault,))
    if picked.in_hand is not None:
        return ReadOut("", (say("Ctrl: finer"), say("Esc: as it was before")))
    if picked.pointed_lightness is not None:
        return ReadOut(pointer_words(content, picked.pointed_lightness, manner), ())
    what = told_of(picked)
    if isinstance(what, Peg):
        told = with_range(content, what, read_out(content, what, picked.before, manner))
        last = remark_of(content, what.step)
        last = last or hint_of(content, what, pointed=picked.pointed is not None)
        return ReadOut(told.title, (*told.lines, last))
    if what is not None:
        told = with_range(content, what, rung_read_out(content, what, manner))
        remark = remark_of(content, what)
        return ReadOut(told.title, (*told.lines, remark) if remark else told.lines)
    return ReadOut("", key_of(content) if picked.key_shown else key_of(content)[2:])


def pointer_words(content: Content, lightness: float, manner: Manner) -> str:
    """Which tone a place of the picture becomes."""
    tone = sum(lightness < parting.lightness for parting in content.partings)
    return say(
        "picture {darkness} → tone {tone}", darkness=write_tone(lightness, manner), tone=tone
    )


def read_out(content: Content, peg: Peg, before: Content | None, manner: Manner) -> ReadOut:
    """What belongs to a peg; with ``before``, what its move has changed.

    ``before`` must have as many tones, or it is not looked at.
    """
    if before is not None and before.count != content.count:
        before = None
    maker = _parting_read_out if peg.side is Side.PARTING else _bite_read_out
    return maker(content, peg, before, manner)


def rung_read_out(content: Content, tone: int, manner: Manner) -> ReadOut:
    """What belongs to a tone as a whole."""
    rung = content.rungs[tone]
    title = say("Tone {tone} · {share} % of the plate", tone=tone, share=percent(rung.tone.share))
    prints = say(
        "prints {darkness}, perhaps {range}",
        darkness=write_tone(rung.tone.lightness, manner),
        range=write_tones(rung.tone.lightness_high, rung.tone.lightness_low, manner),
    )
    if tone == 0:
        return ReadOut(title, (prints, say("step 1 stops it out, and it never bites")))
    made = say("step {step} makes it: {bite}", step=tone, bite=write_bite(rung.bite_s))
    return ReadOut(title, (made, prints))


def with_range(content: Content, what: Peg | int, told: ReadOut) -> ReadOut:
    """The same, and how long a total bite may need to be; a parting has none."""
    if isinstance(what, Peg) and what.side is Side.PARTING:
        return told
    rung = content.rungs[what.step if isinstance(what, Peg) else what]
    doubt = range_of(rung)
    if not doubt or Remark.UNTESTED in rung.remarks:
        return told
    first = say("{bite}; in all {range}", bite=told.lines[0], range=doubt)
    return ReadOut(told.title, (first, *told.lines[1:]))


def hint_of(content: Content, peg: Peg, *, pointed: bool) -> str:
    """What a hand does with the peg it points at, or what keys do to the one that has them."""
    if pointed and peg.side is Side.PARTING:
        return say("Drag: move the border in the picture")
    if pointed:
        return say("Drag: bite longer or shorter")
    if content.is_held(peg):
        return say("Enter: type it · Delete: let it go")
    return say("Up, Down: move it · Enter: type it")


def alike_of(content: Content, what: Peg | int | None) -> int | None:
    """The lighter tone of the pair that prints alike and holds a peg's step or a tone."""
    tone = what.step if isinstance(what, Peg) else what
    if tone is None:
        return None
    return next((lighter for lighter in content.alike if lighter in (tone, tone - 1)), None)


def remark_of(content: Content, tone: int) -> str:
    """What must be said of a rung: the first that is true."""
    rung, lighter = content.rungs[tone], alike_of(content, tone)
    if lighter is not None:
        return say("tones {a} and {b} print alike", a=lighter, b=lighter + 1)
    if Remark.UNTESTED in rung.remarks:
        return say("not tested beyond {longest}", longest=write_bite(content.tested_s))
    return say(rung.remarks[0].value) if rung.remarks else ""


def _parting_read_out(
    content: Content, peg: Peg, before: Content | None, manner: Manner
) -> ReadOut:
    lighter, rung = content.rungs[peg.step - 1], content.rungs[peg.step]
    held = say("held at") if content.is_held(peg) else say("follows, at")
    title = say(
        "Parting {a} | {b} · {held} {darkness}",
        a=peg.step - 1,
        b=peg.step,
        held=held,
        darkness=parting_tone(content, peg.step, manner),
    )
    was_lighter = before.rungs[peg.step - 1] if before else lighter
    was = before.rungs[peg.step] if before else rung
    share = say(
        "tone {tone}: {share} % of the plate",
        tone=peg.step - 1,
        share=_change(percent(was_lighter.tone.share), percent(lighter.tone.share)),
    )
    work = say_number(
        "step {step}: {places} place, {minutes} min",
        "step {step}: {places} places, {minutes} min",
        _MANY if rung.places is None else rung.places,
        step=peg.step,
        places=_change(_number(was.places), _number(rung.places)),
        minutes=_change(_number(was.minutes), _number(rung.minutes)),
    )
    return ReadOut(title, (share, work))


def _bite_read_out(content: Content, peg: Peg, before: Content | None, manner: Manner) -> ReadOut:
    rung = content.rungs[peg.step]
    was = before.rungs[peg.step] if before else rung
    title = say(
        "Tone {tone} · {total}, {held}",
        tone=peg.step,
        total=write_bite(rung.tone.total_bite_s),
        held=say("held") if rung.held else say("follows"),
    )
    bite = say(
        "step {step} bites {bite}",
        step=peg.step,
        bite=_change(write_bite(was.bite_s), write_bite(rung.bite_s)),
    )
    prints = say(
        "prints {darkness}, perhaps {range}",
        darkness=_change(
            write_tone(was.tone.lightness, manner), write_tone(rung.tone.lightness, manner)
        ),
        range=write_tones(rung.tone.lightness_high, rung.tone.lightness_low, manner),
    )
    return ReadOut(title, (bite, prints))


def _change(was: str, now: str) -> str:
    return now if was == now else f"{was} → {now}"


def _number(value: float | None) -> str:
    return PENDING if value is None else f"{value:.0f}"
