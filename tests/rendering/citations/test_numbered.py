"""References in the numbered style of journals: the samples that were published, and entries that trip a processor."""

from __future__ import annotations

import warnings
from importlib.resources import files

import pytest
from guide.compendium import catalogue_of
from passageproof.rendering.citations.numbered import cited_by_number, numbered_reference
from passageproof.results.saying.reference_parts import reference_of
from passageproof.results.values.references import Person, Reference
from rendering.sample_guide import sample_guide


def read(entry: str) -> Reference:
    """The reference of one BibTeX entry with the key x2020."""
    catalogue = catalogue_of({"sources/x.bib": entry})
    return reference_of(catalogue, catalogue.evidence.sources["x2020"])


def cited(fields: str, kind: str = "article") -> str:
    """An entry as the first of a list."""
    return numbered_reference(read(f"@{kind}{{x2020, {fields}}}\n"), 1)


def test_the_style_is_one_of_the_published_schema() -> None:
    # The RELAX NG schema of CSL that the processor ships.
    from citeproc import CitationStylesStyle

    style = files("passageproof.rendering.citations").joinpath("numbered.csl")
    with warnings.catch_warnings(), style.open("rb") as file:
        warnings.simplefilter("error")
        CitationStylesStyle(file, validate=True)


# The samples of formatted references of the National Library of Medicine, to which the ICMJE Recommendations refer
# (2024, section IV.A.3.g), as instructions to authors reprint them: with issue, six authors and no month.
@pytest.mark.parametrize(
    ("fields", "printed"),
    [
        pytest.param(
            "author = {Halpern, Scott D. and Ubel, Peter A. and Caplan, Arthur L.}, year = 2002, volume = 347,"
            " title = {Solid-organ transplantation in {HIV}-infected patients}, journal = {N Engl J Med}, number = 4,"
            " pages = {284--287}",
            "Halpern SD, Ubel PA, Caplan AL. Solid-organ transplantation in HIV-infected patients. N Engl J Med."
            " 2002;347(4):284-7.",
            id="article",
        ),
        pytest.param(
            "author = {Rose, M. E. and Huerbin, M. B. and Melick, J. and Marion, D. W. and Palmer, A. M. and"
            " Schiding, J. K. and others}, year = 2002, volume = 935, number = {1-2}, pages = {40--46},"
            " title = {Regulation of interstitial excitatory amino acid concentrations after cortical contusion"
            " injury}, journal = {Brain Res}",
            "Rose ME, Huerbin MB, Melick J, Marion DW, Palmer AM, Schiding JK, et al. Regulation of interstitial"
            " excitatory amino acid concentrations after cortical contusion injury. Brain Res. 2002;935(1-2):40-6.",
            id="more than six authors",
        ),
        pytest.param(
            "author = {{Diabetes Prevention Program Research Group}}, year = 2002, volume = 40, number = 5,"
            " title = {Hypertension, insulin, and proinsulin in participants with impaired glucose tolerance},"
            " journal = {Hypertension}, pages = {679-686}",
            "Diabetes Prevention Program Research Group. Hypertension, insulin, and proinsulin in participants with"
            " impaired glucose tolerance. Hypertension. 2002;40(5):679-86.",
            id="a group",
        ),
        pytest.param(
            "author = {Vallancien, Guy and Emberton, Mark and Harving, Niels and van Moorselaar, R. Jeroen and"
            " {Alf-One Study Group}}, title = {Sexual dysfunction in 1,274 European men suffering from lower urinary"
            " tract symptoms}, journal = {J. Urol.}, year = 2003, volume = 169, number = 6, pages = {2257--2261}",
            "Vallancien G, Emberton M, Harving N, van Moorselaar RJ; Alf-One Study Group. Sexual dysfunction in 1,274"
            " European men suffering from lower urinary tract symptoms. J Urol. 2003;169(6):2257-61.",
            id="people and a group",
        ),
        pytest.param(
            "title = {21st century heart solution may have a sting in the tail}, journal = {BMJ}, year = 2002,"
            " volume = 325, number = 7357, pages = 184",
            "21st century heart solution may have a sting in the tail. BMJ. 2002;325(7357):184.",
            id="nobody named",
        ),
    ],
)
def test_published_samples_come_out_as_printed(fields: str, printed: str) -> None:
    assert cited(fields) == f"1. {printed}"


def test_a_chapter_and_a_book_come_out_as_printed() -> None:
    chapter = (
        "author = {Meltzer, P. S. and Kallioniemi, A. and Trent, J. M.}, editor = {Vogelstein, B. and Kinzler, K. W.},"
        " title = {Chromosome alterations in human solid tumors}, booktitle = {The genetic basis of human cancer},"
        " address = {New York}, publisher = {McGraw-Hill}, year = 2002, pages = {93--113}"
    )
    assert cited(chapter, "incollection") == (
        "1. Meltzer PS, Kallioniemi A, Trent JM. Chromosome alterations in human solid tumors. In: Vogelstein B,"
        " Kinzler KW, editors. The genetic basis of human cancer. New York: McGraw-Hill; 2002. p. 93-113."
    )
    book = "author = {Murray, P. R.}, title = {Medical microbiology}, edition = 4, address = {St. Louis}, year = 2002,"
    assert cited(f"{book} publisher = {{Mosby}}", "book") == (
        "1. Murray PR. Medical microbiology. 4th ed. St. Louis: Mosby; 2002."
    )


