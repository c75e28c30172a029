"""A letter says where numbers of a report stand as the ledger has it, and who read it as the evidence names them."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import yaml

ROOT = Path(__file__).parents[2]
CLAIMS = ROOT / "evidence/claims"


def letters_of(site: Path) -> dict[str, str]:
    text = (site / "contribute/desk/letters/index.html").read_text("utf-8")
    found = re.findall(r'<details id="([\w-]+)">(.*?)</details>', text, re.DOTALL)
    return dict(found)


def plain(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())


def test_pages_of_a_letter_are_those_of_the_ledger(demo_site: Path) -> None:
    shown: dict[str, set[str]] = {}
    for row in map(json.loads, (demo_site / "data/figures.jsonl").read_text("utf-8").splitlines()):
        if row["kind"] == "quoted":
            shown.setdefault(row["id"].split("/")[0], set()).update(
                path for path in row["shown_on"] if path.endswith(".html")
            )
    letters = letters_of(demo_site)
    assert len(letters) > 15
    for key, letter in letters.items():
        named = {f"{address}index.html" for address in re.findall(r'href="\.\./\.\./\.\./([^"]*)"', letter)}
        # Hand-written pages name figures too, and no page of the guide does it for them.
        own = {path for path in shown.get(key, ()) if not path.startswith("sources/")}
        assert {path for path in named if not path.startswith("sources/")} == own - written(demo_site)
        assert f"sources/{key}/index.html" in named
        for path in named:
            assert (demo_site / path).is_file()


def written(site: Path) -> set[str]:
    sources = ROOT / "site_src"
    return {str(path.relative_to(sources).with_suffix("")) + "/index.html" for path in sources.rglob("*.md")}


def test_who_read_is_named_as_the_evidence_has_it(demo_site: Path) -> None:
    people = yaml.safe_load((ROOT / "evidence/compendium.yaml").read_text("utf-8"))["people"]
    for key, letter in letters_of(demo_site).items():
        said = yaml.load((CLAIMS / f"{key}.yaml").read_text("utf-8"), Loader=yaml.CBaseLoader)
        text = plain(letter)
        read = said["read"]
        assert f"read for the guide by {people[read['by']]['name']} on {read['on']} ({read['depth']})" in text
        checked = said.get("checked")
        again = f"re-read by {people[checked['by']]['name']} on {checked['on']}" if checked else "re-read by nobody yet"
        assert again in text
        # It leaves the site as paper or a picture: the mark goes with it.
        assert "An invented example" in text


def test_a_retracted_report_has_no_letter_and_every_other_page_leads_to_its_own(demo_site: Path) -> None:
    letters = letters_of(demo_site)
    for path in sorted((demo_site / "sources").glob("*/index.html")):
        key, text = path.parent.name, path.read_text("utf-8")
        leads = f'contribute/desk/letters/#{key}"' in text
        assert leads == (key in letters)
    status = yaml.safe_load((ROOT / "evidence/status.yaml").read_text("utf-8"))
    retracted = {key for key, said in status.items() if said["state"] == "retracted"}
    assert retracted
    assert not retracted & letters.keys()
