"""Exports of invented papers, shaped as managers, databases and publishers shape them (common practice, no source)."""

from __future__ import annotations

import json
from typing import NamedTuple


class Paper(NamedTuple):
    """What a paper says of itself."""

    people: tuple[tuple[str, str], ...]
    title: str
    journal: str
    short: str
    year: str
    month: str
    day: str
    volume: str
    number: str
    pages: tuple[str, str]
    doi: str
    abstract: str = ""
    keywords: tuple[str, ...] = ()
    body: str = ""
    suffix: str = ""
    pmid: str = ""


PAPERS = (
    Paper((("Sampler", "Edda M."), ("Okoro", "Tam")), "Repair of made-up holes in molars: a prospective series",
          "Journal of Supposed Results", "J Suppos Results", "2019", "05", "12", "7", "4", ("410", "418"),
          "10.5555/jsr.2019.410", "AIM: To see. RESULTS: 39 of 47 teeth (83%) had healed; P < .05 & CI 69-91%.",
          ("root perforation", "cement, silicate"), pmid="99000123"),
    Paper((("van Aalbek", "Lúcia"),), "Wurzelperforationen: was aus 52 Zähnen wurde", "Annals of Imagined Endodontics",
          "Ann Imagin Endod", "2011", "", "", "12", "1", ("1", "9"), "10.5555/aie.2011.1"),
    Paper((("O'Brannick", "Seán"), ("Šestová", "Žofie"), ("Łęcki", "Paweł")),
          "“Seal or wait?” A trial with 60 made-up patients", "Supposed Trials", "Suppos Trials", "2022", "11", "3",
          "33", "2", ("e1204", ""), "10.5555/ST_(2022)33<e1204>2.0", "We asked 60 patients. 0.5% did not answer."),
    Paper((("Marrow", "I. T."),), "CO2 laser at 37 °C and 10 000 cycles", "Bench Notes", "", "1998", "", "", "4", "",
          ("S12", "S19"), "", keywords=("laser", "bench")),
    Paper((), "Guidance for a programme that does not exist", "Notices of a Board", "", "2023", "1", "", "", "",
          ("3", ""), "10.5555/board.2023.3", body="Board of Supposed Dentistry"),
    Paper((("Tremaine", "Alba"), ("Kestrel", "Jon")), "Healing in 100% of nobody: $5 and {curly} words, 50_50 ~ #1",
          "Journal of Odd Signs", "J Odd Signs", "2020", "02", "29", "1", "1", ("77", "77"), "10.5555/jos.2020.77",
          "Backslash \\alpha and a caret ^2."),
    Paper((("Norwell", "Petra"),), "Letter", "Supposed Trials", "Suppos Trials", "2021", "", "", "32", "9",
          ("901", "902"), "10.5555/st.2021.901", suffix="Jr"),
    Paper((("Li", "Wei"), ("Çelik", "Ömer")), "Teeth with ⩾2 roots: 1,204 of 1,306 invented records",
          "Archive of Records", "Arch Rec", "2016", "12", "31", "88", "12", ("1204", "1216"), "10.5555/ar.2016.1204",
          "Line one of the abstract.\nLine two, 64% of them.", ("records",), "Working Group on Records"),
)  # fmt: skip


def ris_of_a_manager(paper: Paper) -> str:
    """With both kinds of name of the journal, a date to the day and an address of the DOI."""
    lines = ["TY  - JOUR", *(f"AU  - {family}, {given}" for family, given in people(paper))]
    lines += [f"AU  - {paper.body}"] if paper.body else []
    lines += [f"TI  - {paper.title}", f"T2  - {paper.journal}", f"J2  - {paper.short}"]
    lines += [f"DA  - {paper.year}/{paper.month}/{paper.day}", f"PY  - {paper.year}", f"VL  - {paper.volume}"]
    lines += [f"IS  - {paper.number}", f"SP  - {paper.pages[0]}", f"EP  - {paper.pages[1]}", f"DO  - {paper.doi}"]
    lines += [
        f"UR  - https://doi.org/{paper.doi}" if paper.doi else "UR  - https://example.org/paper?id=1&view=full_text"
    ]
    lines += [f"AB  - {paper.abstract}", *(f"KW  - {word}" for word in paper.keywords), "L1  - files/12/paper.pdf"]
    return "\n".join([*lines, "ID  - 4711", "ER  - ", "", ""])


def ris_of_a_publisher(paper: Paper) -> str:
    """Windows line ends, authors as A1, title as T1, pages in one, an abstract as N2, and no end of the last record."""
    lines = ["TY  - JOUR", *(f"A1  - {family}, {given}" for family, given in people(paper))]
    lines += [f"A1  - {paper.body}"] if paper.body else []
    lines += [f"T1  - {paper.title}", f"JO  - {paper.journal}", f"JA  - {paper.short}", f"Y1  - {paper.year}///"]
    lines += [f"VL  - {paper.volume}", f"IS  - {paper.number}", f"SP  - {'-'.join(filter(None, paper.pages))}"]
    lines += [f"DO  - https://doi.org/{paper.doi}" if paper.doi else "DO  - ", f"N2  - {paper.abstract}"]
    return "\r\n".join([*lines, "PB  - Supposed Press", "SN  - 1234-567X", ""])


