"""No trade in the code: a guide to corneal grafts holds no word of dentistry, and the sources hold it in two files."""

from __future__ import annotations

import re
from pathlib import Path
from zipfile import ZipFile

import material
import pytest
from pypdf import PdfReader

ROOT = Path(__file__).parent.parent
BUILDER = ROOT / "builder"

WORDS = re.compile(
    r"\b(?:tooth|teeth|dental|dentists?|dentistry|dentition|dentine?|endodont\w*|(?:pre)?molars?|incisors?|canines?|"
    r"pulp\w*|canals?|crowns?|maxilla\w*|mandib\w*|jaws?|arch|arches|mouths?|FDI|extracted|extractions?|"
    r"(?:peri)?apical|apex|perforat\w*|hypochlorite|irrigants?|gutta|rubber dam|caries|carious|enamel|gingiva\w*|"
    r"gums?|furca\w*|bone|fillings?)(?![a-z])",
    re.IGNORECASE,
)
ROOTS = re.compile(r"\broots?\b", re.IGNORECASE)
"""Of a tooth; a folder and a page of a style sheet have one too, so code is not searched for it."""

FIELD_IN_AN_ID = re.compile(r"/(?:flow|patients)/extracted(?:_related|_other)?\b")
"""Ids of figures hold the names of fields as format 1 has them; pages print the unit's words."""

NAME_OF_A_FIELD = re.compile(
    r"<code>(?:extracted(?:_related|_other)?|tooth|FDI|chair)</code>|"
    r'"(?:extracted(?:_related|_other)?|tooth|FDI)"(?=:? *[\[{,\n])|'
    r'(?<=["#])field-(?:extracted(?:_related|_other)?|tooth|FDI|chair)(?:-in-[a-z-]+)?"(?:,"[A-Za-z_]+"\])?'
)
"""So do the pages and schemas that describe the form, and what finds them."""
DESCRIBES_THE_FORM = re.compile(r"data/schema/|contribute/|search/lines\.json")

# `data-root` of a page's body and `:root` of a style sheet are HTML's and CSS's own.
OF_THE_WEB = re.compile(r'data-root="[^"]*"|:root\b')


def of_the_theme(path: str) -> bool:
    """True for a file that the site took from Material for MkDocs as it is."""
    return (Path(material.__file__).parent / "templates" / path).is_file()


def words_in(path: str, text: str) -> list[str]:
    """Words of dentistry in one file of a site."""
    text = OF_THE_WEB.sub("", FIELD_IN_AN_ID.sub("", text))
    if DESCRIBES_THE_FORM.match(path):
        text = NAME_OF_A_FIELD.sub("", text)
    return WORDS.findall(text) + ([] if path.endswith(".js") else ROOTS.findall(text))


def texts(site: Path) -> dict[str, str]:
    """Every file of a site that is text and not the theme's, by path."""
    out = {}
    for file in sorted(site.rglob("*")):
        path = file.relative_to(site).as_posix()
        if file.suffix == ".pptx":
            with ZipFile(file) as parts:
                out |= {f"{path}/{name}": parts.read(name).decode() for name in parts.namelist() if name[-4:] != ".png"}
        elif file.suffix == ".pdf":
            out[path] = "\n".join(page.extract_text() for page in PdfReader(file).pages)
        elif file.is_file() and file.suffix not in (".png", ".gz") and not of_the_theme(path):
            out[path] = file.read_text("utf-8")
    return out


def test_a_guide_to_another_trade_holds_no_word_of_dentistry(graft_site: Path):
    found = {path: words for path, text in texts(graft_site).items() if (words := words_in(path, text))}
    assert found == {}


def test_every_kind_of_file_was_read(graft_site: Path):
    read = texts(graft_site)
    endings = {Path(path).suffix for path in read}
    assert {".html", ".js", ".css", ".json", ".jsonl", ".csv", ".bib", ".svg", ".webmanifest", ".xml"} <= endings
    assert "search/search_index.json" in read
    assert "stylesheets/reading.css" in read
    assert len([path for path in read if path.endswith(".html")]) > 30


def test_the_same_search_finds_the_words_of_a_guide_to_dentistry(demo_site: Path):
    read = texts(demo_site)
    found = {path for path, text in read.items() if words_in(path, text)}
    for path in ("index.html", "data/claims.csv", "data/claims.json", "data/figures.jsonl", "data/sources.bib"):
        assert path in found
    assert "search/search_index.json" in found
    assert "root-perforation/patient/index.html" in found


@pytest.mark.parametrize(
    ("path", "text", "expected"),
    [
        ("a.html", "<p>How such teeth do</p>", ["teeth"]),
        ("a.html", '<a href="../tooth-type/">x</a>', ["tooth"]),
        ("a.html", '<body data-root="../"><p>the root</p>', ["root"]),
        ("a.html", "<td>extracted</td>", ["extracted"]),
        ("a.html", '<data data-figure="k/studies/s/flow/extracted_related">3</data>', []),
        ("a.html", "extracted_related", ["extracted"]),
        ("a.css", ":root{}", []),
        ("a.js", "const root=1", []),
        ("contribute/index.html", "<code>extracted</code> <code>extracted tooth</code>", ["extracted", "tooth"]),
        ("contribute/index.html", '<dt id="field-extracted-in-flow">x</dt><a href="#field-extracted">y</a>', []),
        ("search/lines.json", '["field-extracted","extracted"],["a","How such teeth do"]', ["teeth"]),
        ("a.html", '<dt id="field-extracted">', ["extracted"]),
        ("a.html", "<code>extracted</code>", ["extracted"]),
        ("data/schema/a.json", '"extracted": {"description": "extracted"}', ["extracted"]),
    ],
)
def test_what_counts_as_a_word_of_dentistry(path: str, text: str, expected: list[str]):
    assert words_in(path, text) == expected


