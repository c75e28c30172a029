"""Whatever asks the network: what became of a report since it was published. Nothing else of the program does."""
