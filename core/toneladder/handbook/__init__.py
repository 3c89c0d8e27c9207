"""The handbook: its chapters, a search in them, and what each number rests on."""
