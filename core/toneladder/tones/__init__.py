"""How many tones, where they part, and what a brush can paint of them."""
