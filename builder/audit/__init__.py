"""Do the parts of the evidence agree? Values and proofs in; problems out."""
