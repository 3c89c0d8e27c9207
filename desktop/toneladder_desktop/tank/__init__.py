"""The plate at the tank: one sentence, one figure, one act, to be seen across a room."""
