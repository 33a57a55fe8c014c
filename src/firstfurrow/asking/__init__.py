"""The asking: a pure state machine over book and answers. It knows no physics and does no input or output."""
