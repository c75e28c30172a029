"""What stands around every page: a bar that leads to nothing that is not there."""

from __future__ import annotations

from passageproof.rendering.frame import NO_DOORS, frame_of, with_urgent_bar
from rendering.sample_guide import sample_guide

DOORS = ("#questions", "#my-case", "#call")


def test_bar_leads_to_the_parts_of_the_front_page():
    frame = frame_of(sample_guide()._replace(doors=DOORS))
    bar = with_urgent_bar("<body>", "gaps", frame, "gaps/")
    assert [f'<a href="../{door}">' in bar for door in DOORS] == [True] * 3


def test_bar_of_a_front_page_without_these_parts_leads_to_the_page_itself():
    frame = frame_of(sample_guide())
    assert frame.doors == NO_DOORS
    assert "#" not in with_urgent_bar("<body>", "gaps", frame, "gaps/")


def test_bar_names_no_part_while_a_preview_says_what_has_to_be_mended():
    assert frame_of(sample_guide()._replace(doors=DOORS), is_shown=False).doors == NO_DOORS
    assert frame_of(None).doors == NO_DOORS
