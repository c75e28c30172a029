"""Drawings that are taken along: each by itself, with title, caption, citation and the mark of a demonstration."""
