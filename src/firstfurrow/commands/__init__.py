"""The commands, one module each: what each takes, and what it does with it. Thin."""
