"""The values of a guide: pages as blocks and lines, figures with their workings, and the guide that holds them."""
