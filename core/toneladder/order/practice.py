"""What the trade does before the first bite, within every step and after the last bite.

Common practice, no source, except where a line says more.
"""

from toneladder.bite.values import Conditions, GrainKind
from toneladder.bite.varnish import grain_removal, varnish_facts
from toneladder.wording import say


def before_first_bite(conditions: Conditions) -> tuple[str, ...]:
    """Boxes to tick before the plate goes in for the first time."""
    rosin = conditions.grain is GrainKind.ROSIN
    return (
        say("grain even and fused") if rosin else say("grain even and dry"),
        say("no grease, no dust"),
        say("back and edges tight"),
        say("varnish dry"),
        say("bath temperature read"),
        say("the right tank, for {metal}", metal=say(conditions.metal.value)),
        say("strip from this grain"),
    )


def within_step() -> tuple[str, ...]:
    """What every step goes through, in order."""
    return (
        say("Rinse, blot and dry in cool air: varnish does not hold on a damp plate."),
        say("Never rub the grain."),
        say("Look under the loupe; go over old varnish, edges, pinholes."),
        say("Stop out, and let the varnish dry."),
        say("Turn the plate head to foot at every bite."),
    )


def after_last_bite(conditions: Conditions) -> tuple[str, ...]:
    """What is left to do when the last bite is done."""
    return (
        say(
            "Take the varnish off with {solvent}.",
            solvent=varnish_facts(conditions.varnish).solvent,
        ),
        grain_removal(conditions.grain),
        say("Uncover the back, brighten the metal."),
        say("Three pulls before judging; read dry, tomorrow."),
    )
