"""All measurements of the contributors' guide, one after the other: `python tests/benchmarks/every.py [--quick]`.

Start, first question, answer to next question, profile, doubts and memory as ratios; then whole commands at two sizes
of the work, tenfold apart: implements, questions, offers, walks, participants. On a machine that does nothing else.
`--quick` leaves out what takes minutes.
"""

from __future__ import annotations

import growth
import ratios


def main() -> None:
    """Measure and print both tables."""
    ratios.main()
    print()
    growth.main()


if __name__ == "__main__":
    main()
