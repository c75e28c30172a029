"""Another programme uses the tool from its wheel: sites of different shape build with it, and keep what is theirs."""

from __future__ import annotations

import email
import json
import os
import re
import shutil
import subprocess
import sys
import sysconfig
import venv
import zipfile
from email.message import Message
from pathlib import Path

import pytest
from mkdocs.commands.build import build as build_site
from mkdocs.config import load_config
from passageproof.plugin import EvidencePlugin
from site_html import Site

ROOT = Path(__file__).parent.parent
# 2026-01-01: a theme may print the moment of the build, and two builds are compared here.
TODAY = "1767225600"
FOUR_LINES = "site_name: Our evidence\ndocs_dir: evidence\ntheme: material\nplugins: [search, evidence]\n"

# A handbook that was there before: two folders of pages, a look and a navigation of its own.
HANDBOOK = """\
site_name: Fenwick handbook
site_url: https://example.org/
docs_dir: handbook
repo_url: https://example.org/fenwick/handbook
edit_uri: edit/main/handbook/
copyright: Fenwick Graduate Endodontics
theme:
  name: material
  custom_dir: look
  font: false
  palette: {scheme: slate, primary: teal}
  features: [navigation.tabs, content.action.edit]
extra_css: [css/house.css]
markdown_extensions: [admonition, footnotes]
plugins: [search, tags, EVIDENCE]
nav:
- Home: index.md
- Learning:
  - Reading club: club.md
  - Papers we stand on: learning/evidence/
- Rota: rota/index.md
"""
PAGES = {
    "handbook/index.md": (
        "# Welcome\n\nSee [what we stand on](learning/evidence/index.md).\n\n| a | b |\n|:--|--:|\n| x | y |\n"
    ),
    "handbook/club.md": "---\ntags: [club]\n---\n# Reading club\n\nFridays, bring a xylograph. !!! note\n",
    "handbook/rota/index.md": "# Rota\n\nWho is on call.[^1]\n\n[^1]: Ask the desk.\n",
    "handbook/css/house.css": "body { letter-spacing: .01em }\n",
    "look/partials/copyright.html": '<p class="house">A line of the house</p>\n',
    "look/main.html": '{% extends "base.html" %}{% block announce %}Moved to the new clinic{% endblock %}\n',
}
PLACED = "{evidence: {at: learning/evidence/}}"


