"""What ties a number that stands in its passage to its claim; a question where the passage says otherwise."""
