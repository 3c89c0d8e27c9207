"""The day as a plunge line."""
