"""Offers: real tractors held against a profile."""
