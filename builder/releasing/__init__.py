"""A release prepared: its number where it stands, its notes, how it is cited, and what a registry of DOIs asks for."""
