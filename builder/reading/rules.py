"""The rules of reading by their public names, each told to whoever has to mend it."""

from __future__ import annotations

_FORM = "Basis: format of this guide; common practice, no source."
_YAML = "Basis: YAML 1.2.2, yaml.org."
_BIBTEX = "Basis: Patashnik 1988, BibTeXing."

READING_RULES: dict[str, str] = {
    "file-outside": (
        "A file or folder is a link that leads out of the folder of the guide. Nobody who gets the guide gets "
        "what it points to, so it is not read. Put the file itself there. "
        f"{_FORM}"
    ),
    "unreadable-file": (
        f"A file of the evidence cannot be opened, or is no file at all. Replace it by a text file. {_FORM}"
    ),
    "file-too-large": (
        "A .bib file may have 4 MB, a .yaml file, a page or a drawing 1 MB. More than that is no file that people "
        "typed. Split it. "
        f"{_FORM}"
    ),
    "not-utf-8": (
        "A file is not UTF-8, so its accents and dashes cannot be told. The place is the first byte that does "
        "not fit. Save the file as UTF-8; with or without a byte-order mark. Basis: RFC 3629."
    ),
    "misplaced-file": (
        "A .yaml, .yml or .bib file stands where none is read, so nothing in it would ever count. Rename it "
        "or move it. "
        f"{_FORM}"
    ),
    "empty-file": (f"A file holds nothing. Fill it in or delete it. {_FORM}"),
    "invisible-character": (
        "A character that no editor shows stands in the text, mostly copied from another program. It would "
        "break a comparison that looks right on the screen. Delete it. "
        f"{_YAML}"
    ),
    "yaml-syntax": (
        "The file is no YAML from here on: a bracket or quote is not closed, a line is indented otherwise "
        "than its neighbours, a tab stands for blanks. Nothing in the file can be read until that is mended. "
        f"{_YAML}"
    ),
    "text-needs-quotes": (
        'A text holds ": " or " #", or begins with a sign that means something to YAML (>, |, %, @, a '
        "backtick). YAML would end it too early or not read it. Put the whole text in quotes. "
        f"{_YAML}"
    ),
    "comma-cut-text": (
        "Between { } and [ ] a comma ends a text, so the rest of it became a field or item of its own. Put "
        "the text in quotes, or write one sentence a line, each behind a dash. "
        f"{_YAML}"
    ),
    "yaml-alias-or-tag": (
        "&, * and ! at the beginning of a text are YAML's own notation for repeated and typed values, which "
        "this form does not use. Put a text in quotes; write a repeated value out. "
        f"{_YAML}"
    ),
    "unknown-field": (
        "A field has a name that the form does not know, so what stands in it would never be read. Correct "
        "the name; the nearest one is offered. "
        f"{_FORM}"
    ),
    "duplicate-field": (
        f"A field stands twice in one block or entry, and one of the two would be lost. Delete one. {_FORM}"
    ),
    "missing-field": (
        "A field is missing that this block cannot do without: always, or because of what another field says "
        "(a rate needs its counts, a comparison its reference). Type it, or not reported where the paper has "
        "none. "
        f"{_FORM}"
    ),
    "empty-field": (f"A field has a name and no value. Type the value, or delete the field. {_FORM}"),
    "field-not-here": (
        "Two fields do not go together, or a field has lost the one it belongs to (an interval without a "
        "rate, `via` without `depth: secondary`). Delete it or complete the other. "
        f"{_FORM}"
    ),
    "wrong-shape": (
        f"A block, a list or a text stands where another of the three is expected. The message says which. {_FORM}"
    ),
    "not-in-list": (
        "The field takes a word of a closed list, exactly as printed there, or a missing value where the list "
        "has one. Choose one; the nearest is offered. "
        f"{_FORM}"
    ),
    "not-a-text": (f"The field takes plain words, for a locator those of the bracket without the bracket. {_FORM}"),
    "not-a-number": (f"The field takes a number: 39, 2.9, .02, -3.58 or 42,300, kept as typed. {_FORM}"),
    "not-a-count": (f"The field counts units, so it takes a whole number from 0. {_FORM}"),
    "not-a-percentage": (f"The field takes a percentage from 0% to 100% with its sign: 83% or 5.40%. {_FORM}"),
    "not-an-interval": (
        f"The field takes a confidence interval with both ends alike: 62% to 80%, or 1.2 to 7.1. {_FORM}"
    ),
    "interval-reversed": (f"The lower end of an interval comes first. Check the two against the paper. {_FORM}"),
    "not-a-p": (f'The field takes a P value from 0 to 1 with its comparator: .02, <.05, or in quotes ">.9". {_FORM}'),
    "not-a-length": (f"The field takes a length of time with its unit: 12 months, 90 days, 3 years 5 months. {_FORM}"),
    "not-a-range": (f"The field takes the range of a measured level: up to 3 mm, over 3 mm, 1 mm to 3 mm. {_FORM}"),
    "not-a-date": ("The field takes a real day as year-month-day: 2026-02-03. Basis: ISO 8601."),
    "not-a-release": (f"A release has three numbers, 1.2.0, and is moved by people. {_FORM}"),
    "not-an-address": (
        f"The field takes a web address with https://, for a protocol also a page of this site. {_FORM}"
    ),
    "not-a-path": (f"The field names a claim as key/claim, where the list says so also key/claim/level. {_FORM}"),
    "unknown-format": (f"The evidence says that it follows a format which this version does not read. {_FORM}"),
    "not-an-id": (f"An id has lower-case letters, digits and hyphens only, since it stands in addresses. {_FORM}"),
    "not-a-key": (
        f"A BibTeX key with claims has letters, digits, _ and - only; no key has blanks, slashes or quotes. {_FORM}"
    ),
    "reserved-name": (f"The name is that of a page or folder of the site, or of a step in the ids of figures. {_FORM}"),
    "name-differs": (
        f"A claim file is named for its `source`, a question file for its `id`. One of the two is wrong. {_FORM}"
    ),
    "duplicate-id": (f"Two blocks of one file have the same id, so a reference could mean either. Rename one. {_FORM}"),
    "duplicate-key": (
        "Two entries have the same key, in one file or two, or keys that differ in capitals alone, which some "
        "disks and addresses do not tell apart. Rename or delete one. "
        f"{_BIBTEX}"
    ),
    "same-short-name": (
        "Two wordings come to the same short name once signs and capitals are gone, or one to the name of a "
        "field. Figures and anchors are named by it, so they would be mixed up. Word one of them otherwise. "
        f"{_FORM}"
    ),
    "checked-by-reader": (
        "A report is re-read by another person than the one who read it first; data taken from a paper by one person "
        "hold more errors (Buscemi et al 2006, J Clin Epidemiol 59:697-703; from memory)."
    ),
    "unit-word-twice": (
        "Two units of the vocabulary have the same word, or a unit the word of one that the format has, so a count "
        f"before it could be of either. Word one of them otherwise, or leave its synonym out. {_FORM}"
    ),
    "unknown-picture": (
        "A field names a drawing that does not stand under evidence/pictures/, or that could not be read. Correct the "
        f"name, or put the .svg file there. {_FORM}"
    ),
    "picture-not-allowed": (
        "A drawing stands inside pages, so it is made of path, rect, circle, ellipse, polygon, line, g, title and desc "
        "alone: no script, style or link, no text, no picture from elsewhere. It has a `viewBox`; its colours are "
        "those of the page. Basis: SVG 2, W3C; what may stand in it is the format of this guide."
    ),
    "bibtex-syntax": (f"An entry is not BibTeX from this place on, and is not read. {_BIBTEX}"),
    "forgotten-comma": (
        "A comma is missing between two fields or behind the key. BibTeX would take the next field for a part "
        "of this one, or drop the entry. "
        f"{_BIBTEX}"
    ),
    "unbalanced-brace": (
        "A brace or quote is not closed, or one too many closes the entry early. BibTeX would leave out the "
        "entry, or the rest of it, without a word. "
        f"{_BIBTEX}"
    ),
    "undefined-string": (
        f"A bare word is neither a number nor defined with @string in this file. Put a text in braces. {_BIBTEX}"
    ),
    "unknown-entry-type": (
        "The entry has a type that neither BibTeX nor biblatex knows. Basis: biblatex manual, list of entry types."
    ),
    "unknown-crossref": (
        "`crossref` or `xdata` names an entry that does not exist, or leads back to itself. Basis: biblatex "
        "manual, sections on crossref and xdata."
    ),
    "missing-title": (
        f"An entry has no title, not even an inherited one. It is what a reader looks for first. {_BIBTEX}"
    ),
    "unknown-latex-command": (
        f"A field that is printed holds a LaTeX command that the guide cannot show. Write the character itself. {_FORM}"
    ),
    "bracket-twice": (
        "The same locator stands twice in one entry, so a claim cannot say which passage it means. Join the "
        "two, or tell them apart by a word. "
        f"{_FORM}"
    ),
    "empty-passage": (f"No words stand behind a locator. Type what the report has there, or delete it. {_FORM}"),
    "locator-outside-pages": (
        f"A locator names a page that lies outside the `pages` of its entry. One of the two is a slip. {_FORM}"
    ),
    "doubtful-bracket": (
        "A bracket begins with a letter, holds a digit and is no locator: a passage may have been meant to "
        "begin there. Correct the locator (p. 46, Table 2), or answer that it is text of the report. "
        f"{_FORM}"
    ),
}
"""What each rule of reading asks, why, and how to mend it; by its name."""
