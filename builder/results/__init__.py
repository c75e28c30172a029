"""What reports found: as figures, beside what they may be compared with, pooled where that is honest, and in words."""
