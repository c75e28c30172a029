"""Hand-written pages after Markdown: no number stands unmarked."""

from __future__ import annotations

import pytest
from passageproof.rendering.written import marked_numbers


@pytest.mark.parametrize(
    ("html", "expected"),
    [
        ("<h1>Note 7</h1>", '<h1><span class="words">Note 7</span></h1>'),
        ("<p>no digit</p>", "<p>no digit</p>"),
        ("<td>1</td>", '<td><span class="words">1</span></td>'),
        ('<data class="figure" value="3">3</data>', '<data class="figure" value="3">3</data>'),
        ('<p class="words">a <b>2</b></p>', '<p class="words">a <b>2</b></p>'),
        ('<time datetime="2026-01-02">2026-01-02</time>', '<time datetime="2026-01-02">2026-01-02</time>'),
        ("<p>a<br>5 &amp; b</p>", '<p>a<br><span class="words">5 </span>&amp; b</p>'),
        ('<img alt="4" src="x4.png">', '<img alt="4" src="x4.png">'),
        ("<!-- 3 --><hr>", "<!-- 3 --><hr>"),
    ],
)
def test_a_number_is_marked_once_and_nothing_else_changes(html: str, expected: str) -> None:
    assert marked_numbers(html) == expected
