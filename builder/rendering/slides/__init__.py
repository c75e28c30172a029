"""Talks as slides (ECMA-376 PresentationML): what stands on which slide, the template, the bytes."""