class Installed:
    """A fresh environment in which the wheel is installed, and nothing of this repository."""

    def __init__(self, wheel: Path, folder: Path) -> None:
        venv.create(folder, with_pip=False)
        self.python = folder / "bin" / "python"
        own = sysconfig.get_path("purelib", vars={"base": str(folder)})
        install = [
            sys.executable,
            "-m",
            "pip",
            "--python",
            str(self.python),
            "install",
            "-q",
            "--no-deps",
            "--no-index",
        ]
        subprocess.run([*install, str(wheel)], check=True, capture_output=True)
        # What it depends on comes from the environment of the tests; a folder named in a .pth file brings no others in.
        (Path(own) / "dependencies.pth").write_text(sysconfig.get_path("purelib") + "\n", "utf-8")
        self.packages = Path(own)

    def run(self, *words: str, folder: Path) -> subprocess.CompletedProcess[str]:
        """python -m ..., as typed in a folder."""
        surroundings = {name: value for name, value in os.environ.items() if name not in ("PYTHONPATH", "VIRTUAL_ENV")}
        return subprocess.run(
            [str(self.python), "-m", *words], cwd=folder, capture_output=True, text=True, check=False,
            env=surroundings | {"NO_MKDOCS_2_WARNING": "1", "SOURCE_DATE_EPOCH": TODAY},
        )  # fmt: skip


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Built from a copy of the source, so that nothing is left in the repository."""
    source = tmp_path_factory.mktemp("source")
    shutil.copytree(ROOT / "builder", source / "builder", ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE", "LICENSE-TEXT", "LICENSE-DATA"):
        shutil.copy(ROOT / name, source)
    out = tmp_path_factory.mktemp("wheel")
    build = [
        sys.executable,
        "-m",
        "pip",
        "wheel",
        "-q",
        "--no-deps",
        "--no-build-isolation",
        "-w",
        str(out),
        str(source),
    ]
    subprocess.run(build, check=True, capture_output=True)
    (made,) = out.glob("*.whl")
    return made


@pytest.fixture(scope="session")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Installed:
    return Installed(wheel, tmp_path_factory.mktemp("fresh") / "env")


def site_of(folder: Path, configuration: str, pages: dict[str, str]) -> Path:
    shutil.copytree(ROOT / "tests" / "example" / "evidence", folder / "evidence")
    (folder / "mkdocs.yml").write_text(configuration, "utf-8")
    for name, text in pages.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    return folder


def built_both_ways(installed: Installed, folder: Path) -> Path:
    """The site as MkDocs builds it, which is what our own verb builds too."""
    # Not quietly: what is not said is not counted as a fault either.
    ran = installed.run("mkdocs", "build", "--strict", "-d", str(folder.parent / "by-mkdocs"), folder=folder)
    assert (ran.returncode, "WARNING" in ran.stderr) == (0, False), ran.stderr
    ran = installed.run("passageproof", "build", folder=folder)
    assert (ran.returncode, ran.stdout) == (0, ""), ran.stderr
    assert re.fullmatch(r"site: \d+ pages(, the guide at /\S+/)?\n", ran.stderr)
    assert contents(folder / "site") == contents(folder.parent / "by-mkdocs")
    return folder / "site"


def contents(site: Path) -> dict[str, bytes]:
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()}


@pytest.fixture(scope="session")
def bare(installed: Installed, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """evidence/ and four lines, without any page of its own."""
    return built_both_ways(installed, site_of(tmp_path_factory.mktemp("bare") / "programme", FOUR_LINES, {}))


@pytest.fixture(scope="session")
def handbook(installed: Installed, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The handbook with the guide in it."""
    text = HANDBOOK.replace("EVIDENCE", PLACED)
    return built_both_ways(installed, site_of(tmp_path_factory.mktemp("guest") / "programme", text, PAGES))


