"""What a reader is told: figures, what may stand together, and every page as blocks of text and figures."""
