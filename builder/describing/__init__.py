"""What the forms say of themselves: every field with its meaning and an example, and the same as JSON Schema."""
