"""References as managers and databases export them, each turned into one BibTeX entry that loses nothing of it."""
