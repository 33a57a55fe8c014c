"""What an offer may say, from its YAML: keys with a dimension or with words."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow.book.figures import figure
from firstfurrow.book.model import OfferKey, OfferWord
from firstfurrow.quantities import DIMENSIONS


def offer_key(data: Mapping[str, Any]) -> OfferKey:
    """One key."""
    dimension = data.get("dimension")
    tolerance = data.get("tolerance")
    return OfferKey(
        id=data["key"],
        name=data["name"],
        what=data["what"],
        where=data["where"],
        dimension=dimension,
        unit="" if dimension is None else DIMENSIONS[dimension].working,
        words=tuple(OfferWord(w["id"], w["label"], tuple(w.get("also") or ())) for w in data.get("words") or ()),
        many=data.get("many", False),
        zero=data.get("zero", False),
        bare=data.get("bare"),
        tolerance=0.0 if tolerance is None else figure(tolerance, dimension).planning,
        printed=data.get("printed", ""),
    )
