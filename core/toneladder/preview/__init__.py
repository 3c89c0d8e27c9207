"""What the plate would print if it were stopped here: grain, ink, paper, plate mark."""
