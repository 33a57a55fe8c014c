"""What one hookup asks of each interface of the tractor: one module for each group of requirements."""

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.demands.every import demands_of

__all__ = ["Demand", "demands_of"]
