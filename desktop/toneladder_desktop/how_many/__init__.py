"""How many tones? The sheet on which numbers of tones are compared."""
