"""The plate laid on the picture: its outline stands still, the picture moves under it."""
