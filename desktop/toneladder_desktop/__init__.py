"""The window and the command of Tone Ladder."""
