"""Fields of an entry as exports write them: tags and entities of web pages, addresses, names in every notation."""

from __future__ import annotations

import re
from collections.abc import Mapping

from ..compiled_patterns import compiled
from .latex import readable_text
from .source_model import Field

_find_tags = compiled(
    r"<(?P<end>/?)(?P<name>i|b|u|em|strong|sub|sup|scp|sc|span|p|br|div|title|(?:jats|mml):[\w-]+)(?:\s[^<>]*)?/?>",
    re.IGNORECASE,
).sub
_find_script = compiled(r"<(su[bp])(?:\s[^<>]*)?>([^<>]*)</\1>", re.IGNORECASE).sub
_find_entity = compiled(r"&(?:#\d+|#x[0-9a-f]+|[a-z][a-z0-9]+);", re.IGNORECASE).search
_APART = frozenset(("p", "br", "div", "jats:p", "jats:sec", "jats:title", "jats:list-item"))
"""Tags of which what stands before and behind is no one word."""
_may_have_names = compiled(r"[\\{}~$<&]").search


def readable_field(text: str) -> str:
    """A field as a page prints it: TeX resolved, tags of web pages taken out, entities as their characters.

    "CO<sub>2</sub>" is "CO₂"; a "<" that begins no tag of a text stays.
    """
    shown = readable_text(text)
    if "<" in shown:
        shown = _find_script(lambda found: _scripted(found[1].lower(), found[2]), shown)
        shown = _find_tags(lambda found: " " if found["name"].lower() in _APART else "", shown)
        shown = " ".join(filter(None, shown.split(" ")))
    if "&" in shown and _find_entity(shown):
        from html import unescape

        # Twice: some exports write an ampersand of an entity as an entity.
        shown = unescape(unescape(shown)) if "&amp;" in shown else unescape(shown)
    return shown.strip() if shown[:1] == " " or shown[-1:] == " " else shown


def shown_field(fields: Mapping[str, Field], name: str) -> str:
    """A field of an entry as people read it, a title with its subtitle; "" where the entry has none."""
    field = fields.get(name)
    if field is None:
        return ""
    if name in ("doi", "url"):  # no text: a "~" or "<" in them is what it is
        return web_address(field.text) if name == "url" else readable_text(field.text)
    shown = readable_field(field.text)
    beneath = shown_field(fields, _SUBTITLES[name]) if name in _SUBTITLES else ""
    return f"{shown}{'' if shown.endswith((':', '?', '!', '.')) else ':'} {beneath}" if beneath else shown


_SUBTITLES = {"title": "subtitle", "booktitle": "booksubtitle"}


def _scripted(name: str, text: str) -> str:
    shown = (
        readable_text(f"${'_' if name == 'sub' else '^'}{{{text}}}$") if text.isascii() and "$" not in text else text
    )
    return shown if any(map(str.isdigit, text)) else text


def web_address(text: str) -> str:
    """An address of the web as typed, with TeX's own notation of a few signs undone: "~" is no blank in it."""
    shown = re.sub(r"\\url\s*\{(.*)\}", r"\1", text.strip(), flags=re.DOTALL)
    for typed, sign in (
        (r"{\textasciitilde}", "~"), (r"\textasciitilde{}", "~"), (r"\textasciitilde ", "~"), (r"$\sim$", "~"),
        (r"\~{}", "~"), (r"{\_}", "_"), (r"\_", "_"), (r"\%", "%"), (r"\&", "&"), (r"\#", "#"), ("&amp;", "&"),
    ):  # fmt: skip
        shown = shown.replace(typed, sign)
    return shown.replace("{", "").replace("}", "")


_resolver = compiled(r"^(?:https?://)?(?:(?:dx\.|www\.)?doi\.org/|doi:\s*)(10\.\d{4,}/\S+)$", re.IGNORECASE).match


def doi_in(address: str) -> str:
    """The DOI that an address of its resolver holds, or "" (ISO 26324; the DOI Handbook's https form)."""
    found = _resolver(address)
    return found[1] if found is not None else ""


_PERSON = r"[^\W\d_][^\W\d_'’-]*(?:[ '’-][^\W\d_]+)*"
_INITIALS = r"(?:[A-Z]\.?[ -]?){1,4}"
is_with_initials = compiled(rf"{_PERSON},? {_INITIALS}").fullmatch
"""Whether a name is a family name and behind it initials: "Marlow I", "Marlow, I. T."."""
_is_inverted = compiled(rf"{_PERSON}, [^\W\d_].*").fullmatch
_find_inverted = compiled(rf"{_PERSON}, {_INITIALS}(?=, |$)").findall
_are_inverted = compiled(rf"{_PERSON}, {_INITIALS}(?:, {_PERSON}, {_INITIALS})+").fullmatch
_parts_of = compiled(
    r"(family|given|prefix|suffix|useprefix)\s*=\s*(\{[^{}]*\}|\"[^\"]*\"|[^,]*)", re.IGNORECASE
).findall


def names_in(text: str) -> tuple[str, ...]:
    """The names of an author or editor field in order, as typed; "others" is "and others" with nobody named.

    An "and" between braces belongs to the name of a body. Without any "and", people who are divided by "&", ";" or
    commas, as some exports write them, are told from a body's name by their initials.
    """
    names: list[str] = []
    start = depth = 0
    for found in re.finditer(r"\\.|[{}]|\s+and\s+", text, re.IGNORECASE | re.DOTALL):
        token = found[0]
        if token == "{":
            depth += 1
        elif token == "}":
            depth -= 1
        elif depth == 0 and token[0] != "\\":
            names.append(text[start : found.start()])
            start = found.end()
    names.append(text[start:])
    return tuple(each for name in names for each in _divided(" ".join(name.split())) if each)


_has_divider = compiled(r"[;&]|,.*,|[A-Z],\s").search
_DIVIDERS = (compiled(r"\s*;\s*").split, compiled(r"\s*,?\s+\\?&(?:amp;)?\s+").split, compiled(r",\s+").split)


def _divided(name: str) -> list[str]:
    if name.startswith("{") or not _has_divider(name):
        return [name]
    if _are_inverted(name):
        return list(_find_inverted(name))
    for split in _DIVIDERS:
        parts = split(name)
        people = [each for part in parts for each in _divided(part)] if len(parts) > 1 else []
        if people and all(
            is_with_initials(each) or (split is not _DIVIDERS[-1] and _is_inverted(each)) for each in people
        ):
            return people
    return [name]


def readable_name(name: str) -> str:
    """One name as a page prints it: "family=Beethoven, given=Ludwig, prefix=van" is "Beethoven, Ludwig van"."""
    if "family" in name and (typed := dict(_parts_of(name))):
        parts = {key.lower(): value.strip().strip('{}"') for key, value in typed.items()}
        family, given, prefix = parts.get("family", ""), parts.get("given", ""), parts.get("prefix", "")
        if parts.get("useprefix", "").lower() == "true":
            family, prefix = f"{prefix} {family}".strip(), ""
        given = " ".join(filter(None, (given, prefix)))
        name = ", ".join(filter(None, (family, given, parts.get("suffix", ""))))
    shown = readable_field(name) if _may_have_names(name) else name
    return "and others" if shown == "others" else shown
