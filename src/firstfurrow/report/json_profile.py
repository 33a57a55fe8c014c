"""A profile as JSON data (firstfurrow-profile/1): working units throughout; other programs rely on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from firstfurrow import __version__
from firstfurrow.advice.demands import Demand
from firstfurrow.advice.outcome import Outcome
from firstfurrow.advice.profile import HookupNote, Profile
from firstfurrow.advice.strictest import Strictest
from firstfurrow.advice.study import Study, study
from firstfurrow.reasoning import Step
from firstfurrow.report.json_study import change_data, study_data
from firstfurrow.report.page import Said

FORMAT = "firstfurrow-profile/1"


def profile_data(profile: Profile, studied: Study | None = None, said: Said | None = None) -> dict[str, Any]:
    """The profile as plain data, ready for `json.dumps`; the schema stands in the book.

    `studied` is what came of running the road again, worked out here when it is left out; `said` what stands out in the
    answers themselves.
    """
    said = said or Said()
    edition = profile.book.edition
    steps = [_step(step) for step in profile.steps]
    used = sorted({step["source"] for step in steps if step["source"]})
    return {
        "format": FORMAT,
        "program": {"name": "firstfurrow", "version": __version__},
        "book": {"id": profile.book.id, "version": profile.book.version},
        "editions": [] if edition is None else [{"id": edition.id, "name": edition.name, "version": edition.version}],
        "units": profile.units,
        "scenario": profile.scenario,
        "requirements": [_outcome(outcome) for outcome in profile.outcomes.values()],
        "deciding": [_deciding(profile, entry) for entry in profile.deciding],
        "size_class": None if profile.points_to is None else profile.points_to.id,
        "hookups": [_hookup(note) for note in profile.hookups],
        "steps": steps,
        "assumptions": [
            {
                "question": a.question, "item": a.item, "text": a.text, "range": a.range, "moves": list(a.moves),
                "how": a.how,
            }
            for a in profile.assumptions
        ],
        "left_out": [{"question": x.question, "item": x.item, "text": x.text} for x in profile.left_out],
        "conflicts": [
            {
                "kind": c.kind, "requirement": c.requirement, "title": c.title, "reasons": list(c.reasons),
                "ways_out": list(c.ways_out), "changes": [change_data(x) for x in c.changes], "about": list(c.about),
            }
            for c in profile.conflicts
        ],
        "refusals": [
            {
                "kind": r.kind, "title": r.title, "reason": r.reason, "ways_out": list(r.ways_out),
                "caution": r.caution, "changes": [change_data(x) for x in r.changes], "about": list(r.about),
            }
            for r in profile.refusals
        ],
        "unusual": list(said.unusual),
        "contradictions": list(said.contradictions),
        "study": study_data(studied or study(profile)),
        "sources": [_source(profile, id_) for id_ in used],
    }  # fmt: skip


def _outcome(outcome: Outcome) -> dict[str, Any]:
    requirement = outcome.requirement
    return {
        "id": requirement.id,
        "title": requirement.title,
        "group": requirement.group,
        "sense": requirement.sense,
        "unit": requirement.unit,
        "status": outcome.status,
        "sure": _strictest(outcome.sure),
        "with_later": _strictest(outcome.with_later),
        "conflict": outcome.conflict,
        "caveats": [*(remark.text for remark in outcome.remarks), *requirement.caveats],
        "cautions": list(requirement.cautions),
        "check_how": requirement.check,
        "later_fix": {"can": requirement.later, "what": requirement.later_what},
        "open_questions": list(outcome.open_questions),
    }


def _strictest(found: Strictest | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "low": _plain(found.low),
        "planning": _plain(found.planning),
        "high": _plain(found.high),
        "stated": _plain(found.stated),
        "shown": found.shown,
        "governed_by": _demand(found.governed_by),
        "runner_up": _demand(found.runner_up),
        "top_step": found.top_step,
        "notes": list(found.notes),
    }


def _demand(demand: Demand | None) -> dict[str, Any] | None:
    if demand is None:
        return None
    return {
        "item": demand.hookup, "hookup": demand.name, "value": _plain(demand.value), "top_step": demand.top.id
    }  # fmt: skip


def _plain(value: Any) -> Any:
    return [_plain(v) for v in value] if isinstance(value, tuple) else value


def _deciding(profile: Profile, entry: str) -> dict[str, Any]:
    sort, _, index = entry.partition(":")
    if sort in ("refusal", "conflict"):
        return {"what": sort, "id": index, "rules_out": None}
    return {"what": "requirement", "id": entry, "rules_out": profile.ruled_out[entry]}


def _hookup(note: HookupNote) -> dict[str, Any]:
    item = note.sized.item
    return {
        "item": item.id,
        "kind": item.kind.kind,
        "name": item.name,
        "variant": item.variant.id,
        "size": note.sized.size.id,
        "size_from": item.size_origin,
        "width": note.sized.width,
        "when": item.when,
        "rank": item.rank,
        "links": list(item.links),
        "sets_must": note.sets_must,
        "sets_comfortable": note.sets_comfortable,
        "hours_step": None if note.hours is None else note.hours.id,
        "passes_a_year": note.times,
    }


def _step(step: Step) -> dict[str, Any]:
    inputs: Mapping[str, Step] = step.inputs or {}
    return {
        "id": step.id,
        "type": step.type,
        "title": step.title,
        "formula": step.formula,
        "inputs": {name: below.id for name, below in inputs.items()},
        "value": _plain(step.value),
        "unit": step.unit,
        "digits": step.digits,
        "low": step.low,
        "high": step.high,
        "source": step.source,
        "where": step.where,
        "grade": step.grade,
        "derived_from": step.derived_from,
        "note": step.note,
        "question": step.question,
    }


def _source(profile: Profile, id_: str) -> dict[str, Any]:
    source = profile.book.sources[id_]
    return {
        "id": id_, "title": source.title, "publisher": source.publisher, "year": source.year, "link": source.link
    }  # fmt: skip
