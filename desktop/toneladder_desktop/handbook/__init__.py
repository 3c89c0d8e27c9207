"""The handbook to read in: chapters, a search, a page."""
