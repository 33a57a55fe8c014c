"""Sheets to print: to fill in, to take along, to hand out. All of them are made from the book."""
