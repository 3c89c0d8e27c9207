"""The decisions of the card at the left, each with its question, its answer and what decides it."""
