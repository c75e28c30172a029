"""The page for contributors is enough: all that a compendium of another trade has in its files is told there.

The page is read as a person does: from a file to its fields, from a field to the block that it leads to. What it does
not tell, nobody who has the page alone could have typed.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest
import yaml

OTHER_TRADE = Path(__file__).parent.parent / "other_trade"
KINDS = {"claims": "claims", "questions": "question"}
"""Folders of files whose kind is told once."""
MISSING = {"not reported", "not applicable", "could not access"}


class Told(NamedTuple):
    """A field as the page tells it."""

    says: str
    typed: str
    example: str
    blocks: tuple[str, ...]
    """Blocks that it leads to."""

    @property
    def words(self) -> set[str]:
        """Values that stand between marks of code."""
        return set(map(plain, re.findall(r"<code[^>]*>(.*?)</code>", self.typed)))


def plain(text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", "", text)).split())


class ContributePage:
    """What the page tells of files and fields."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.plain = plain(text)
        told = "<div>(.*?)</div><div>(.*?)</div><div>Example: (.*?)</div>"
        row = rf'<dt id="field-([\w-]+)-in-([a-z-]+)">.*?</dt><dd>{told}'
        self.fields = {
            (block, name): Told(plain(says), typed, plain(example), tuple(re.findall(r'#fields-([a-z-]+)"', typed)))
            for name, block, says, typed, example in re.findall(row, text)
        }

    def block_of_file(self, kind: str) -> str:
        """The first block that is told of a file."""
        own = self.text[self.text.index(f'id="file-{kind}"') :]
        found = re.search(r'id="fields-([a-z-]+)"', own)
        assert found is not None
        return found[1]

    def untold(self, block: str, value: Any, at: str) -> Iterator[str]:
        """Each field or value of a block that the page does not tell, by its place."""
        for name, said in value.items():
            told = self.fields.get((block, name))
            if told is None or not told.says or not told.example:
                yield f"{at}/{name}: no such field in {block}"
            else:
                yield from self._untold_value(told, said, f"{at}/{name}")

    def _untold_value(self, told: Told, said: Any, at: str) -> Iterator[str]:
        if isinstance(said, list):
            for each in said:
                yield from self._untold_value(told, each, at)
        elif isinstance(said, dict):
            # One of the blocks it leads to has these fields; or it holds names of one's own, each with a text or block.
            ways = [list(self.untold(block, said, at)) for block in told.blocks]
            under_names = all(isinstance(each, str) for each in said.values()) and "name" in plain(told.typed)
            inner = [each for each in said.values() if isinstance(each, dict)]
            for block in told.blocks if len(inner) == len(said) else ():
                ways.append([one for each in inner for one in self.untold(block, each, at)])
            if not under_names and [] not in ways:
                yield from min(ways, key=len, default=[f"{at}: no block is told for it"])
        elif self._is_closed(told) and said not in told.words | MISSING:
            yield f"{at}: {said!r} is none of the words that are told"

    @staticmethod
    def _is_closed(told: Told) -> bool:
        """Whether the page lists words and nothing else."""
        rest = plain(re.sub(r"<code[^>]*>.*?</code>", "", told.typed)).removeprefix("Typed:")
        return bool(told.words) and not re.sub(r"\b(?:or|one of|a list of|not|each)\b|[,:;. ]", "", rest)


@pytest.fixture(scope="session")
def page(graft_site: Path) -> ContributePage:
    return ContributePage((graft_site / "contribute/index.html").read_text("utf-8"))


def files() -> list[Path]:
    return sorted(path for path in (OTHER_TRADE / "evidence").rglob("*.yaml"))


def read(path: Path) -> Any:
    return yaml.load(path.read_text("utf-8"), Loader=yaml.CBaseLoader)


@pytest.mark.parametrize("path", files(), ids=lambda path: path.stem)
def test_every_field_and_closed_value_of_a_file_is_told_with_an_example(page: ContributePage, path: Path) -> None:
    folder = path.parent.name
    kind = KINDS.get(folder, path.stem)
    block = page.block_of_file(kind)
    said = read(path)
    if kind in ("urgent", "status"):
        untold = [one for name, each in said.items() for one in page.untold(block, each, name)]
    else:
        untold = list(page.untold(block, said, path.stem))
    assert untold == []
    assert f"evidence/{folder}/" in page.plain if folder != "evidence" else f"evidence/{path.name}" in page.plain


def test_what_the_page_does_not_tell_would_be_found(page: ContributePage) -> None:
    claim = {"id": "a", "outcomes": "x", "known_at": "later", "levels": [{"level": "a", "eventz": "1"}]}
    report = {"source": "a", "claims": [claim]}
    untold = list(page.untold("report", report, ""))
    assert len(untold) == 3, untold
    assert len(page.fields) > 150


def test_entries_and_passages_are_told_as_the_entry_has_them(page: ContributePage) -> None:
    text = (OTHER_TRADE / "evidence/sources/grafts.bib").read_text("utf-8")
    template = plain(page.text[page.text.index('id="template-entry"') :].split("</pre>")[0])
    for name in ("author", "title", "journal", "year", "annotation"):
        assert re.search(rf"\b{name}\s*=", text)
        assert f"{name} =" in template
    # Each kind of place that a bracket begins with.
    for word in sorted({found.lower() for found in re.findall(r"\[(pp?\.|[A-Za-z]+)", text)}):
        assert word in page.plain.lower(), word


def test_drawings_hand_written_pages_and_named_figures_are_told(page: ContributePage) -> None:
    assert "evidence/pictures/" in page.plain
    named = re.findall(r"\$[a-z0-9-]+/[a-z0-9/-]+", "\n".join(path.read_text("utf-8") for path in files()))
    assert named
    assert "$key/claim" in page.plain
    questions = {path.stem for path in files() if path.parent.name == "questions"}
    for name in named:
        steps = name[1:].split("/")
        if steps[0] in questions:
            assert steps[-1] in page.plain
