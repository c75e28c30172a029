"""Writing files for people: the first ones of a compendium of their own."""
