"""Pen lines: parted from the washes, and bitten first."""
