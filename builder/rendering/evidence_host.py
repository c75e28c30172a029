"""Where the evidence is kept, as far as a browser can open a new file there, and how that is said."""

from __future__ import annotations

from urllib.parse import urlsplit

from ..records import NamedTuple


class EvidenceHost(NamedTuple):
    """A site that keeps repositories and lets people add a file in the browser."""

    new: str
    """The address of its page for a new file on the main branch."""
    name: str
    """The parameter that names the file with its folders."""
    value: str
    """The parameter that fills it in; "" where what was copied has to be pasted."""


def host_of(repository: str) -> EvidenceHost | None:
    """How the host of a repository opens a new file; None for one of which that is not known.

    Parameters: GitHub and Gitea `filename` and `value` (gitea, docs/content/doc/developers/integrations.en-us.md,
    "Pre-Fill New File name and contents", which names GitHub's as its model); Forgejo has them from Gitea (common
    practice, no source). GitLab fills in `file_name` and ignores the content (gitlab-org/gitlab, work item 594214).
    """
    address = repository.rstrip("/").removesuffix(".git")
    parts = urlsplit(address)
    if parts.scheme != "https" or len(parts.path.strip("/").split("/")) < 2:
        return None
    host = parts.hostname or ""
    if host == "github.com":
        return EvidenceHost(f"{address}/new/main", "filename", "value")
    kind = host.split(".")[0]
    if kind == "gitlab":
        return EvidenceHost(f"{address}/-/new/main", "file_name", "")
    if kind in ("codeberg", "gitea", "forgejo"):
        return EvidenceHost(f"{address}/_new/main/", "filename", "value")
    return None


def told_host(repository: str) -> str:
    """What somebody with an account does there, in one or two sentences."""
    host = host_of(repository)
    if host is None:
        return (
            "At the end each file can be copied: there make a new file of the name that stands above it, paste, and "
            "propose it as a change that somebody else looks at."
        )
    if not host.value:
        return (
            "At the end each file opens there under its name: paste into it what you copied here, and propose it on a "
            "branch of its own. The second one goes to the same branch."
        )
    return (
        "At the end each file opens there filled in: propose the first on a branch of its own, and put the second on "
        "the same branch."
    )