@pytest.fixture(scope="session")
def alone(installed: Installed, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same handbook as it was before: without the plugin, and without the way to the guide."""
    text = HANDBOOK.replace(", EVIDENCE", "").replace("  - Papers we stand on: learning/evidence/\n", "")
    pages = PAGES | {
        "handbook/index.md": PAGES["handbook/index.md"].replace("[what we stand on](learning/evidence/index.md)", "it")
    }
    folder = site_of(tmp_path_factory.mktemp("alone") / "programme", text, pages)
    ran = installed.run("mkdocs", "build", "--strict", folder=folder)
    assert ran.returncode == 0, ran.stderr
    return folder / "site"


# The wheel


def metadata(wheel: Path) -> Message:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = (name for name in archive.namelist() if name.endswith(".dist-info/METADATA"))
        return email.message_from_bytes(archive.read(name))


@pytest.mark.slow
def test_wheel_says_its_name_licence_and_ranges_of_what_it_needs(wheel: Path) -> None:
    said = metadata(wheel)
    # Core metadata specifications 2.4 (Python Packaging User Guide): License-Expression, License-File.
    assert (said["Name"], said["License-Expression"]) == ("passageproof", "MIT")
    assert said.get_all("License-File") == ["LICENSE"]
    needed = [text for text in said.get_all("Requires-Dist") or [] if "extra ==" not in text]
    assert len(needed) == 15
    assert [text for text in needed if "==" in text] == []


@pytest.mark.slow
def test_wheel_holds_one_package_and_every_file_of_it(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    assert {name.split("/")[0] for name in names if ".dist-info/" not in name} == {"passageproof"}
    source = ROOT / "builder"
    files = {path.relative_to(source).as_posix() for path in source.rglob("*") if path.is_file()}
    expected = {f"passageproof/{name}" for name in files if "__pycache__" not in name}
    assert names >= expected
    assert any(name.endswith(".dist-info/licenses/LICENSE") for name in names)


@pytest.mark.slow
def test_what_runs_is_what_was_installed(installed: Installed, tmp_path: Path) -> None:
    ran = subprocess.run(
        [str(installed.python), "-c", "import passageproof; print(passageproof.__file__); import builder"],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.stdout.strip() == str(installed.packages / "passageproof" / "__init__.py")
    assert "No module named 'builder'" in ran.stderr


# evidence/ and four lines


@pytest.mark.slow
def test_four_lines_are_a_whole_site(bare: Path) -> None:
    site = Site(bare)
    assert site.broken_links() == []
    assert site.pages["index.html"].body["data-page"] == "front"
    assert {page for page in site.pages if page.startswith("root-perforation/")} >= {
        "root-perforation/index.html", "root-perforation/size/index.html", "root-perforation/patient/index.html",
    }  # fmt: skip
    assert [path for path, page in site.pages.items() if page.inline] == []
    assert site.pages["contribute/index.html"].title.endswith(" - Hard questions in root canal treatment")


@pytest.mark.slow
def test_the_evidence_itself_is_no_page_of_the_site(bare: Path) -> None:
    assert not any((bare / name).exists() for name in ("compendium.yaml", "claims", "questions", "vocabulary.yaml"))
    assert not list(bare.rglob("*.yaml"))


@pytest.mark.slow
def test_four_lines_make_what_no_line_at_all_makes(installed: Installed, bare: Path, tmp_path: Path) -> None:
    shutil.copytree(ROOT / "tests" / "example" / "evidence", tmp_path / "evidence")
    assert installed.run("passageproof", "build", folder=tmp_path).returncode == 0
    assert contents(tmp_path / "site") == contents(bare)


# A site that was there before


def without_navigation(text: str) -> str:
    """A page of the theme without its navigation and the links to the page before and after."""
    text = re.sub(
        r'<nav class="md-(?:tabs|nav md-nav--primary).*?</nav>\s*(?=</div>|<div|<main)', "", text, flags=re.DOTALL
    )
    return re.sub(r'<link rel="(?:prev|next)"[^>]*>\s*', "", text)


@pytest.mark.slow
@pytest.mark.parametrize("page", ["club/index.html", "rota/index.html", "404.html"])
def test_page_of_the_site_is_as_it_was_but_for_the_navigation(handbook: Path, alone: Path, page: str) -> None:
    with_guide, without = ((site / page).read_text("utf-8") for site in (handbook, alone))
    assert with_guide != without
    assert without_navigation(with_guide) == without_navigation(without)
    assert "md-tabs" not in without_navigation(without)
    assert 'data-md-color-primary="teal"' in with_guide
    assert "A line of the house" in with_guide
    assert "Moved to the new clinic" in with_guide
    assert "something worse is happening" not in with_guide


@pytest.mark.slow
def test_every_other_file_of_the_site_is_as_it_was(handbook: Path, alone: Path) -> None:
    ours = {path for path in contents(handbook) if path.startswith("learning/evidence/")}
    with_guide, without = contents(handbook), contents(alone)
    assert set(with_guide) - ours == set(without)
    differing = {path for path in without if with_guide[path] != without[path]}
    pages = {path for path in without if path.endswith(".html")}
    assert differing - pages == {"search/search_index.json", "sitemap.xml", "sitemap.xml.gz"}


@pytest.mark.slow
def test_every_link_of_both_leads_somewhere(handbook: Path) -> None:
    site = Site(handbook)
    assert site.broken_links() == []
    guide = site.pages["learning/evidence/root-perforation/index.html"]
    assert guide.body["data-page"] == "question"
    assert guide.body["data-root"] == "../"
    assert any(link.startswith("../sources/marlow2019furcal/") for link in guide.links)
    assert {"../../../", "../../.."} & set(guide.links)


@pytest.mark.slow
def test_guide_stands_in_the_navigation_where_the_site_put_it(handbook: Path) -> None:
    text = (handbook / "club" / "index.html").read_text("utf-8")
    places = [text.rindex(f"\n    {words}") for words in ("Reading club", "Papers we stand on", "Rota")]
    assert places == sorted(places)
    assert places[1] < text.rindex('href="../learning/evidence/"') < places[2]
    assert 'href="../learning/evidence/methods/"' in text
    assert "sources/marlow2019furcal" not in text


@pytest.mark.slow
def test_search_of_the_site_holds_both(handbook: Path, alone: Path) -> None:
    docs, before = (
        json.loads((site / "search" / "search_index.json").read_text("utf-8"))["docs"] for site in (handbook, alone)
    )
    ours = {doc["location"]: doc for doc in docs if doc["location"].startswith("learning/evidence/")}
    assert [doc["location"] for doc in docs if doc["location"] not in ours] == [doc["location"] for doc in before]
    assert any("xylograph" in doc["text"] for doc in docs)
    assert ours["learning/evidence/sources/marlow2019furcal/"]["text"] == "Marlow, Ines; Okafor, Tam"
    own = json.loads((handbook / "learning/evidence/search/search_index.json").read_text("utf-8"))["docs"]
    assert {"learning/evidence/" + doc["location"] for doc in own} == set(ours)


@pytest.mark.slow
def test_worker_answers_for_the_guide_alone(handbook: Path) -> None:
    worker = (handbook / "learning/evidence/service-worker.js").read_text("utf-8")
    kept = json.loads(worker.partition("const KEPT = ")[2].partition(";\n")[0])
    assert {"", "urgent/", "root-perforation/size/", "stylesheets/reading.css", "search/search_index.json"} <= set(kept)
    assert all((handbook / "learning/evidence" / path).exists() for path in kept)
    assert not (handbook / "service-worker.js").exists()
    manifest = json.loads((handbook / "learning/evidence/manifest.webmanifest").read_text("utf-8"))
    assert manifest["scope"] == "./"
    assert all((handbook / "learning/evidence" / icon["src"]).is_file() for icon in manifest["icons"])


@pytest.mark.slow
def test_pages_of_the_guide_have_the_day_of_the_evidence_and_others_their_own(handbook: Path) -> None:
    days = dict(
        re.findall(
            r"<loc>https://example.org/(.*?)</loc>\s*<lastmod>(.*?)</lastmod>", (handbook / "sitemap.xml").read_text()
        )
    )
    assert {day for path, day in days.items() if path.startswith("learning/evidence/")} == {"2026-10-30"}
    assert {day for path, day in days.items() if not path.startswith("learning/evidence/")} == {"2026-01-01"}


@pytest.mark.slow
def test_page_of_the_guide_leads_to_the_file_behind_it_and_back_to_the_site(handbook: Path) -> None:
    text = (handbook / "learning/evidence/root-perforation/index.html").read_text("utf-8")
    assert 'href="https://example.org/fenwick/handbook/edit/main/evidence/questions/root-perforation.yaml"' in text
    assert (
        'Part of <a href="../../..">Fenwick handbook</a>' in text
        or 'Part of <a href="../../../">Fenwick handbook</a>' in text
    )


# Other shapes, told in plain words


@pytest.mark.slow
def test_site_with_pages_and_no_word_about_the_place_gets_a_section_at_the_end(
    installed: Installed, tmp_path: Path
) -> None:
    pages = {"docs/index.md": "# Home\n", "docs/zebra.md": "# Zebra\n"}
    folder = site_of(tmp_path / "programme", "site_name: Us\ntheme: mkdocs\nplugins: [search, evidence]\n", pages)
    site = built_both_ways(installed, folder)
    assert Site(site).broken_links() == []
    text = (site / "zebra" / "index.html").read_text("utf-8")
    assert text.index("Zebra") < text.index("Hard questions in root canal treatment")
    assert 'href="../evidence/root-perforation/"' in text
    assert "<h1" in (site / "index.html").read_text("utf-8")
    docs = json.loads((site / "search" / "search_index.json").read_text("utf-8"))["docs"]
    locations = [doc["location"] for doc in docs]
    assert "zebra/" in locations
    assert locations.count("evidence/root-perforation/") == 1
    assert [place for place in locations if place.startswith("evidence/") and "#" in place] == []


@pytest.mark.slow
def test_hand_written_pages_of_the_guide_stand_beside_those_of_the_site(installed: Installed, tmp_path: Path) -> None:
    pages = {
        "docs/index.md": "# Home\n",
        "site_src/how.md": "# How we read\n\n$marlow2019furcal/overall, ![plan](plan.svg)\n\n| a |\n|--:|\n| b |\n",
        "site_src/plan.svg": '<svg xmlns="http://www.w3.org/2000/svg"/>',
    }
    folder = site_of(tmp_path / "programme", "site_name: Us\ntheme: material\nplugins: [search, evidence]\n", pages)
    site = Site(built_both_ways(installed, folder))
    assert site.broken_links() == []
    page = site.pages["evidence/how/index.html"]
    assert page.body["data-page"] == "written"
    assert {shown.id for shown in page.figures} >= {"marlow2019furcal/overall/events"}
    assert page.inline == []
    assert (site.folder / "evidence" / "plan.svg").is_file()


@pytest.mark.slow
def test_site_whose_addresses_end_in_html_holds_the_guide_all_the_same(installed: Installed, tmp_path: Path) -> None:
    text = "site_name: Us\nuse_directory_urls: false\ntheme: material\nplugins: [search, evidence]\n"
    pages = {"docs/index.md": "# Home\n", "docs/a.md": "# A\n", "site_src/how.md": "# How\n"}
    site = Site(built_both_ways(installed, site_of(tmp_path / "programme", text, pages)))
    assert site.broken_links() == []
    assert {"a.html", "evidence/how/index.html", "evidence/root-perforation/size/index.html"} <= set(site.pages)


@pytest.mark.slow
def test_address_that_both_want_is_told_before_anything_is_lost(installed: Installed, tmp_path: Path) -> None:
    pages = {"docs/index.md": "# Home\n", "docs/evidence/urgent.md": "# Ours\n", "docs/evidence/notes.md": "# Notes\n"}
    folder = site_of(tmp_path / "programme", "site_name: Us\ntheme: material\nplugins: [search, evidence]\n", pages)
    (folder / "site").mkdir()
    (folder / "site" / "index.html").write_text("the last good one", "utf-8")
    told = "docs/evidence/urgent.md:1:1: this file of the site and the guide both want the address /evidence/urgent/"
    ran = installed.run("mkdocs", "build", folder=folder)
    assert (ran.returncode, "Traceback" in ran.stderr) == (1, False)
    assert told in ran.stderr
    assert (folder / "site" / "index.html").read_text("utf-8") == "the last good one"
    shutil.rmtree(folder / "site")
    ran = installed.run("passageproof", "build", folder=folder)
    assert (ran.returncode, told in ran.stderr) == (1, True)
    assert not (folder / "site").exists()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("text", "told"),
    [
        (
            "site_name: Us\ndocs_dir: evidence\nplugins: [search, evidence]\n",
            'mkdocs.yml names "mkdocs": write theme: material',
        ),
        ("site_name: Us\ntheme: material\nplugins: [{evidence: {at: ../x}}]\n", "which is no address below a site"),
    ],
    ids=["another theme", "no address"],
)
def test_configuration_that_cannot_be_is_told(installed: Installed, tmp_path: Path, text: str, told: str) -> None:
    folder = site_of(tmp_path / "programme", text, {"docs/index.md": "# Home\n"})
    for words in (("mkdocs", "build"), ("passageproof", "build")):
        ran = installed.run(*words, folder=folder)
        assert (ran.returncode, "Traceback" in ran.stderr) == (1, False)
        assert told in ran.stderr


@pytest.mark.slow
def test_site_that_mkdocs_made_is_replaced_and_nobodys_documents_are(installed: Installed, tmp_path: Path) -> None:
    pages = {"docs/index.md": "# Home\n"}
    folder = site_of(tmp_path / "programme", "site_name: Us\ntheme: material\nplugins: [evidence]\n", pages)
    assert installed.run("mkdocs", "build", folder=folder).returncode == 0
    ran = installed.run("passageproof", "build", folder=folder)
    assert (ran.returncode, ran.stderr.endswith(" pages, the guide at /evidence/\n")) == (0, True)
    (folder / "site" / "thesis.odt").write_text("years of work", "utf-8")
    ran = installed.run("passageproof", "build", folder=folder)
    assert (ran.returncode, "thesis.odt" in ran.stderr) == (1, True)
    assert (folder / "site" / "thesis.odt").is_file()


@pytest.mark.slow
def test_site_never_takes_the_place_of_the_folder_of_pages(installed: Installed, tmp_path: Path) -> None:
    folder = site_of(
        tmp_path / "programme", "site_name: Us\ntheme: material\nplugins: [evidence]\n", {"docs/a.md": "# A\n"}
    )
    ran = installed.run("passageproof", "build", "--site", "docs", folder=folder)
    assert (ran.returncode, "lies in docs" in ran.stderr) == (1, True)
    assert (folder / "docs" / "a.md").is_file()


@pytest.mark.slow
@pytest.mark.parametrize(("anchor", "code"), [("ask-size", 0), ("nowhere", 1)])
@pytest.mark.parametrize("pages", ["docs", "site_src"], ids=["of the site", "of the guide"])
def test_link_to_a_place_in_a_page_of_the_guide_is_followed(
    installed: Installed, tmp_path: Path, pages: str, anchor: str, code: int
) -> None:
    way = "evidence/" if pages == "docs" else ""
    text = f"site_name: Us\ndocs_dir: {pages}\ntheme: material\nplugins: [evidence]\nvalidation: {{anchors: warn}}\n"
    page = f"# Home\n\n[where]({way}root-perforation/index.md#{anchor})\n"
    folder = site_of(tmp_path / "programme", text, {f"{pages}/home.md": page})
    ran = installed.run("mkdocs", "build", "--strict", folder=folder)
    assert (ran.returncode, "does not contain an anchor '#nowhere'" in ran.stderr) == (code, bool(code)), ran.stderr


@pytest.mark.slow
def test_preview_shows_a_fault_in_place_of_the_guide_and_leaves_the_site_alone(tmp_path: Path) -> None:
    pages = {"docs/index.md": "# Home\n\n[guide](evidence/index.md)\n", "docs/rota.md": "# Rota\n"}
    folder = site_of(tmp_path / "programme", "site_name: Us\ntheme: material\nplugins: [search, evidence]\n", pages)
    compendium = folder / "evidence" / "compendium.yaml"
    good = compendium.read_text("utf-8")
    shown = []
    for text in (good, good.replace("demonstration: yes", "demonstration: perhaps"), good):
        compendium.write_text(text, "utf-8")
        config = load_config(str(folder / "mkdocs.yml"), site_dir=str(tmp_path / "site"), strict=True)
        plugin = config.plugins["evidence"]
        assert isinstance(plugin, EvidencePlugin)
        plugin.root = None
        config.plugins.on_startup(command="serve", dirty=False)
        build_site(config, serve_url="http://127.0.0.1:8000/")
        plugin.serving = False
        places = ("rota/index.html", "evidence/index.html", "evidence/root-perforation/index.html")
        shown.append([(tmp_path / "site" / place).read_text("utf-8") for place in places])
    assert ["What has to be mended" in page for page in shown[0]] == [False, False, False]
    assert "<h1" in shown[1][0]
    assert ["evidence/compendium.yaml:" in page for page in shown[1]] == [False, True, True]
    assert shown[2] == shown[0]


@pytest.mark.slow
def test_compendium_that_the_wheel_starts_checks_and_builds(installed: Installed, wheel: Path, tmp_path: Path) -> None:
    ran = installed.run("passageproof", "new", "ours", folder=tmp_path)
    assert (ran.returncode, ran.stderr) == (0, "")
    assert (tmp_path / "ours" / ".github" / "workflows" / "check.yml").is_file()
    # What its README and both workflows say: the wheel beside requirements.txt, and this one command.
    install = [
        sys.executable,
        "-m",
        "pip",
        "install",
        "--dry-run",
        "--ignore-installed",
        "--no-deps",
        "--no-index",
        "-q",
    ]
    install += ["--requirement", "requirements.txt", "--report", "-"]
    missing = subprocess.run(install, cwd=tmp_path / "ours", capture_output=True, text=True, check=False)
    assert (missing.returncode, wheel.name in missing.stderr) == (1, True)
    shutil.copy(wheel, tmp_path / "ours")
    there = subprocess.run(install, cwd=tmp_path / "ours", capture_output=True, text=True, check=True)
    # PyPA specification "Installation report" 1.
    (report,) = json.loads(there.stdout)["install"]
    assert report["metadata"]["name"] == "passageproof"
    ran = installed.run("passageproof", "check", folder=tmp_path / "ours")
    assert ran.returncode == 0, ran.stdout
    assert Site(built_both_ways(installed, tmp_path / "ours")).broken_links() == []
