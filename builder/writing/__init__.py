"""Writing files for people: the first ones of a compendium of their own."""

INVENTED_JOURNAL = "Annals of Invented Practice"
"""Where the report of the example says that it appeared: it marks what is to be replaced."""
