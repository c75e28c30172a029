"""Names that no id may take, because an address or a figure's id already means something else by them."""

from __future__ import annotations

RESERVED_ADDRESSES = frozenset(
    "urgent gaps changes upkeep methods contribute data sources search assets index 404 latest stylesheets javascripts".split()
)
"""For questions and keys: pages and folders of the site."""

RESERVED_FACTORS = frozenset("overall over-time patient recall conference".split())
"""For factors: pages of a question."""

RESERVED_CLAIMS = frozenset(("studies",))
"""For claims: the second step in the id of a study's figure."""
