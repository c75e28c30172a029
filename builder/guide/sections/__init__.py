"""Parts that pages of several kinds have in common."""
