"""The rules of reading by their public names, each with what it means and how to mend it."""

from __future__ import annotations

from . import limits

_FORM = "Basis: the format of this guide; common practice, no source."
_YAML = "Basis: YAML 1.2.2, yaml.org."
_BIBTEX = "Basis: Patashnik 1988, BibTeXing."

READING_RULES: dict[str, str] = {
    "file-outside": (
        "A file or folder is a link that leads out of the folder of the guide. Whoever receives the guide does not "
        f"receive what the link points to, so it is not read. Put the file itself there. {_FORM}"
    ),
    "link-leads-round": (
        "A link among the pages leads to a folder that it was reached through, so the way through it never ends. "
        f"Delete the link, or put the files themselves there. {_FORM}"
    ),
    "unreadable-file": (
        f"A file of the evidence cannot be opened, or is not an ordinary file. Replace it with a text file. {_FORM}"
    ),
    "unfit-name": (
        "The name of a file or folder is not written in UTF-8, holds a line end or a character that nobody sees, or is "
        f"longer than {limits.FILE_NAME} bytes. It would become part of addresses and messages. Rename it. {_FORM}"
    ),
    "file-too-large": (
        f"A .bib file may be up to {limits.FILE['.bib'] // 10**6} MB, so may the .yaml files at the top of evidence/; "
        f"any other .yaml file and a page up to {limits.FILE['.yaml'] // 10**6} MB, a drawing up to "
        f"{limits.FILE['.svg'] // 1000} kB. Nobody types a file larger than that. Split it. {_FORM}"
    ),
    "beyond-limit": (
        "What is typed here is larger, longer or more than any paper or guide has, so it is a slip, and a page could "
        f"not hold it. A number lies below {limits.NUMBER:,} and has at most {limits.DECIMALS} decimals; a length of "
        f"time is at most {limits.YEARS} years; a date lies within {limits.FIRST_YEAR} to {limits.LAST_YEAR}. A text "
        f"has at most {limits.TEXT:,} characters, an id, a key or a name {limits.NAME}, a list {limits.LIST:,} items. "
        f"A passage has at most {limits.PASSAGE:,} characters and {limits.NUMBERS} numbers, its locator "
        f"{limits.LOCATOR} characters, another field of an "
        f"entry {limits.FIELD:,}, an entry {limits.FIELDS} fields. Abbreviations (@string) have "
        f"{limits.ABBREVIATION:,} characters each, and add at most {limits.ABBREVIATIONS:,} to one file. The name of a "
        f"file has at most {limits.FILE_NAME} bytes. Correct the slip, shorten the text, or make two of it. {_FORM}"
    ),
    "no-folder-of-pages": (
        "The file mkdocs.yml names a folder of pages (docs_dir) that is not there. Without it the site would hold the "
        "guide alone, and would take the place of a site with pages of its own. Correct the name, or write evidence "
        f"where the guide alone is meant. {_FORM}"
    ),
    "not-utf-8": (
        "A file is not saved as UTF-8, so its accents and dashes cannot be read. The place given is the first byte "
        "that does not fit. Save the file as UTF-8, with or without a byte-order mark. Basis: RFC 3629."
    ),
    "misplaced-file": (
        "A file is in a place where no file is read, or ends in what nobody reads there (.yaml.txt, .docx, a "
        "spreadsheet, another export than BibTeX), so nothing in it would ever count. Rename it, move it, or type what "
        f"it says where it is read. A README, a PDF and hidden files are left alone. {_FORM}"
    ),
    "empty-file": (f"A file is empty. Fill it in or delete it. {_FORM}"),
    "invisible-character": (
        "The text contains a character that no editor shows, mostly copied from another program. It would make two "
        f"texts differ that look the same on the screen. Delete it. {_YAML}"
    ),
    "yaml-syntax": (
        "From here on the file is not valid YAML: a bracket or quote is not closed, a line is not indented like "
        "its neighbours, or a tab is used instead of blanks. Nothing in the file can be read until that is mended. "
        f"{_YAML}"
    ),
    "text-needs-quotes": (
        'A text contains ": " or " #", or begins with a sign that has a meaning in YAML (>, |, %, @, a backtick). '
        f"YAML would cut it short or not read it at all. Put the whole text in quotes. {_YAML}"
    ),
    "comma-cut-text": (
        "Between { } and [ ] a comma ends a text, so the rest of it became a field or an item of its own. Put the "
        f"text in quotes, or write one sentence per line, each after a dash. {_YAML}"
    ),
    "yaml-alias-or-tag": (
        "At the beginning of a text, &, * and ! are YAML's own signs for repeated and typed values, which this "
        f"form does not use. Put the text in quotes; write a repeated value out each time. {_YAML}"
    ),
    "unknown-field": (
        "A field has a name that the form does not know, so its value would never be read. Correct the name: "
        f"the nearest one is suggested or, where none is near, all that the block has. {_FORM}"
    ),
    "duplicate-field": (
        f"A field is given twice in one block or entry, and one of the two would be lost. Delete one. {_FORM}"
    ),
    "missing-field": (
        "A required field is missing: it is always required here, or another field requires it (a rate needs its "
        "counts, a comparison its reference). Type it, or type not reported where the paper does not give it. "
        f"{_FORM}"
    ),
    "empty-field": (f"A field has a name but no value. Type the value, or delete the field. {_FORM}"),
    "field-not-here": (
        "Two fields do not go together, or a field is given without the one it belongs to (an interval without a "
        f"rate, `via` without `depth: secondary`). Delete it, or add the other. {_FORM}"
    ),
    "margin-side": (
        "The `margin` of a contrast is the largest difference towards harm that was fixed beforehand as too small to "
        "matter. So it cannot be no difference, and for a ratio it lies above 1 where the event is bad and below 1 "
        f"where it is good, unless it was fixed for both sides. Correct the value, `event_is` or `sides`. {_FORM}"
    ),
    "wrong-shape": (
        "A block of fields, a list or a single text is given where one of the other two is expected. The message "
        f"says which. {_FORM}"
    ),
    "not-in-list": (
        "The field takes one of a fixed list of words, spelled exactly as in the list, or one of the words for a "
        f"missing value where the list has them. Choose one; the nearest is suggested, and a block of fields "
        f"where one may stand instead. {_FORM}"
    ),
    "not-a-text": (
        f"The field takes plain words; for a passage, the words in its square brackets, without the brackets. {_FORM}"
    ),
    "not-a-number": (f"The field takes a number: 39, 2.9, .02, -3.58 or 42,300. It is kept as typed. {_FORM}"),
    "not-a-count": (f"The field is a count, so it takes a whole number, 0 or more. {_FORM}"),
    "not-a-percentage": (f"The field takes a percentage from 0% to 100% with its sign: 83% or 5.40%. {_FORM}"),
    "not-an-interval": (
        f"The field takes a confidence interval whose two ends are written alike: 62% to 80%, or 1.2 to 7.1. {_FORM}"
    ),
    "interval-reversed": (f"The lower end of an interval comes first. Check both ends against the paper. {_FORM}"),
    "not-a-p": (f'The field takes a P value from 0 to 1 with its comparator: .02, <.05, or in quotes ">.9". {_FORM}'),
    "not-a-length": (f"The field takes a length of time with its unit: 12 months, 90 days, 3 years 5 months. {_FORM}"),
    "not-a-range": (f"The field takes the range of a measured level: up to 3 mm, over 3 mm, 1 mm to 3 mm. {_FORM}"),
    "not-a-date": ("The field takes a date that exists, written year-month-day: 2026-02-03. Basis: ISO 8601."),
    "not-a-release": (f"A release has three numbers, such as 1.2.0, and is moved by people. {_FORM}"),
    "not-an-address": (
        "The field takes a web address that begins with https://, or, for a protocol, the address of a page of "
        "this site; a link in a hand-written page is such an address too. What begins with http:// can be changed on "
        "its way; a name before an @, a sign that no screen shows and one that turns the direction of reading make an "
        "address seem to lead elsewhere. Basis: RFC 3986, section 7.6; common practice."
    ),
    "not-a-doi": (
        "The field `doi` of an entry holds something that belongs to no DOI: markup, quotes, a blank, or a character "
        "that no screen shows. Copy the DOI from the report. Basis: ISO 26324, and the DOI handbook, section 2.2; both "
        "from memory."
    ),
    "not-a-path": (
        f"The field names a claim as key/claim or, where the message says so, a level of it as key/claim/level. {_FORM}"
    ),
    "unknown-format": (f"The evidence says that it follows a format which this version cannot read. {_FORM}"),
    "not-an-id": (
        f"An id has lower-case letters, digits and hyphens only, because it becomes part of web addresses. {_FORM}"
    ),
    "not-a-key": (
        "The BibTeX key of a report with claims has letters, digits, _ and - only; no key may contain blanks, "
        f"slashes or quotes. {_FORM}"
    ),
    "reserved-name": (
        f"The name is already that of a page or folder of the site, or of a step in the ids of figures. {_FORM}"
    ),
    "name-differs": (
        f"A claim file is named after its `source`, a question file after its `id`. One of the two is wrong. {_FORM}"
    ),
    "too-many-now": (
        "More steps of a question have `when: now` than a reader can do at once; they stand large on the first screens "
        "and push whom to call out of sight. Leave the most urgent and give the others another `when`. Basis: house "
        "rule, common practice, no source."
    ),
    "duplicate-id": (f"Two blocks of one file have the same id, so a reference could mean either. Rename one. {_FORM}"),
    "duplicate-key": (
        "Two entries have the same key, in one file or in two, or keys that differ only in capital letters, which "
        f"some disks and web addresses treat as the same. Rename or delete one. {_BIBTEX}"
    ),
    "same-short-name": (
        "Two wordings become the same short name once signs and capital letters are removed, or one becomes the "
        "name of a field. Figures and links are named by it, so they would be mixed up. Word one of them "
        f"differently. {_FORM}"
    ),
    "checked-by-reader": (
        "A report must be re-read by a person other than the first reader: data taken by one person hold more "
        "errors (Buscemi et al 2006, J Clin Epidemiol 59:697-703; from memory)."
    ),
    "unit-word-twice": (
        "Two units of the vocabulary share a word, or a unit has a word of one that the format already knows, so a "
        f"count before that word could be of either. Change one of the words, or delete the synonym. {_FORM}"
    ),
    "unit-word-unfit": (
        "The words of a unit follow figures on every page and are looked for in every passage. So they hold no "
        "digit, which would read like one more figure, and are as short and as few as print has them. Write a number "
        f"in letters, or leave it out. {_FORM}"
    ),
    "slide-template": (
        "evidence/slides.pptx is the programme's own template for slides. It is a presentation of 16 to 9 with layouts "
        'of these names: "Opening", "Text", "Text with plot", "Plot" and "Frame to fill". Each has a title; all but '
        '"Plot" have a place for text, and "Text with plot", "Plot" and "Frame to fill" one for a picture. Name the '
        "layouts so where your program edits them, or delete the file: slides then have the look of the guide."
    ),
    "unknown-picture": (
        "A field names a drawing that is not in evidence/pictures/, or that could not be read. Correct the name, or "
        f"put the .svg file there. {_FORM}"
    ),
    "picture-not-allowed": (
        "A drawing becomes part of pages, so it may consist only of path, rect, circle, ellipse, polygon, line, g, "
        "title and desc: no script, style or link, no text, no picture from elsewhere. It has a `viewBox`; its colours "
        "are those of the page. Basis: SVG 2, W3C; what it may contain is set by the format of this guide."
    ),
    "bibtex-syntax": (f"From here on an entry is not valid BibTeX, and it is not read. {_BIBTEX}"),
    "forgotten-comma": (
        "A comma is missing between two fields or after the key. BibTeX would read the next field as part of this "
        f"one, or drop the entry. {_BIBTEX}"
    ),
    "unbalanced-brace": (
        "A brace or quote is not closed, or an extra one closes the entry too early. BibTeX would leave out the "
        f"entry, or the rest of it, without a word. {_BIBTEX}"
    ),
    "undefined-string": (
        "A word without braces is neither a number nor defined with @string in this file. Put the text in braces. "
        f"{_BIBTEX}"
    ),
    "unknown-entry-type": (
        "The entry has a type that neither BibTeX nor biblatex knows. Basis: biblatex manual, list of entry types."
    ),
    "unknown-crossref": (
        "`crossref` or `xdata` names an entry that does not exist, or leads back to itself. Basis: biblatex "
        "manual, sections on crossref and xdata."
    ),
    "missing-title": (
        "An entry has no title, and takes none over from another entry. A title is what a reader looks for first. "
        f"{_BIBTEX}"
    ),
    "unknown-latex-command": (
        "A field that is printed contains a LaTeX command that the guide cannot show. Write the character itself. "
        f"{_FORM}"
    ),
    "names-not-divided": (
        'Authors or editors are divided by commas, or end in "et al.", so BibTeX would take them for one '
        'name, and the reference would be printed wrongly. Put "and" between them, "and others" at the end of a list '
        f"that is cut short, and braces around the name of an institution. {_BIBTEX}"
    ),
    "bracket-twice": (
        "The same locator is used twice in one entry, so a claim cannot say which passage it means. Join the two "
        f"passages, or add a word to one of the locators. {_FORM}"
    ),
    "empty-passage": (f"No words follow a locator. Type what the report says there, or delete the locator. {_FORM}"),
    "pages-reversed": (
        "The `pages` of an entry end before they begin, so no locator can lie on them. Type the first page first. "
        f"{_FORM}"
    ),
    "locator-outside-pages": (
        f"A locator names a page outside the `pages` of its entry. One of the two is a slip. {_FORM}"
    ),
    "doubtful-bracket": (
        "A bracket begins with a letter and contains a digit, but is not a locator: perhaps a passage was meant to "
        "begin there. Correct the locator (p. 46, Table 2), or answer that the bracket is text of the report. "
        f"{_FORM}"
    ),
}
"""What each rule of reading asks, why, and how to mend it; by its name."""
