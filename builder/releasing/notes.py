"""Release notes, written from what moves since the release before: an answer that was turned round stands first."""

from __future__ import annotations

import re

from ..impact.moves import Impact
from ..impact.told import as_markdown
from ..review_words import as_words
from .described import MARK, Release


def release_notes(release: Release, impact: Impact | None, base: str) -> str:
    """Markdown. impact: since `base`; None for a first release."""
    compendium = release.compendium
    title = as_words(release.title)
    says = f"Evidence of {compendium.evidence_date.text}, published by {as_words(compendium.programme.text)}."
    if compendium.demonstration:
        says += f" Everything in it is {MARK}: not for use with a patient."
    lines = [f"# {title}, release {release.number}", "", says, ""]
    if impact is None:
        lines.append("This is the first release: there is nothing to compare it with.")
    else:
        lines.append(re.sub(r"^(#+ )", r"#\1", as_markdown(impact, base), flags=re.MULTILINE).rstrip())
    lines += [
        "",
        "What goes together is an association, never a cause. Local protocol and the judgement of a licensed clinician "
        "come first.",
    ]
    return "\n".join(lines) + "\n"
