"""Claims taken apart into findings: what may stand together, which way a level goes, which outcome leads."""
