"""From total bites to the stop-out order: steps, rounding, dips, the day, cautions."""
