"""What a change moves: a guide as it was and as it is now, and every difference that a reader can meet."""
