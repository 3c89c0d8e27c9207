"""What to do at the tank now, given the order, what happened, and the time."""
