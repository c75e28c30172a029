"""Evidence and hand-written pages become typed, immutable values with their place; nothing else opens such a file.

`evidence.read_evidence` is the way in; `model` names what comes out; `rules.READING_RULES` tells what may be wrong.
"""
