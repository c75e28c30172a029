"""The proof of each quoted number in its passage: what a field asks for, what a passage offers, and the choice."""
