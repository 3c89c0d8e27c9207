"""The print on its paper in the middle of the bench."""