@pytest.mark.parametrize(
    ("page", "said"),
    [
        ("graft-cloudy", "How such grafts do over time"),
        ("wound-leak", "How such eyes do over time"),
        ("graft-cloudy/over-time", "Grafts kept"),
        ("graft-cloudy/vessels", "More than one graft in a patient"),
        ("wound-leak/wound-closure", "More than one eye in a patient"),
        ("graft-cloudy/recall", "replaced, related"),
        ("graft-cloudy/recall", "at the graft ____, at the other eye ____"),
        ("sources/brennick2014clear", "replaced because it clouded"),
        ("sources/carlow2017layers", "grafts, of each patient every one"),
        ("methods", "Several grafts in one patient"),
        ("contribute", "41 of 52 grafts (79%"),
        ("contribute", "graft (grafts), eye (eyes)"),
        ("data", "%, graft, month"),
    ],
)
def test_sentences_are_said_in_the_words_of_the_trade(graft_site: Path, page: str, said: str):
    text = re.sub(r"<[^>]+>", "", (graft_site / page / "index.html").read_text("utf-8"))
    assert said in " ".join(text.split())


# Of rooms with a chair, a tray and one thing to look at; "chair" and "tray" also name fields of format 1 and classes.
OF_ONE_ROOM = re.compile(r"\b(?:chairs?|chairside|trays?|see it again)\b", re.IGNORECASE)


def test_headings_and_sentences_fit_where_nobody_sits_in_a_chair(graft_site: Path):
    pages = {path: text for path, text in texts(graft_site).items() if path.endswith(".html")}
    shown = {
        path: re.sub(r"<code>chair</code>|<(script|style)\b.*?</\1>|<[^>]+>", " ", text, flags=re.DOTALL)
        for path, text in pages.items()
    }
    assert {path: found for path, text in shown.items() if (found := OF_ONE_ROOM.findall(text))} == {}
    question = shown["graft-cloudy/index.html"]
    for said in ("A card to print small", "Recall: when to see the graft again"):
        assert said in question
    assert "Recall: when to see the eye again" in shown["wound-leak/index.html"]
    assert "During treatment" in shown["graft-cloudy/patient/index.html"]


def test_the_mark_for_one_unit_is_the_drawing_of_the_evidence(graft_site: Path, sample_site: Path):
    drawn = (graft_site / "graft-cloudy" / "patient" / "index.html").read_text("utf-8")
    assert drawn.count("<symbol ") == 2
    assert '<circle cx="9" cy="10.5" r="7"/>' in drawn
    filled = re.findall(r'<g class="unit filled">.*?</g>', drawn)
    # A row of ten is drawn once and used.
    assert [group.count("<use ") + 9 * group.count('-ten"') for group in filled] == [75, 81]
    eyes = (graft_site / "wound-leak" / "patient" / "index.html").read_text("utf-8")
    assert '<circle cx="9" cy="10.5" r="3"/>' in eyes
    plain = next(text for text in texts(sample_site).values() if 'class="unit filled"' in text)
    assert re.search(r'<defs><rect id="[^"]*" width="18" height="21" rx="5"/>', plain)
    assert "<symbol" not in plain


def test_without_a_script_a_shape_of_a_drawing_leads_to_its_answer(graft_site: Path):
    text = (graft_site / "graft-cloudy" / "index.html").read_text("utf-8")
    for level, title in (("edge", "the edge alone"), ("middle", "between edge and centre"), ("centre", "the centre")):
        assert f'<a href="#known-vessel-place-{level}" aria-label="{title}"' in text
        assert text.count(f'id="known-vessel-place-{level}"') == 1
        assert f'id="{level}"' not in text


def test_numbers_count_what_the_vocabulary_declares(graft_site: Path):
    rows = (graft_site / "data" / "figures.jsonl").read_text("utf-8")
    assert '"unit":"graft"' in rows
    assert '"unit":"eye"' in rows
    assert '"unit":"patient"' in rows


IN_ITS_PLACE = ("numerals/format_units.py", "reading/fdi_chart.py")
"""The units and words of format 1; the chart of teeth."""

# Names of fields that format 1 has for good, in quotes, as attributes or in the form; and the name of the chart's file.
PUBLIC_FIELD = re.compile(
    r'"(?:extracted|dentition)"|"?\bextracted_(?:related|other)\b"?|\bextracted:|\.extracted\b|\bfdi_chart\b'
)

SOURCES = sorted(
    path
    for path in BUILDER.rglob("*")
    if path.suffix in (".py", ".html", ".css", ".js", ".svg", ".yaml", ".yml", ".md", ".bib")
    and path.relative_to(BUILDER).as_posix() not in IN_ITS_PLACE
)


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.relative_to(BUILDER).as_posix())
def test_the_code_knows_no_trade(path: Path):
    lines = path.read_text("utf-8").splitlines()
    found = [
        f"{number}: {line.strip()}"
        for number, line in enumerate(lines, start=1)
        if WORDS.search(PUBLIC_FIELD.sub("", line).replace("_", " "))
    ]
    assert found == []


def test_the_trade_stands_in_its_two_files():
    for name in IN_ITS_PLACE:
        assert WORDS.search((BUILDER / name).read_text("utf-8"))
