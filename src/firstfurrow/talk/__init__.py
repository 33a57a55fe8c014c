"""The conversation: lines in, lines out, over the pure asking. It computes nothing itself."""
