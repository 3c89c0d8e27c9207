"""The headless commands: a plan, a strip, a curve."""
