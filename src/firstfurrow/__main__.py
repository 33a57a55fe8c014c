"""Lets `python -m firstfurrow` do what the command does."""

from firstfurrow.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
