"""firstfurrow: the minimum a tractor must offer for your land, jobs and implements, and why."""

__version__ = "0.1.0"
