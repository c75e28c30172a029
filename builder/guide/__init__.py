"""What a reader is told: every page as blocks of text and figures."""
