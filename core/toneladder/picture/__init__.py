"""From a file to the lightness of every cell of the plate: open, lay on the plate, squint."""
