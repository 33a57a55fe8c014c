"""Oil: rear remote sets (must and comfortable), features of the sets, flow and pressure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from firstfurrow.advice.demands.demand import Demand
from firstfurrow.advice.rig import Rig
from firstfurrow.book.model import Figure, OilFunction
from firstfurrow.reasoning import Step


def demands(rig: Rig) -> Iterator[Demand]:
    """Sets, features, flow and pressure of one hookup."""
    rear = [f for f in rig.oil if f.supply == "rear_set"]
    wanted = [f for f in rear if f.must or f.id in rig.item.options]
    links = _links(rig)
    must = _count(rig, "sets_must", wanted, links)
    if must is not None:
        notes = _selector_note(rig, wanted, links)
        yield Demand("rear_sets", rig.id, rig.name, must.value, must, notes)
    every = [f for f in rear if f in wanted or not _refused(rig, f)]
    more = [link for link in links if not any(f.is_link == _way(link) for f in every)]
    comfortable = _count(rig, "sets_comfortable", every, more)
    if comfortable is not None:
        yield Demand("rear_sets_comfortable", rig.id, rig.name, comfortable.value, comfortable)
    beyond = [f for f in rig.oil if f.supply == "power_beyond"]
    moving = wanted + beyond + [f for link in links for f in _link_functions(rig, link) if not _named(wanted, f)]
    yield from _features(rig, wanted)
    pumped = [f for f in rig.oil if f.supply in ("own_pump", "power_beyond") and (f.must or f.id in rig.item.options)]
    if pumped:
        step = rig.desk.ledger.words(
            rig.title("own_pump", jobs=", ".join(f.job for f in pumped)), "own_pump", grade="practice"
        )
        yield Demand("oil_source", rig.id, rig.name, "own_pump", step)
    yield from _flow_and_pressure(rig, moving)


def _refused(rig: Rig, function: OilFunction) -> bool:
    """True when the buyer was asked for this and does not want it; where he was not sure it still counts as comfort."""
    question = "options" if function.is_link is None else "with"
    if question == "with" and "tilts" not in rig.kind.features:
        return False  # nobody asked
    return not any(left.question == question and left.item == rig.id for left in rig.desk.plan.left_out)


def _way(link: str) -> str:
    return "top" if "top" in link else "side"


def _links(rig: Rig) -> list[str]:
    return list(rig.item.links) if rig.mounted else []


def _link_functions(rig: Rig, link: str) -> tuple[OilFunction, ...]:
    return rig.desk.book.links[link].variants[0].oil


def _named(functions: Sequence[OilFunction], link: OilFunction) -> bool:
    return any(f.is_link is not None and f.is_link == link.is_link for f in functions)


def _count(rig: Rig, title: str, functions: Sequence[OilFunction], links: Sequence[str]) -> Step | None:
    """Sets as a sum of ones, each with the name of what it moves; None when nothing needs a set."""
    desk = rig.desk
    extra = [link for link in links if not any(f.is_link == _way(link) for f in functions)]
    if not functions and not extra:
        return None
    ones: dict[str, Step] = {}
    for function in functions:
        ones[function.id] = desk.ledger.leaf(
            "table", rig.title("set_for", job=function.job), 1, "", 0, grade="practice",
            note=desk.say(f"acting.{function.acting}"),
        )  # fmt: skip
    for link in extra:
        kind = desk.book.links[link]
        ones[link] = desk.ledger.leaf(
            "answer", rig.title("set_for_link", link=kind.name), 1, "", 0, question=f"{rig.id}.with",
            note=desk.say("note_link_takes_a_set"),
        )  # fmt: skip
    return desk.ledger.sum(rig.title(title), ones)


def _selector_note(rig: Rig, functions: Sequence[OilFunction], links: Sequence[str]) -> tuple[str, ...]:
    """The cheaper way: what may sit behind a selector valve shares one set, and what that costs in handling."""
    sharing = [f for f in functions if f.shares and f.is_link is None]
    shared = len(sharing) + len(links)
    if shared < 2:
        return ()
    names = [f.job for f in sharing] + [rig.desk.book.links[link].name for link in links]
    fewest = len([f for f in functions if not f.shares and f.is_link is None]) + 1
    return (rig.title("selector", names=", ".join(names), fewest=fewest),)


def _features(rig: Rig, functions: Sequence[OilFunction]) -> Iterator[Demand]:
    desk = rig.desk
    for feature, owners in (
        ("float", [f for f in functions if f.floats]),
        ("motor_return", [f for f in functions if f.acting == "motor" or f.duty == "continuous"]),
    ):
        if owners:
            jobs = ", ".join(f.job for f in owners)
            step = desk.ledger.words(rig.title(f"feature_{feature}", jobs=jobs), (feature,))
            yield Demand("oil_features", rig.id, rig.name, (feature,), step)


def _flow_and_pressure(rig: Rig, functions: Sequence[OilFunction]) -> Iterator[Demand]:
    """What moves while working flows together; of the rest only the largest counts. Pressure: the largest named."""
    desk = rig.desk
    flows = {f.id: (f, f.flow) for f in functions if f.flow is not None}
    working = {n: _leaf(rig, f, "flow", x) for n, (f, x) in flows.items() if f.moves == "working"}
    stopped = {n: _leaf(rig, f, "flow", x) for n, (f, x) in flows.items() if f.moves != "working"}
    together = desk.ledger.sum(rig.title("flow_together"), working) if len(working) > 1 else next(
        iter(working.values()), None
    )  # fmt: skip
    parts = ({"together": together} if together is not None else {}) | stopped
    if parts:
        top = desk.ledger.greatest(rig.title("flow_most"), parts) if len(parts) > 1 else next(iter(parts.values()))
        yield Demand("oil_flow", rig.id, rig.name, top.value, top)
    pressures = {f.id: _leaf(rig, f, "pressure", f.pressure) for f in functions if f.pressure is not None}
    if pressures:
        top = (
            desk.ledger.greatest(rig.title("pressure_most"), pressures)
            if len(pressures) > 1
            else next(iter(pressures.values()))
        )
        yield Demand("oil_pressure", rig.id, rig.name, top.value, top)


def _leaf(rig: Rig, function: OilFunction, what: str, figure: Figure) -> Step:
    return rig.desk.figure((rig.key, function.id, what), figure, rig.title(what, job=function.job))
