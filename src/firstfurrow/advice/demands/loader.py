"""Loader: functions of its valve, lift at the load's own centre, the weight that it needs behind, the front axle."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.rig import Rig
from firstfurrow.mechanics.axles import lever_on_front, rear_axle_relieved
from firstfurrow.mechanics.balance import counterweight, counterweight_downhill, front_axle_loaded
from firstfurrow.mechanics.hitch import gross_mass
from firstfurrow.reasoning import NoSolutionError, Step


def demands(rig: Rig, setting: Setting) -> Iterator[Demand]:
    """What a tool on the front loader asks."""
    if rig.variant.way != "loader":
        return
    desk = rig.desk
    if rig.kind.loader_functions:
        step = desk.ledger.leaf(
            "table", rig.title("loader_functions"), rig.kind.loader_functions, "", 0, grade="practice"
        )
        yield Demand("loader_functions", rig.id, rig.name, step.value, step)
    load = desk.fact(desk.plan.front_load, desk.say("front_load")) if desk.plan.front_load is not None else rig.load
    if load is None or rig.empty is None:
        return
    top = desk.ledger.work(gross_mass, rig.title("loader_lift"), empty=rig.empty, carried=load)
    notes: tuple[str, ...] = ()
    if rig.kind.load_centre_ahead is not None:
        ahead = rig.kind.load_centre_ahead
        notes = (rig.title("load_centre", low=f"{ahead.low:g}", high=f"{ahead.high:g}"),)
    yield Demand("loader_lift", rig.id, rig.name, top.value, top, notes)
    yield from _balance(rig, setting, load)


def _balance(rig: Rig, setting: Setting, load: Step) -> Iterator[Demand]:
    """Counterweight behind and load on the front axle, for the class that stands in with its usual loader."""
    desk, ledger = rig.desk, rig.desk.ledger
    shape = {
        "wheelbase": setting.cell("wheelbase"), "ahead": _load_ahead(rig, setting),
        "behind": setting.cell("hitch_overhang"),
    }  # fmt: skip
    rear = ledger.work(
        rear_axle_relieved, rig.title("rear_axle_with_loader"), axle=setting.rear_axle,
        mass=setting.cell("loader_mass"), ahead=setting.cell("loader_ahead"), wheelbase=shape["wheelbase"],
    )  # fmt: skip
    total = ledger.sum(
        rig.title("total_with_loader"), {"tractor": setting.cell("mass"), "loader": setting.cell("loader_mass")}
    )
    front = ledger.work(
        gross_mass, rig.title("front_axle_with_loader"), empty=setting.front_axle, carried=_gain(rig, setting)
    )
    level = ledger.work(
        counterweight, rig.title("counterweight"), rear_axle=rear, total=total, payload=load,
        share=desk.choice("loader_rear_share"), **shape,
    )  # fmt: skip
    parts = {"level": level, "none": desk.constant(desk.say("no_weights"), 0, "kg")}
    if desk.steep:
        with suppress(NoSolutionError):  # too steep for the wheels to grip: refused there
            parts["downhill"] = ledger.work(
                counterweight_downhill, rig.title("counterweight_downhill"), mass=setting.cell("mass"),
                front_share=setting.cell("front_share"), payload=_at_front(rig, setting, load),
                payload_height=desk.choice("loader_load_height"), centre_height=setting.cell("centre_height"),
                counter_height=desk.choice("counterweight_height"), kept=desk.choice("rear_kept_downhill"),
                angle=desk.angle(), **shape,
            )  # fmt: skip
    top = ledger.greatest(rig.title("counterweight_most"), parts)
    about = rig.title("for_class", row=setting.name)
    worst = desk.ends(top).high
    if worst is None or worst > 0:
        notes = (about, rig.title("counterweight_takes_hitch"))
        yield Demand("rear_ballast", rig.id, rig.name, top.value, top, notes)
    axle = ledger.work(
        front_axle_loaded, rig.title("front_axle_load"), front_axle=front, payload=load, counterweight=top, **shape
    )
    yield Demand("front_axle_load", rig.id, rig.name, axle.value, axle, (about,))


def _load_ahead(rig: Rig, setting: Setting) -> Step:
    """Distance from the front axle to the load: as far as the pins reach, and as far again as the tool holds it."""
    desk, tool = rig.desk, rig.kind.load_centre_ahead
    beyond = desk.choice("bucket_centre") if tool is None else rig.figure("load_centre", tool)
    return desk.ledger.sum(rig.title("load_ahead"), {"pins": setting.cell("pins_ahead"), "beyond": beyond})


def _gain(rig: Rig, setting: Setting) -> Step:
    """What the loader with its empty bucket adds to the front axle: more than its own mass, for it hangs ahead."""
    desk = rig.desk
    return desk.ledger.work(
        lever_on_front, rig.title("loader_on_front_axle"), mass=setting.cell("loader_mass"),
        ahead=setting.cell("loader_ahead"), wheelbase=setting.cell("wheelbase"),
    )  # fmt: skip


def _at_front(rig: Rig, setting: Setting, load: Step) -> Step:
    """Load and loader together, both taken where the load is: on the safe side."""
    return rig.desk.ledger.work(
        gross_mass, rig.title("load_and_loader"), empty=setting.cell("loader_mass"), carried=load
    )
