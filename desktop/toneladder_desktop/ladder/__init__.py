"""The tone ladder: two rails, rungs, pegs that follow or are held."""
