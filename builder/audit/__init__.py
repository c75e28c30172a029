"""Do the parts of the evidence agree? Values in; problems and proofs out."""
