"""What was measured at a machine: what it is, what else it could be, what to measure next, what to heed."""

from firstfurrow.advice.measuring.finding import Finding, Part, find

__all__ = ["Finding", "Part", "find"]
