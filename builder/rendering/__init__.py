"""The guide becomes Markdown pages, drawings and downloads; no BibTeX, no YAML and no MkDocs is known here."""
