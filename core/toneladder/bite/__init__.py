"""Metal, mordant, grain and ink: how dark a bite prints."""
