"""Files of a guide are made when somebody asks for them, and by pieces where they are large."""

from __future__ import annotations

from collections.abc import Iterator

from passageproof.rendering.site import SiteFiles, writers
from rendering.sample_guide import sample_guide


def test_no_file_is_made_before_somebody_asks_for_it() -> None:
    asked = []

    def write() -> Iterator[str]:
        asked.append("b")
        yield "one "
        yield "two"

    files = SiteFiles({"b": write, "a": lambda: iter(())})
    assert list(files) == ["a", "b"]
    assert "b" in files
    assert "c" not in files
    assert asked == []
    assert files["b"] == "one two"
    assert b"".join(files.pieces("b")) == b"one two"
    assert asked == ["b", "b"]


def test_files_in_the_place_of_others() -> None:
    files = SiteFiles({"a": lambda: iter("x"), "b": lambda: iter("y")}) | {"b": "z", "c": ""}
    assert dict(files) == {"a": "x", "b": "z", "c": ""}


def test_large_downloads_come_by_rows() -> None:
    written = writers(sample_guide(), str)
    for path in ("data/claims.csv", "data/claims.json"):
        assert len(list(written[path]())) > 1, path
