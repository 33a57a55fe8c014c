"""The rules that a book must keep: one module each, every rule gives problems with their place."""
