"""References to take along: as numbered text, and in the formats that programs for references read."""
