"""The report: content blocks of a profile, rendered as terminal text or written as JSON. It computes nothing."""
