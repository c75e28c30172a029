"""How a release is cited and registered: CITATION.cff, and metadata for whoever registers a DOI for it."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Mapping
from typing import Any

from ..outside.standings import doi_of
from ..reading.latex import readable_text
from ..reading.model import Compendium
from ..reading.source_model import Source
from ..records import NamedTuple
from ..writing.scalars import typed

MARK = "invented for demonstration"


class Release(NamedTuple):
    """What is released."""

    number: str
    """X.Y.Z."""
    on: datetime.date
    compendium: Compendium

    @property
    def title(self) -> str:
        """With the mark of a demonstration, since a citation travels alone."""
        title = readable_text(self.compendium.title.text)
        return f"{title}, {MARK}" if self.compendium.demonstration else title

    @property
    def licences(self) -> list[str]:
        """SPDX identifiers, as typed, each once."""
        both = (self.compendium.licence_text, self.compendium.licence_data)
        return list(dict.fromkeys(each.text for each in both if each is not None))


def citation(text: str, release: Release) -> str:
    """CITATION.cff with this release in it; every other line as it was. text: "" begins the file.

    Keys: Citation File Format 1.2.0, whose required ones are cff-version, message, title and authors
    (https://github.com/citation-file-format/citation-file-format/blob/main/schema-guide.md).
    """
    if not text:
        text = _begun(release)
    for key, value in (("version", release.number), ("date-released", release.on.isoformat())):
        line = re.compile(rf"^{key}:.*$", re.MULTILINE)
        said = f"{key}: {value}"
        text = line.sub(said, text, count=1) if line.search(text) else f"{text.rstrip()}\n{said}\n"
    return text


def _begun(release: Release) -> str:
    compendium = release.compendium
    lines = [
        "cff-version: 1.2.0",
        "message: If you use this compendium, cite the release that you used and the date of its evidence.",
        "type: dataset",
        f"title: {typed(release.title)}",
        f"version: {release.number}",
        f"date-released: {release.on.isoformat()}",
        "authors:",
        f"  - name: {typed(readable_text(compendium.programme.text))}",
    ]
    if release.licences:
        lines += ["license:", *(f"  - {typed(each)}" for each in release.licences)]
    if compendium.repository is not None:
        lines.append(f"repository-code: {typed(compendium.repository.text)}")
    return "\n".join(lines) + "\n"


def datacite(release: Release, sources: Mapping[str, Source], address: str = "") -> str:
    """Metadata of the release as JSON; the DOI is added by whoever registers it.

    sources: what it rests on. address: of the site, ending in "/"; "" where it is not known.
    Properties: DataCite Metadata Schema 4.6 (https://datacite-metadata-schema.readthedocs.io/en/4.6/), whose mandatory
    ones are Identifier, Creator, Title, Publisher, PublicationYear and ResourceType.
    """
    compendium = release.compendium
    programme = readable_text(compendium.programme.text)
    evidence = f"Evidence of {compendium.evidence_date.text}"
    said: dict[str, Any] = {
        "schemaVersion": "http://datacite.org/schema/kernel-4",
        "creators": [{"name": programme, "nameType": "Organizational"}],
        "titles": [{"title": release.title}],
        "publisher": {"name": programme},
        "publicationYear": f"{release.on.year:04}",
        "types": {"resourceTypeGeneral": "Dataset", "resourceType": "Evidence compendium"},
        "version": release.number,
        "language": "en",
        "dates": [{"date": release.on.isoformat(), "dateType": "Issued"}],
        "descriptions": [
            {
                "description": f"{evidence}, {MARK}" if compendium.demonstration else evidence,
                "descriptionType": "Other",
            }
        ],
    }
    people = [readable_text(person.name.text) for person in compendium.people.values()]
    if people:
        said["contributors"] = [
            {"name": name, "nameType": "Personal", "contributorType": "DataCurator"} for name in people
        ]
    if release.licences:
        said["rightsList"] = [
            {
                "rights": name,
                "rightsIdentifier": name,
                "rightsIdentifierScheme": "SPDX",
                "schemeUri": "https://spdx.org/licenses/",
            }
            for name in release.licences
        ]
    if address:
        said["url"] = f"{address}v{release.number}/"
    # What is invented has no DOI that anybody registered.
    dois = [] if compendium.demonstration else sorted({doi for each in sources.values() if (doi := doi_of(each))})
    if dois:
        said["relatedIdentifiers"] = [
            {"relatedIdentifier": doi, "relatedIdentifierType": "DOI", "relationType": "References"} for doi in dois
        ]
    return json.dumps(said, ensure_ascii=False, indent=1) + "\n"
