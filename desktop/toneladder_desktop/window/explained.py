"""The figures of the card that are not the etcher's own, each with its explanation."""

from typing import TYPE_CHECKING

from toneladder_desktop.fittings.explaining import explain

if TYPE_CHECKING:
    from toneladder_desktop.window.top import BenchTop


def explain_card(top: "BenchTop") -> None:
    """Let every such field of the card tell what it is, and where it comes from."""
    for control, name in (
        (top.picture.squint, "tones.squint"),
        (top.greys.paper, "tones.paper_from"),
        (top.greys.black, "tones.black_from"),
        (top.plate.fineness, "curve.fineness"),
        (top.bath.temperature, "curve.q"),
        (top.bath.strength, "curve.strength"),
        (top.bath.movement, "curve.movement"),
        (top.strip.grained, "strip.grained_on"),
        (top.strip.check_bite, "strip.check"),
        (top.strip.check_tone, "strip.check"),
        (top.lines.widest, "lines.widest_mm"),
        (top.lines.contrast, "lines.contrast"),
        (top.lines.bites, "lines.bites"),
        (top.soft.steepest, "soft.steepest"),
        (top.soft.shortest, "soft.shortest_mm"),
        (top.soft.remedy, "soft.remedy"),
        (top.steps.mark, "brush.mark_mm"),
        (top.steps.gap, "brush.gap_mm"),
        (top.steps.varnish, "brush.varnish"),
        (top.second_grain.bites, "order.second_grain"),
    ):
        explain(control, name)
    for rate, field in top.pace.fields.items():
        explain(field, f"pace.{rate}")
