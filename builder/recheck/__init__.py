"""An edited talk or text beside the guide: which of its numbers stand there, and whether of the same thing."""
