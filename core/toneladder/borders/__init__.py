"""Borders between tones as lines: traced once, shared by all that is drawn from them."""
