"""The writing desk as a page: what stands there before a script fills it, and what is said where it cannot."""

from __future__ import annotations

from html import escape
from urllib.parse import urlsplit

from ..results.values.guide import Guide
from .evidence_host import host_of, told_host


def desk_markdown(guide: Guide, size: int) -> str:
    """The page as Markdown, in one block of HTML. size: bytes that are fetched when it is opened; 0 without a desk."""
    demonstration = '<p class="invented">An invented example: not for use with a patient.</p>\n'
    mark = demonstration if guide.is_demonstration else ""
    head = '---\ntitle: "Type a paper in"\nkind: "written"\ntemplate: "reading.html"\nsearch:\n  exclude: true\n---\n\n'
    intro = (
        "<p>One paper goes in here: its entry, the passages that you quote, and what it claims. Every number is looked "
        "up in its passage while you type, by the same check that a change has to pass. Out come two files.</p>\n"
    )
    body = _desk(size, guide.repository) if size else _WITHOUT
    if not size:
        intro = ""
    return f'{head}<div class="guide" data-search-exclude>\n<h1>Type a paper in</h1>\n{mark}{intro}{body}</div>\n'


_WITHOUT = (
    "<p>This site does not bring its desk, so there is no field here: checking happens in the pull request.</p>\n"
    '<p><a class="target" href="../">Add a claim: what to type, with templates to copy</a></p>\n'
)


def _typed(tag: str, said: str, kind: str = "input") -> str:
    """A field of the paper by its tag of RIS, whose reader makes the entry."""
    box = f'id="desk-{tag}" data-tag="{tag}" autocomplete="off"'
    control = f'<textarea {box} rows="3"></textarea>' if kind == "textarea" else f'<input type="text" {box}>'
    return f'<label for="desk-{tag}">{said}</label>{control}\n'


_TYPED = "".join(
    (
        _typed("TI", "Title"), _typed("AU", "Authors, a line each: family name, given name", "textarea"),
        _typed("PY", "Year"), _typed("T2", "Journal"), _typed("VL", "Volume"), _typed("SP", "Pages"),
        _typed("DO", "DOI"),
    )
)  # fmt: skip


def _ways(repository: str) -> str:
    """Who puts the paper in: somebody with an account where the evidence is kept, or a colleague."""
    colleague = "Somebody else puts it in: I save both files in one and give them to whoever keeps this guide"
    if not repository:
        # Nothing to choose: nobody can have an account.
        return f"<p>{colleague}.</p>\n"
    where = escape(urlsplit(repository).hostname or repository)
    kept = f'<a href="{escape(repository)}">{where}</a>'
    return f"""<p class="ways-to-send"><label><input type="radio" name="way" value="account"> I have an account at
{where}</label></p>
<p class="quiet">The evidence is kept at {kept}. {told_host(repository)}</p>
<p class="ways-to-send"><label><input type="radio" name="way" value="colleague"> {colleague}</label></p>
"""


def _desk(size: int, repository: str) -> str:
    megabytes = -(-size // 1_000_000)
    host = host_of(repository)
    create, named, filled = host or ("", "", "")
    return f"""<noscript><p>Without scripts nothing can be checked here:
<a href="../">Add a claim</a> has templates to copy, and checking happens in the pull request.</p></noscript>
<div data-desk data-create="{escape(create)}" data-named="{named}" data-filled="{filled}"
data-kept="{escape(repository)}" hidden>
<div data-open>
<p>Opening it fetches about {megabytes} MB once, less where the host packs them; it is kept on this device and then
works without a network. What you type stays on this device until you send it.</p>
<p><button type="button">Open the desk</button></p>
</div>
<p data-part="state" role="status"></p><p data-part="back" role="status"></p>
<div data-sheet hidden>
<p class="sum" data-part="sum" role="status"></p>
<section data-part="second"><details><summary>Or read a paper of this guide a second time</summary>
<label for="desk-second">Which one</label>
<select id="desk-second"><option value="">choose</option></select></details><p role="status"></p></section>
<section data-first><h2>1. How will it be sent?</h2>
{_ways(repository)}</section>
<section data-part="entry" data-first><h2>2. The paper</h2>
<label for="desk-export">Its entry, or an export with it</label>
<small>BibTeX, RIS, PubMed (.nbib) or CSL-JSON, pasted or as a file</small>
<textarea id="desk-export" data-text rows="5" spellcheck="false"></textarea>
<p class="choices"><button type="button" data-take>Read it</button>
<label class="file">or a file <input type="file" accept=".bib,.ris,.nbib,.json,.txt"></label></p>
<details><summary>There is no export: type title, authors and year</summary>
{_TYPED}<p><button type="button" data-typed>Make its entry</button></p></details>
<div data-found aria-live="polite"></div>
<details data-taken hidden><summary>The entry as it will stand</summary>
<label for="desk-entry">BibTeX; the passages are put in below</label>
<textarea id="desk-entry" data-entry rows="9" spellcheck="false"></textarea></details>
<p class="told"></p></section>
<section><h2>3. Who read it, and whom it studied</h2><div data-part="report"></div></section>
<section><h2>4. What you quote</h2><div data-part="passages"></div></section>
<section><h2>5. What it claims</h2><div data-part="claims"></div></section>
<section data-first><h2>6. What its page will say</h2>
<p class="quiet">As the page of this paper will have it, once nothing is left to mend.</p>
<div class="page-to-be" data-part="page"></div></section>
<section><h2>7. Send it</h2>
<p><button type="button" data-look>Show all that is still to mend</button></p>
<p data-part="passes" role="status"></p><div data-part="elsewhere"></div>
<p data-first><button type="button" data-both>Save both files in one</button></p>
<p data-part="saved" role="status"></p>
<div data-again><p><button type="button" data-compare>Compare with the first reading</button></p>
<div data-part="compared" role="status"></div></div>
<div data-part="files"></div>
<p class="quiet">A change is read by a second person, paper in hand, before it is merged. After that the page of the
paper says where in the guide it stands.</p>
<p><button type="button" class="away" data-clear>Throw this draft away</button></p></section>
</div>
</div>
"""
