"""An evidence compendium: BibTeX entries and claim files become a decision guide in which every figure is proved."""
