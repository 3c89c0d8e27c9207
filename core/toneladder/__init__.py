"""Tone Ladder: from a picture to the bites and stop-outs of an aquatint plate.

Frozen values and functions from values to values; no clock, no settings, no window.
"""
