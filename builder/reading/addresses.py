"""Web addresses and DOIs that people type: what in them would lead a reader elsewhere than it seems."""

from __future__ import annotations

import re
import unicodedata
from urllib.parse import urlsplit

from ..compiled_patterns import compiled
from ..problems import Problem, error
from .invisible import is_told
from .latex import readable_text
from .limits import ADDRESS
from .places import Places
from .report_model import Field

_find_sign = compiled(r"[<>\"{}|\\^`]").search
_TAGS = "a b br div em font i iframe img math p script span strong style sub sup svg u"
_find_markup = compiled(
    rf"<(?:[/!?]|(?:{_TAGS.replace(' ', '|')})(?=[\s/>]|$))|[{{}}\"\\]|&(?:#|[A-Za-z]+;)", re.IGNORECASE
).search
_find_addresses = compiled(r"https?://[^\s<>()\[\]\"'`|]+", re.IGNORECASE).finditer


def address_fault(text: str) -> tuple[str, str] | None:
    """What is wrong with an address that begins with https:// or should, and what to do; None where nothing is.

    Only https:// keeps what is sent from being read or changed on its way; a name or password before the host makes an
    address seem to lead to another one (RFC 3986, section 7.6).
    """
    if len(text) > ADDRESS:
        return f"has {len(text):,} characters, and an address may have {ADDRESS:,}", "cut off what follows the ?"
    hidden = _hidden(text)
    if hidden:
        return f"holds an invisible character ({hidden})", "type the address anew"
    try:
        parts = urlsplit(text)
        host = parts.hostname
    except ValueError:
        return "is not an address that begins with https://", _COPY
    if parts.scheme == "http":
        return "begins with http://, so anybody on its way can change what it shows", f"https{text[4:]}"
    if parts.scheme != "https" or not host:
        return "is not an address that begins with https://", _COPY
    if "@" in parts.netloc:
        return 'holds a name or password before the "@", which readers take for the host', "delete all from // to @"
    sign = _find_sign(text)
    if sign is not None:
        return f'holds "{sign[0]}", which stands in no address', _COPY
    return None


def doi_fault(text: str) -> str:
    """What stands in a DOI and cannot belong to it; "" where nothing does. text: as a page prints it."""
    hidden = _hidden(text)
    if hidden:
        return f"an invisible character ({hidden})"
    if len(text) > ADDRESS:
        return f"{len(text):,} characters"
    markup = _find_markup(text)  # "33<e1204>2.0" is of DOIs made from SICIs
    return f'"{markup[0]}"' if markup is not None else ""


def refuse_links(fields: dict[str, Field], problems: list[Problem]) -> None:
    """Notes what is wrong with the address and the DOI of an entry."""
    url = fields.get("url")
    if url is not None and "//" in url.text:
        shown = readable_text(url.text) if "\\" in url.text else url.text
        if "\u00a0" not in url.text:
            shown = shown.replace("\u00a0", "~")  # a tie in TeX, and in an address a sign as any other
        shown = shown.strip("{} ")
        fault = address_fault(shown)
        if fault is not None:
            problems.append(error(url.position, "not-an-address", f'"{shown[:60]}" {fault[0]}', fault[1]))
    doi = fields.get("doi")
    if doi is not None:
        what = doi_fault(readable_text(doi.text))
        if what:
            tells = f"the DOI holds {what}, which belongs to none"
            problems.append(error(doi.position, "not-a-doi", tells, "copy it from the first page of the report"))


def refuse_links_of_page(file: str, text: str, problems: list[Problem]) -> None:
    """Notes each address of a hand-written page that is wrong so."""
    places = Places(file, text)
    for found in _find_addresses(text):
        address = found[0].rstrip(".,;:!?*_")
        fault = address_fault(address)
        if fault is not None:
            place = places.place(found.start())
            problems.append(error(place, "not-an-address", f'"{address[:60]}" {fault[0]}', fault[1]))


def _hidden(text: str) -> str:
    """The first character that no screen shows, or a blank, "U+200B"; "" where there is none.

    Control characters and those that turn the direction of reading are told of every text (invisible.py).
    """
    if text.isascii() and text.isprintable() and " " not in text:
        return ""
    for sign in text:
        if unicodedata.category(sign) in ("Cf", "Zs", "Zl", "Zp", "Cn", "Co", "Cs") and not is_told(sign):
            return f"U+{ord(sign):04X}"
    return ""


_COPY = "copy the whole address out of the browser"
