"""Files as people hand them in: their paragraphs with the place of each, and what cannot be read said in words."""

from __future__ import annotations

import io
import zipfile

import pytest
from passageproof.recheck.documents import UnreadableDocumentError, read_document
from pptx import Presentation
from pptx.util import Inches

# ECMA-376 Part 1: the namespaces of WordprocessingML.
WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"


def presentation() -> bytes:
    made = Presentation()
    for words, notes in (("39 of 47 healed", ""), ("Second slide", "say 83%")):
        slide = made.slides.add_slide(made.slide_layouts[6])
        box = slide.shapes.add_textbox(Inches(1), Inches(1), Inches(5), Inches(1)).text_frame
        box.text = words
        if notes:
            slide.notes_slide.notes_text_frame.text = notes
    # As somebody moves a slide: the order of the list counts, and not the names of the parts.
    order = made.slides._sldIdLst
    order.insert(0, order[1])
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def test_slides_come_in_the_order_in_which_they_are_shown_with_their_notes() -> None:
    lines = read_document("talk.pptx", presentation()).lines
    assert [tuple(line) for line in lines] == [
        ("slide 1", "Second slide"), ("slide 1, notes", "say 83%"), ("slide 2", "39 of 47 healed"),
    ]  # fmt: skip


def test_figures_that_a_deck_was_given_are_read_with_it() -> None:
    content = io.BytesIO(presentation())
    with zipfile.ZipFile(content, "a") as package:
        package.writestr(
            "customXml/item1.xml",
            '<t:talk xmlns:t="urn:x"><t:figure id="a/b/events" at="sources/a/">39</t:figure></t:talk>',
        )
    assert read_document("talk.pptx", content.getvalue()).given == {"a/b/events": "39"}


def test_a_text_document_is_read_by_paragraph_and_a_run_parts_no_number() -> None:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as package:
        body = (
            "<w:p><w:r><w:t>39 o</w:t></w:r><w:r><w:t>f 47</w:t></w:r></w:p><w:p/><w:p><w:r><w:t>83%</w:t></w:r></w:p>"
        )
        package.writestr("word/document.xml", f'<w:document xmlns:w="{WORD}"><w:body>{body}</w:body></w:document>')
    lines = read_document("abstract.docx", content.getvalue()).lines
    assert [tuple(line) for line in lines] == [("paragraph 1", "39 of 47"), ("paragraph 2", "83%")]


def test_text_is_read_by_line_with_or_without_a_byte_order_mark() -> None:
    for content in (b"a\n\n39 of 47\n", "\ufeffa\r\n\r\n39 of 47".encode()):
        assert [tuple(line) for line in read_document("a.md", content).lines] == [
            ("line 1", "a"),
            ("line 3", "39 of 47"),
        ]


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("talk.pdf", b"%PDF", '"talk.pdf" is none of .pptx, .docx, .txt, .md'),
        ("talk.pptx", b"no zip", '"talk.pptx" cannot be opened as .pptx'),
        ("a.txt", b"\xff\xfe\x00", '"a.txt" is not text in UTF-8'),
    ],
)
def test_what_cannot_be_read_is_said_in_words(name: str, content: bytes, says: str) -> None:
    with pytest.raises(UnreadableDocumentError, match=says.replace(".", r"\.")):
        read_document(name, content)


def test_a_part_with_a_document_type_is_refused() -> None:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w") as package:
        package.writestr("word/document.xml", '<!DOCTYPE a [<!ENTITY b "c">]><a>&b;</a>')
    with pytest.raises(UnreadableDocumentError):
        read_document("a.docx", content.getvalue())