REST = "journal = {Ann Imagined Endod}, year = 2019, volume = 7"
TRICKY = {
    "a group first, then people": (
        f"author = {{{{Fenwick Group and Partners}} and Marlow, Ines}}, title = {{A}}, {REST}",
        "Fenwick Group and Partners, Marlow I. A. Ann Imagined Endod. 2019;7.",
    ),
    "accents, stacked ones too": (
        f"author = {{Nguy{{\\~{{\\^e}}}}n, Th{{\\d{{i}}}} and {{\\O}}strup, J{{\\\"u}}rgen}}, title = {{A}}, {REST}",
        "Nguyễn T, Østrup J. A. Ann Imagined Endod. 2019;7.",
    ),
    "eight authors": (
        "author = {Ash, Jean-Luc and Bay, J.-L. and Cole, J and Dunn, J and Elm, J and Fay, J and Gale, J and Hay, J},"
        f" title = {{A}}, {REST}",
        "Ash JL, Bay JL, Cole J, Dunn J, Elm J, Fay J, et al. A. Ann Imagined Endod. 2019;7.",
    ),
    "pages of unlike length": (
        f"author = {{Marlow, Ines}}, title = {{A}}, {REST}, pages = {{10--101}}",
        "Marlow I. A. Ann Imagined Endod. 2019;7:10-101.",
    ),
    "pages that are one page": (
        f"author = {{Marlow, Ines}}, title = {{A}}, {REST}, pages = {{341--341}}",
        "Marlow I. A. Ann Imagined Endod. 2019;7:341.",
    ),
    "particles and a suffix": (
        f"author = {{Ludwig van den Berg and de la Cruz, Jr, Ana Maria}}, title = {{A}}, {REST}, eid = {{e12}}",
        "van den Berg L, de la Cruz AM Jr. A. Ann Imagined Endod. 2019;7:e12.",
    ),
    "no year": (
        "author = {Marlow, Ines}, title = {A}, journal = {Ann Imagined Endod}, volume = 7",
        "Marlow I. A. Ann Imagined Endod. [date unknown];7.",
    ),
    "ahead of print": (
        "author = {Marlow, Ines}, title = {A}, journal = {Ann Imagined Endod}, year = 2026, note = {Online ahead of"
        " print}, doi = {10.5555/aie.2026.1}",
        "Marlow I. A. Ann Imagined Endod. 2026. Epub ahead of print. doi: 10.5555/aie.2026.1",
    ),
    "sub- and superscripts": (
        f"author = {{Marlow, Ines}}, title = {{H$_2$O$_2$ and 10\\textsuperscript{{3}} cells}}, {REST}",
        "Marlow I. H₂O₂ and 10³ cells. Ann Imagined Endod. 2019;7.",
    ),
    "a day of a month": (
        "author = {Marlow, Ines}, title = {A}, journal = {Ann Imagined Endod}, year = 2026, month = mar, day = 5,"
        " volume = 7",
        "Marlow I. A. Ann Imagined Endod. 2026 Mar 5;7.",
    ),
    "markup, and a title that asks": (
        f"author = {{Marlow, Ines}}, title = {{Is <script>alert(1)</script> \\& more safe?}}, {REST}",
        "Marlow I. Is <script>alert(1)</script> & more safe? Ann Imagined Endod. 2019;7.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", TRICKY)
def test_a_tricky_entry_is_written_as_journals_do(name: str) -> None:
    fields, printed = TRICKY[name]
    assert cited(fields) == f"1. {printed}"


def test_an_address_has_the_day_on_which_somebody_looked() -> None:
    page = "author = {{World Body}}, title = {5% and 5\\% of all}, year = 2024, urldate = {2024-05-06},"
    assert cited(f"{page} url = {{https://example.org/a_b}}", "online") == (
        "1. World Body. 5% and 5% of all [Internet]. 2024 [cited 2024 May 6]. Available from: https://example.org/a_b"
    )


def test_a_retracted_report_says_so() -> None:
    reference = Reference(authors=(Person("Marlow", "Ines"),), title="A", container="Ann", is_retracted=True)
    assert numbered_reference(reference, 3) == "3. Marlow I. A. Ann. [date unknown]. Retracted publication."


def test_a_list_is_numbered_in_the_order_that_is_asked_for() -> None:
    guide = sample_guide()
    entry = guide.sources[0]
    other = entry._replace(key="other", reference=Reference(title="Other", date=(2020,), container="Ann"))
    guide = guide._replace(sources=(entry, other))
    first, second = cited_by_number(guide, ["other", entry.key])
    assert first == "1. Other. Ann. 2020."
    assert second.startswith("2. ")
    with pytest.raises(KeyError):
        list(cited_by_number(guide, ["nobody"]))
