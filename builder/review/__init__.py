"""What a reviewer looks at: what changed, which words prove which figure, who read it, and what is still open."""
