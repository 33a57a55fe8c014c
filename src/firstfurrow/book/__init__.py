"""The book: questions, implements and tables, read from YAML into checked, frozen objects."""
