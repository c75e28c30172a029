"""A live preview: whatever is asked for after an edit is byte for byte what a whole build gives."""

from __future__ import annotations

import random
import re
import shutil
import subprocess
import sys
import threading
import urllib.error
import urllib.request
from collections.abc import Callable, Generator, Iterator
from pathlib import Path

import pytest
from passageproof.preview import Preview, _Server, answer_to, is_asked_here, reload_tag
from passageproof.publishing import CannotPublish

ROOT = Path(__file__).parent.parent
EXAMPLE = ROOT / "tests" / "example" / "evidence"
CLAIMS = "evidence/claims/marlow2019furcal.yaml"
QUESTION = "evidence/questions/root-perforation.yaml"

# One process builds whole sites, since MkDocs keeps plugins over all runs of one.
BUILDING = """\
import sys
from pathlib import Path
from passageproof.publishing import CannotPublish, publish
root = Path(sys.argv[1])
for site in sys.stdin:
    try:
        publish(root, Path(site.strip()))
        print("published", flush=True)
    except CannotPublish:
        print("refused", flush=True)
"""


@pytest.fixture
def root(tmp_path: Path) -> Path:
    """The example of the format, with a page written by hand."""
    shutil.copytree(EXAMPLE, tmp_path / "root" / "evidence")
    (tmp_path / "root" / "site_src").mkdir()
    about = "# About\\n\\nHealed: $marlow2019furcal/overall. See [all data](data/claims.csv).\\n"
    (tmp_path / "root" / "site_src" / "about.md").write_text(about.replace("\\n", "\n"), "utf-8")
    return tmp_path / "root"


@pytest.fixture
def preview(root: Path) -> Iterator[Preview]:
    """A preview of it, started."""
    made = Preview(root)
    assert made.start()
    yield made
    made.close()


@pytest.fixture
def built(root: Path, tmp_path: Path) -> Iterator[Callable[[], Path | None]]:
    """Builds the whole site as it is now; None where there is something to mend."""
    command = [sys.executable, "-c", BUILDING, str(root)]
    pipe = subprocess.PIPE
    process = subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=subprocess.DEVNULL, text=True)
    assert process.stdin is not None
    assert process.stdout is not None
    site = tmp_path / "site"

    def build() -> Path | None:
        print(site, file=process.stdin, flush=True)
        answer = process.stdout.readline().strip()
        assert answer in ("published", "refused"), answer
        return site if answer == "published" else None

    yield build
    process.stdin.close()
    process.wait()
    process.stdout.close()


def files_of(site: Path) -> dict[str, bytes]:
    return {file.relative_to(site).as_posix(): file.read_bytes() for file in site.rglob("*") if file.is_file()}


