"""The studio book: baths, strips, plates and what happened at the tank, in one file."""
