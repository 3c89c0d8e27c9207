"""Test strips: planned, read, kept, and what becomes of them."""
