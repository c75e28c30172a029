"""The page of one factor."""
