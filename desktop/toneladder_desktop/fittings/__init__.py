"""Small controls of our own that every room uses."""