def changed(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text, f"{file.name} holds no {old!r}"
    file.write_text(text.replace(old, new), "utf-8")


def body(preview: Preview, address: str) -> str:
    return answer_to(preview, address).body.decode()


@pytest.mark.slow
def test_every_file_is_what_a_whole_build_gives(preview: Preview, built: Callable[[], Path | None]) -> None:
    site = built()
    assert site is not None
    for path, content in files_of(site).items():
        assert preview.file(path) == content, path
    assert preview.file("nowhere/index.html") is None


def edits(root: Path, chance: random.Random) -> Generator[None, bool, None]:
    """Edits without end: words, numbers, lines, whole files; faults too, and after each of these the mending of it.

    It is sent whether the last edit left a sound compendium.
    """
    files = [path for path in (root / "evidence").rglob("*") if path.suffix in (".yaml", ".bib")]
    files += list((root / "site_src").glob("*.md"))
    sound = {path: path.read_bytes() for path in files}
    while True:
        inner = [path for path in files if path.parent.parent == root / "evidence"]
        path = chance.choice(inner if chance.randrange(3) else files)
        text = sound[path].decode("utf-8")
        kind = min(chance.randrange(9), 6)
        if kind == 0:
            # Every place below moves.
            path.write_text(
                f"# seen {chance.randrange(1000)} times\n\n{text}" if path.suffix == ".yaml" else f"\n{text}"
            )
        elif kind in (1, 6):
            start = chance.choice([match.start() for match in re.finditer(r"\d", text)] or [len(text)])
            path.write_text(f"{text[:start]}{chance.randrange(10)}{text[start + 1 :]}")
        elif kind == 2:
            word = chance.choice(re.findall(r"(?<=[a-z] )[a-z]{5,}(?= [a-z])", text) or ["title"])
            path.write_text(text.replace(f" {word} ", f" {word}, {word} ", 1))
        elif kind == 3:
            path.write_text(text[: chance.randrange(len(text))])
        elif kind == 4:
            path.unlink()
        else:
            path.write_text(text.replace("perforation", "opening") if path.suffix == ".md" else text.rstrip() + "\n")
        is_sound = yield
        if not is_sound or chance.randrange(2):
            path.write_bytes(sound[path])
            yield
        elif path.is_file():
            sound[path] = path.read_bytes()
        else:
            del sound[path]
            files.remove(path)


@pytest.mark.slow
def test_after_fifty_edits_every_page_is_what_a_whole_build_gives(
    root: Path, preview: Preview, built: Callable[[], Path | None]
) -> None:
    chance = random.Random(20261129)
    good = bad = early = 0
    site = built()
    assert site is not None
    pages = sorted(path for path in files_of(site) if re.match("(root-perforation|sources)/.*html$", path))
    steps = edits(root, chance)
    for number in range(150):
        if number >= 50 and min(good, bad, early) >= 10:
            break  # fifty, and as many more as it takes until each kind of answer was seen often
        steps.send(site is not None) if number else next(steps)
        first = chance.choice(pages)
        asked = answer_to(preview, f"/{first}")
        early += preview.is_behind
        site = built()
        if site is None:
            bad += 1
            assert "What has to be mended" in asked.body.decode(), number
            continue
        good += 1
        published = files_of(site)
        if first in published:
            assert asked.body == page_of(preview, published[first]), f"{first} after edit {number}"
        paths = sorted(published)
        if number % 5:
            paths = [path for path in paths if path.endswith(".html")]
            paths = chance.sample(paths, 5)
        for path in chance.sample(paths, len(paths)):
            assert preview.file(path) == published[path], f"{path} after edit {number}"
    assert min(good, bad, early) >= 10, (good, bad, early)


def page_of(preview: Preview, published: bytes) -> bytes:
    """A published page as the preview sends it: with the one script that brings it again."""
    return published.replace(b"</body>", reload_tag(preview.name) + b"</body>")


def test_an_edit_is_on_the_page_at_once_and_a_fault_shows_what_has_to_be_mended(root: Path, preview: Preview) -> None:
    before = body(preview, "/root-perforation/")
    changed(root / QUESTION, "title: ", "title: Indeed, ")
    assert "Indeed, " in body(preview, "/root-perforation/")
    assert "Indeed, " in body(preview, "/")
    changed(root / CLAIMS, "events: 39", "events: 38")
    for address in ("/root-perforation/", "/sources/marlow2019furcal/", "/about/"):
        assert f"{CLAIMS}:" in body(preview, address), address
    changed(root / CLAIMS, "events: 38", "events: 39")
    changed(root / QUESTION, "title: Indeed, ", "title: ")
    assert body(preview, "/root-perforation/").replace(preview.name, "") == re.sub(r"\d+-0(?=\" defer)", "", before)


def test_a_link_that_leads_nowhere_is_told_and_the_pages_come_back(root: Path, preview: Preview) -> None:
    about = root / "site_src" / "about.md"
    sound = about.read_text("utf-8")
    about.write_text(sound + "\n[nowhere](nowhere.md)\n", "utf-8")
    assert "nowhere.md" in body(preview, "/root-perforation/")
    with pytest.raises(CannotPublish):
        preview.file("index.html")
    about.write_text(sound + "\n[a place](root-perforation/index.md#nowhere)\n", "utf-8")
    assert "#nowhere" in body(preview, "/root-perforation/")
    about.write_text(sound, "utf-8")
    assert "What has to be mended" not in body(preview, "/root-perforation/")


def test_a_compendium_that_is_gone_is_told_until_it_is_back(root: Path, preview: Preview) -> None:
    compendium = root / "evidence" / "compendium.yaml"
    sound = compendium.read_bytes()
    compendium.unlink()
    assert "compendium.yaml" in body(preview, "/")
    compendium.write_bytes(sound)
    assert "What has to be mended" not in body(preview, "/")


def test_two_saves_of_one_length_in_one_moment_are_both_seen(root: Path, preview: Preview) -> None:
    for letter in "abcdef":
        title = re.sub(r"title: .", f"title: {letter}", (root / QUESTION).read_text("utf-8"), count=1)
        (root / QUESTION).write_text(title, "utf-8")
        assert f"<h1>{letter}" in body(preview, "/root-perforation/")


def test_a_browser_that_waits_hears_of_a_change(root: Path, preview: Preview) -> None:
    server = _Server(preview, ("127.0.0.1", 0))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    at = f"http://127.0.0.1:{server.server_port}"
    try:
        with urllib.request.urlopen(f"{at}/root-perforation") as answer:
            assert answer.url == f"{at}/root-perforation/"
            page = answer.read().decode()
        script, name = re.findall(r'<script src="(/-preview/[^"]+)" data-version="([^"]+)"', page)[0]
        with urllib.request.urlopen(at + script) as answer:
            assert "/-preview/changed" in answer.read().decode()
        threading.Timer(0.5, changed, (root / QUESTION, "title: ", "title: Indeed, ")).start()
        with urllib.request.urlopen(f"{at}/-preview/changed?since={name}") as answer:
            # RFC 9110, section 15.3.6: the user agent is to reset the document view.
            assert answer.status == 205
        with pytest.raises(urllib.error.HTTPError, match="404"):
            urllib.request.urlopen(f"{at}/nowhere/")
        with urllib.request.urlopen(urllib.request.Request(f"{at}/", method="HEAD")) as answer:
            assert (answer.read(), answer.status) == (b"", 200)
    finally:
        server.shutdown()
        server.server_close()
        thread.join()


def test_a_guest_and_a_site_with_more_plugins_are_made_whole(root: Path) -> None:
    (root / "pages").mkdir()
    (root / "pages" / "index.md").write_text("# Ours", "utf-8")
    (root / "mkdocs.yml").write_text("site_name: x\ndocs_dir: pages\nplugins: [search, evidence]\n", "utf-8")
    preview = Preview(root)
    assert not preview.start()
    preview.close()
    (root / "mkdocs.yml").write_text(
        "site_name: x\ndocs_dir: site_src\ntheme: material\nplugins: [search, evidence, tags]\n", "utf-8"
    )
    preview = Preview(root)
    assert not preview.start()
    preview.close()


@pytest.mark.parametrize(
    "address",
    [
        "/%2F{secret}",
        "/..%2f..%2f..%2f..%2f..%2f..%2f..%2f..{secret}",
        "/../../../../../../../..{secret}",
        "//{secret}",
    ],
    ids=["absolute", "up and encoded", "up", "two bars"],
)
def test_nothing_but_the_site_is_served(preview: Preview, tmp_path: Path, address: str) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("a secret", "utf-8")
    answer = answer_to(preview, address.format(secret=str(secret).lstrip("/") if "//{" in address else secret))
    assert b"a secret" not in answer.body
    assert answer.status == 404


def test_a_folder_of_the_machine_is_no_place_to_be_sent_to(preview: Preview, tmp_path: Path) -> None:
    (tmp_path / "open").mkdir()
    (tmp_path / "open" / "index.html").write_text("<p>not ours</p>", "utf-8")
    answer = answer_to(preview, f"/%2F{tmp_path}/open")
    assert not answer.location.startswith("//")
    assert answer.status == 404


@pytest.mark.parametrize(
    ("host", "bound", "is_meant"),
    [
        ("127.0.0.1:8000", "127.0.0.1", True),
        ("localhost:8000", "127.0.0.1", True),
        ("LOCALHOST", "127.0.0.1", True),
        ("[::1]:8000", "::1", True),
        ("desk.example:8000", "desk.example", True),
        ("evil.example", "127.0.0.1", False),
        ("evil.example:8000", "127.0.0.1", False),
        ("", "127.0.0.1", False),
        ("anything.example", "0.0.0.0", True),
    ],
)
def test_a_name_of_the_web_reads_nothing(host: str, bound: str, is_meant: bool) -> None:
    assert is_asked_here(host, bound) is is_meant


def test_an_address_that_is_none_is_answered(preview: Preview) -> None:
    assert answer_to(preview, "http://[::1").status == 400
