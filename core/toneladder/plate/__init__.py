"""The plate: every decision of the etcher as one frozen value, and its file."""
