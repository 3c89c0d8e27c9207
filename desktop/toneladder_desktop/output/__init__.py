"""What leaves the program: sheets painted, PDF, the files of a plan."""
