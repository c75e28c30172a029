"""Names that no id may take, because an address or a figure's id means something else by them; names of units."""

from __future__ import annotations

from collections.abc import Iterable

from ..numerals.format_units import COUNTED_IN_A_STUDY, FORMAT_1
from ..numerals.lexicon import Unit
from ..records import NamedTuple
from .page_kinds import PAGES

PAGES_OF_THE_GUIDE = frozenset(
    page.address.split("/")[0] for page in PAGES if page.address and not page.address.startswith("{")
)
"""First steps of addresses at which a page stands, one of every guide."""

_FOLDERS = frozenset(("assets", "index", "404", "latest", "stylesheets", "javascripts"))
RESERVED_ADDRESSES = PAGES_OF_THE_GUIDE | _FOLDERS
"""For questions and keys: pages and folders of the site."""

_BELOW_A_QUESTION = "{question}/"
PAGES_OF_A_QUESTION = frozenset(
    page.address.removeprefix(_BELOW_A_QUESTION).rstrip("/")
    for page in PAGES
    if page.address.startswith(_BELOW_A_QUESTION)
) - {"", "{factor}"}
"""Below each question, beside one for each factor."""

RESERVED_FACTORS = PAGES_OF_A_QUESTION | {"overall"}
"""For factors: pages of a question."""

RESERVED_CLAIMS = frozenset(("studies",))
"""For claims: the second step in the id of a study's figure."""


def words_of_units(units: Iterable[Unit]) -> tuple[tuple[str, str], ...]:
    """Each word of these units in lower case, with the id of its unit."""
    return tuple((word.casefold(), unit.id) for unit in units for word in unit.words if word)


class UnitNames(NamedTuple):
    """What a field that names a unit may hold."""

    all: tuple[str, ...] = COUNTED_IN_A_STUDY
    """Ids, those that the compendium declares itself first."""
    unreadable: frozenset[str] = frozenset()
    """Ids that exist, though what stands behind them could not be read."""
    listed: tuple[str, ...] = COUNTED_IN_A_STUDY
    """Those that a message lists: to another trade, none that only the format's own counts."""
    words: tuple[tuple[str, str], ...] = words_of_units(map(FORMAT_1.units.__getitem__, COUNTED_IN_A_STUDY))
    """Words of those that are listed, in lower case, each with its id: who typed one of them meant that unit."""
