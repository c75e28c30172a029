"""Where a hand-written file stands on the site."""

from __future__ import annotations

import pytest
from passageproof.reading.published import published_address, published_path


@pytest.mark.parametrize(
    ("path", "published"),
    [
        ("index.md", "index.html"),
        ("about.md", "about/index.html"),
        ("a/index.md", "a/index.html"),
        ("a/README.md", "a/index.html"),
        ("a/b.md", "a/b/index.html"),
        ("data/claims.csv", "data/claims.csv"),
    ],
)
def test_where_a_file_is_published(path: str, published: str) -> None:
    # MkDocs user guide, "Writing your docs": index and README stand at the folder, others in one of their own.
    assert published_path(path) == published


def test_address_is_what_a_link_names() -> None:
    assert [published_address(path) for path in ("index.md", "about.md", "a/README.md")] == ["", "about/", "a/"]
