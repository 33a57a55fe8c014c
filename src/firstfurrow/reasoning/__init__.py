"""How a number is written down, printed and recomputed: formulas, steps, and the ledger that collects them.

A step's value is rounded to its declared digits *before* the next step reads it, so the printed values are the values
used and a reader with a pencil gets the printed result from the printed line. The ledger is a graph: leaves (answers,
table figures, our choices) may carry a low and a high end, and any step can be run again with the leaves moved to the
end that raises or lowers it. Nothing here knows a tractor or does any input or output.
"""

from firstfurrow.reasoning.ends import Ends, Memo, ancestors, ends, highest
from firstfurrow.reasoning.formula_text import FUNCTIONS, evaluate
from firstfurrow.reasoning.formulas import EITHER, FORMULAS, LOWERS, RAISES, Formula, NoSolutionError, formula
from firstfurrow.reasoning.ledger import Ledger
from firstfurrow.reasoning.steps import RECOMPUTED, Step, StepType

__all__ = [
    "EITHER", "FORMULAS", "FUNCTIONS", "LOWERS", "RAISES", "RECOMPUTED", "Ends", "Formula", "Ledger", "Memo",
    "NoSolutionError", "Step", "StepType", "ancestors", "ends", "evaluate", "formula", "highest",
]  # fmt: skip
