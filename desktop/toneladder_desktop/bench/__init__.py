"""The open plate, what is worked out of it, and what is kept of it."""
