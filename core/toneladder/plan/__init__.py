"""Works the plate out, stage by stage, each stage remembered until what it rests on changes."""
