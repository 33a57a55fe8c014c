"""What came of running the road again, as JSON data: ways out, prices, doubts and plausibility of a profile."""

from __future__ import annotations

from typing import Any

from firstfurrow.advice.changes import Change
from firstfurrow.advice.study import Study
from firstfurrow.advice.study.model import Difference, Doubt, Way, WaysOut


def study_data(study: Study) -> dict[str, Any]:
    """The study as plain data; the schema stands in the book."""
    without, ahead, doubts, plausibility = study.without, study.ahead, study.doubts, study.plausibility
    return {
        "ways_out": [_ways(ways) for ways in study.ways],
        "without": {
            "moving": [
                {"item": one.item, "name": one.name, "text": one.text, **difference_data(one.difference)}
                for one in without.moving
            ],
            "still": list(without.still),
            "untried": list(without.untried),
        },
        "ahead": None if ahead is None else {"names": list(ahead.names), **difference_data(ahead.difference)},
        "doubts": {
            "ranked": [_doubt(doubt) for doubt in doubts.ranked],
            "still": [{"question": question, "item": item} for question, item in doubts.still],
            "untried": list(doubts.untried),
            "runs": doubts.runs,
        },
        "plausibility": {
            "size_class": plausibility.size_class,
            "pushed_by": list(plausibility.pushed_by),
            "alone": plausibility.alone,
            "smaller": plausibility.smaller,
            "text": plausibility.text,
            "warnings": list(plausibility.warnings),
        },
    }


def change_data(change: Change) -> dict[str, Any]:
    """One change of the plan."""
    return {"id": change.id, "item": change.item, "value": change.value}


def difference_data(difference: Difference) -> dict[str, Any]:
    """What differs between two profiles."""
    return {
        "steps": difference.steps,
        "moves": [
            {"requirement": m.requirement, "before": m.before, "after": m.after, "steps": round(m.steps, 3)}
            for m in difference.moves
        ],
        "size_class": None if difference.size_class is None else list(difference.size_class),
        "comes": list(difference.comes),
        "goes": list(difference.goes),
    }


def _ways(ways: WaysOut) -> dict[str, Any]:
    return {
        "what": ways.sort,
        "id": str(ways.index),
        "kind": ways.kind,
        "tried": [_way(way) for way in ways.tried],
        "untried": ways.untried,
        "advice": list(ways.advice),
    }


def _way(way: Way) -> dict[str, Any]:
    return {
        "changes": [change_data(change) for change in way.changes],
        "ends": way.ends,
        "gives_way": way.gives_way,
        "text": way.text,
        **difference_data(way.difference),
    }


def _doubt(doubt: Doubt) -> dict[str, Any]:
    return {
        "sort": doubt.sort,
        "question": doubt.question,
        "item": doubt.item,
        "what": doubt.what,
        "taken": doubt.taken,
        "steps": doubt.steps,
        "how": doubt.how,
        "text": doubt.text,
        "ends": [{"if": end.words, **difference_data(end.difference)} for end in doubt.ends],
    }
