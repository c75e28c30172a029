"""A publication as a bibliographic reference: its fields by name, before any style writes them."""

from __future__ import annotations

from ...records import NamedTuple


class Person(NamedTuple):
    """One author or editor: a person by the parts of the name, or a body by its whole name."""

    family: str = ""
    given: str = ""
    particle: str = ""
    """ "van der": printed before the family name."""
    suffix: str = ""
    """ "Jr", "III"."""
    body: str = ""
    """The name of a group or an institution; then the other parts are empty."""

    @property
    def inverted(self) -> str:
        """ "van der Berg, Hans, Jr", the way RIS and BibTeX take a name; a body's name as it is."""
        if self.body:
            return self.body
        family = " ".join(filter(None, (self.particle, self.family)))
        return ", ".join(filter(None, (family, self.given, self.suffix)))


class Reference(NamedTuple):
    """What an entry says of a publication, TeX resolved; "" or empty for whatever it does not say."""

    kind: str = "article"
    """A type of BibTeX or biblatex in lower case."""
    authors: tuple[Person, ...] = ()
    has_more_authors: bool = False
    """The entry ends its authors with "and others"."""
    editors: tuple[Person, ...] = ()
    title: str = ""
    container: str = ""
    """The journal, the book of a chapter, the volume of a meeting."""
    publisher: str = ""
    place: str = ""
    date: tuple[int, ...] = ()
    """Year; year and month; or year, month and day."""
    state: str = ""
    """ "online first" and the like, of what stands in no volume yet."""
    volume: str = ""
    issue: str = ""
    pages: str = ""
    """First and last with an en dash between, or the number of an article."""
    edition: str = ""
    number: str = ""
    """Of a report."""
    doi: str = ""
    """Without the address of a resolver."""
    address: str = ""
    """Where it stands on the web."""
    seen: tuple[int, ...] = ()
    """The day on which somebody looked there, in the shape of `date`."""
    is_retracted: bool = False