def ris_of_a_database(paper: Paper) -> str:
    """With a mark of byte order, names without commas, and tags of its own."""
    lines = ["\ufeffTY  - JOUR", *(f"AU  - {family}, {given[:1]}." for family, given in people(paper))]
    lines += [f"AU  - {paper.body}"] if paper.body else []
    lines += [f"TI  - {paper.title}", f"JF  - {paper.journal}", f"PY  - {paper.year}", f"VL  - {paper.volume}"]
    lines += [f"IS  - {paper.number}", f"C7  - {paper.pages[0]}" if not paper.pages[1] else f"SP  - {paper.pages[0]}"]
    lines += [f"EP  - {paper.pages[1]}", f"DO  - {paper.doi}", "M3  - Article", "DB  - Supposed Index", "LA  - English"]
    lines += ["UR  - https://example.org/one?x=1", "UR  - https://example.org/two", "N1  - Cited By :3"]
    lines += [f"AD  - Department of {family}, A Town" for family, _ in people(paper)]
    return "\n".join([*lines, "ER  -", ""])


def nbib(paper: Paper) -> str:
    """Lines go on behind six blanks; the title ends in a full stop; each author twice."""
    lines = [f"PMID- {paper.pmid or str(90000000 + len(paper.title))}", "OWN - NLM", "STAT- MEDLINE", "LR  - 20250101"]
    lines += ["IS  - 1234-567X (Electronic)", f"VI  - {paper.volume}", f"IP  - {paper.number}"]
    months = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()  # noqa: SIM905
    month = months[int(paper.month) - 1] if paper.month else ""
    lines += [f"DP  - {' '.join(filter(None, (paper.year, month, paper.day)))}", *folded("TI  - ", paper.title + ".")]
    lines += [f"PG  - {'-'.join(filter(None, paper.pages))}", f"LID - {paper.doi} [doi]" if paper.doi else "LID - "]
    lines += folded("AB  - ", " ".join(paper.abstract.split()))
    for family, given in paper.people:
        lines += [f"FAU - {family}, {given}{' ' + paper.suffix if paper.suffix else ''}"]
        lines += [f"AU  - {family} {given[:1]}", "AD  - A department, A Town."]
    lines += [f"CN  - {paper.body}"] if paper.body else []
    lines += ["LA  - eng", "PT  - Journal Article", f"TA  - {paper.short}", f"JT  - {paper.journal}", "JID - 9900001"]
    lines += [*(f"OT  - {word}" for word in paper.keywords), f"SO  - {paper.short}. {paper.year};{paper.volume}", ""]
    return "\n".join(["", *lines])


def folded(tag: str, text: str) -> list[str]:
    """Lines of some eighty characters, broken at blanks."""
    lines = [tag]
    for word in text.split():
        if len(lines[-1]) + len(word) > 80:
            lines.append("     ")
        lines[-1] += word if lines[-1] == tag else f" {word}"
    return lines


def csl(paper: Paper) -> str:
    """A list of one item, as processors write it."""
    names = [{"family": family, "given": given} for family, given in paper.people]
    if paper.suffix:
        names[0]["suffix"] = paper.suffix
    item = {
        "id": "http://example.org/items/1", "type": "article-journal", "title": paper.title,
        "author": [*names, *([{"literal": paper.body}] if paper.body else [])],
        "container-title": paper.journal, "container-title-short": paper.short, "volume": paper.volume,
        "issue": paper.number, "page": "-".join(filter(None, paper.pages)), "DOI": paper.doi,
        "abstract": paper.abstract, "keyword": ", ".join(paper.keywords), "custom": {"read": True},
        "issued": {"date-parts": [[int(part) for part in (paper.year, paper.month, paper.day) if part]]},
        "accessed": {"date-parts": [["2026", "1", "5"]]},
    }  # fmt: skip
    return json.dumps([{name: value for name, value in item.items() if value}], ensure_ascii=True)


def csl_of_a_register(paper: Paper) -> str:
    """One item alone, years as text, tags of web pages in the abstract, and fields that the schema does not know."""
    names = [
        {"family": family, "given": given, "sequence": "first", "affiliation": []} for family, given in paper.people
    ]
    item = {
        "type": "journal-article", "title": paper.title, "author": names or [{"name": paper.body}],
        "container-title": paper.journal, "volume": paper.volume, "issued": {"date-parts": [[paper.year]]},
        "page": "-".join(filter(None, paper.pages)), "DOI": paper.doi, "URL": f"https://doi.org/{paper.doi}",
        "abstract": f"<jats:p>{paper.abstract}</jats:p>", "is-referenced-by-count": 12, "score": 1.5,
    }  # fmt: skip
    return json.dumps(item, indent=1, ensure_ascii=False)


def bibtex(paper: Paper) -> str:
    """As a manager writes it, with an abbreviation of its own and months."""
    names = " and ".join(f"{family}, {given}" for family, given in paper.people) or f"{{{paper.body}}}"
    title = paper.title.translate(str.maketrans({"%": r"\%", "$": r"\$", "_": r"\_", "#": r"\#", "~": "-"}))
    return (
        f"@string{{j = {{{paper.journal}}}}}\n@Article{{Doe:{paper.year}/1,\n  author = {{{names}}},\n"
        f"  title = {{{title}}},\n  journal = j,\n  year = {paper.year},\n  month = jan,\n"
        f"  pages = {{{'--'.join(filter(None, paper.pages))}}},\n  doi = {{{paper.doi}}},\n"
        "  file = {:a/b.pdf:PDF}\n}\n"
    )


def people(paper: Paper) -> list[tuple[str, str]]:
    """With the suffix where RIS has it, behind the given names."""
    suffix = f", {paper.suffix}" if paper.suffix else ""
    return [(family, f"{given}{suffix}") for family, given in paper.people]


SHAPES = {
    "manager.ris": ris_of_a_manager,
    "publisher.ris": ris_of_a_publisher,
    "database.ris": ris_of_a_database,
    "pubmed.nbib": nbib,
    "processor.json": csl,
    "register.json": csl_of_a_register,
    "manager.bib": bibtex,
}
EXPORTS = {f"{number}-{name}": shape(paper) for number, paper in enumerate(PAPERS, 1) for name, shape in SHAPES.items()}
