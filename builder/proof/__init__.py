"""Where each quoted number stands in its passage, and what ties it to its claim there."""
