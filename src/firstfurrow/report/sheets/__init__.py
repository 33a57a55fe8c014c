"""Sheets to fill in by hand and to hand out: every question, the walk-around, the seller, a model, a class."""
