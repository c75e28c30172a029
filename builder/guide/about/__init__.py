"""Pages about the guide as a whole: front, urgent, gaps, changes, upkeep, methods, data, contributing."""
