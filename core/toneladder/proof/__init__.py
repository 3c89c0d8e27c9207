"""Reads a pulled proof: where each tone of the plan printed, and how dark."""
