"""Shaft: PTO power, speed, shaft type and engagement, and drawbar work expressed at the PTO."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from firstfurrow.advice.demands.demand import Demand, Setting
from firstfurrow.advice.desk import Desk
from firstfurrow.advice.rig import Rig
from firstfurrow.book.model import Figure, ShaftDrive
from firstfurrow.mechanics.engine import altitude_loss, heat_loss, rated_at_sea_level
from firstfurrow.mechanics.hitch import gross_mass
from firstfurrow.mechanics.power import (
    band_place,
    band_place_power,
    climb_power,
    drawbar_power,
    installed_power,
    oil_power,
    rolling_power,
    rotary_power,
    shaft_power_computed,
    shaft_power_installed,
    shaft_power_of_pull,
    spread_power,
    with_oil,
)
from firstfurrow.reasoning import Step


def power(rig: Rig, setting: Setting) -> Demand | None:
    """PTO power of one hookup: the shaft's own work, or drawbar work expressed at the PTO."""
    key = (rig.key, "power", setting.key)
    top = rig.desk.kept(key)
    if top is None:
        worked = _shaft_work(rig, setting) if rig.shaft is not None else _drawbar_work(rig, setting)
        if worked is None:
            return None
        top = rig.desk.keep(key, rated(rig.desk, rig.name, worked))
    return Demand("pto_power", rig.id, rig.name, top.value, top)


def connection(rig: Rig) -> Iterator[Demand]:
    """Speed, shaft type and engagement of a shaft-driven hookup."""
    shaft = rig.shaft
    if shaft is None:
        return
    desk = rig.desk
    speeds = tuple(shaft.speeds)
    shown = desk.say("or").join(str(speed) for speed in speeds)
    step = desk.ledger.words(rig.title("shaft_speed", speeds=shown), speeds)
    if shaft.place == "mid":
        yield Demand("mid_pto", rig.id, rig.name, speeds, step)
    else:
        yield Demand("pto_speed", rig.id, rig.name, speeds, step)
        yield from _shaft_type(rig, speeds)
    words = desk.say(f"level.{shaft.engagement}")
    engaged = desk.ledger.words(rig.title("engagement", level=words), shaft.engagement)
    yield Demand("pto_engagement", rig.id, rig.name, shaft.engagement, engaged)


def _shaft_type(rig: Rig, speeds: tuple[int, ...]) -> Iterator[Demand]:
    desk = rig.desk
    rows = desk.book.tables["shaft_types"].rows
    fits = [row for row in rows.values() if row.id != "mid" and int(row["speed"].planning) in speeds]
    if not fits:
        return  # the check of a book refuses a speed that no shaft has
    types = tuple(row.id for row in fits)
    cell = fits[0]["splines"]
    step = desk.ledger.words(
        rig.title("shaft_type", types=desk.say("or").join(row.name for row in fits)), types, grade=cell.grade,
        source=cell.source, where=cell.where,
    )  # fmt: skip
    yield Demand("pto_shaft_type", rig.id, rig.name, types, step)


# ------------------------------------------------------------------- shaft work


def _shaft_work(rig: Rig, setting: Setting) -> Step | None:
    shaft = rig.shaft
    assert shaft is not None
    desk = rig.desk
    installed = _once(rig, "installed", lambda: _installed(rig, shaft))
    computed = _once(rig, "computed", lambda: _computed(rig, shaft))
    if rig.kind.speed is not None:
        climb = _climb(rig, setting) if desk.steep else None
        if installed is not None and climb is not None:
            installed = desk.ledger.work(
                shaft_power_installed, rig.title("installed_climbing"), installed=installed, climb=climb,
                ratio=desk.ratio(),
            )  # fmt: skip
        if computed is not None:
            travel = _travel(rig, setting, climb)
            computed = desk.ledger.work(
                shaft_power_computed, rig.title("computed_travelling"), mean=computed,
                reserve=desk.choice("reserve_rotary"), travel=travel, ratio=desk.ratio(),
            )  # fmt: skip
    parts = {n: s for n, s in (("installed", installed), ("computed", computed)) if s is not None}
    if not parts:
        return None
    top = next(iter(parts.values())) if len(parts) == 1 else desk.ledger.greatest(rig.title("larger_of_both"), parts)
    return _with_motors(rig, top)


def _once(rig: Rig, what: str, make: Callable[[], Step | None]) -> Step | None:
    """What does not depend on the size class is worked out once, however many classes are tried."""
    key = (rig.key, what)
    found = rig.desk.kept(key)
    if found is None and (found := make()) is not None:
        rig.desk.keep(key, found)
    return found


def _installed(rig: Rig, shaft: ShaftDrive) -> Step | None:
    """Shaft power by the maker's figure, or by the band of the kind at the place that the conditions give it."""
    desk = rig.desk
    if rig.item.stated_power is not None:
        return desk.fact(rig.item.stated_power, rig.title("stated_power"))
    own = rig.sized.size.power or shaft.power
    if own is not None:
        return _placed(rig, shaft, own, whole=True)
    if shaft.power_per_width is None or rig.width is None:
        return None
    each = _placed(rig, shaft, shaft.power_per_width, whole=False)
    return desk.ledger.work(installed_power, rig.title("installed"), power_per_width=each, width=rig.width)


def _placed(rig: Rig, shaft: ShaftDrive, band: Figure, *, whole: bool) -> Step:
    desk = rig.desk

    def end(name: str, value: float) -> Step:
        exact = replace(band, low=value, planning=value, high=value)
        return desk.figure((rig.key, "power", name), exact, rig.title(f"kind.power_{name}"))

    return desk.ledger.work(
        band_place_power if whole else band_place, rig.title("power_in_band"), low=end("low", band.low),
        typical=end("typical", band.planning), high=end("high", band.high), place=_place(desk, shaft),
    )  # fmt: skip


def _place(desk: Desk, shaft: ShaftDrive) -> Step:
    """Where in its band a machine stands: easy, usual or hard, by the answer that decides for it."""
    if shaft.hard_by is None:
        return desk.choice("place_normal")
    pick = getattr(desk.plan, shaft.hard_by)
    names = {value: _degree(desk, value) for value in (pick.value, pick.low, pick.high)}
    planned = desk.book.choice(f"place_{names[pick.value]}")
    reach = [desk.book.choice(f"place_{name}") for name in names.values()]
    key = ("place", shaft.hard_by)
    return desk.kept(key) or desk.keep(
        key,
        desk.ledger.leaf(
            "table", desk.say(f"place_{names[pick.value]}"), planned.planning, "", 1,
            low=min(f.low for f in reach), high=max(f.high for f in reach), grade=planned.grade,
            source=planned.source, where=planned.where, note=desk.say("note_place"), question=pick.question,
        ),
    )  # fmt: skip


def _degree(desk: Desk, answer: str) -> str:
    rows = desk.book.tables["our_choices"].rows
    return next((name for name in ("easy", "hard") if answer in rows[f"place_{name}"].words["answers"]), "normal")


def _computed(rig: Rig, shaft: ShaftDrive) -> Step | None:
    """Mean shaft power by the published row, within the row's range; None where there is no row or a maker's figure."""
    if shaft.rotary_row is None or rig.item.stated_power is not None:
        return None
    desk = rig.desk
    row = desk.book.tables["rotary_power"].rows[shaft.rotary_row]
    a, b, c = (desk.cell("rotary_power", row.id, column) for column in ("a", "b", "c"))
    none = desk.constant(desk.say("not_in_row"), 0, "")
    if b.value and rig.width is None:
        return None
    if c.value and shaft.feed is None:
        return None
    mean = desk.ledger.work(
        rotary_power, rig.title("rotary"), a=a, b=b, width=rig.width if rig.width is not None and b.value else none,
        c=c, feed=rig.figure("feed", shaft.feed) if shaft.feed is not None and c.value else none,
    )  # fmt: skip
    reach = row.figures["range"]
    spread = desk.ledger.leaf(
        "table", desk.say("cell.rotary_power.range", row=row.name, range=f"{reach.planning:g}"), 1, "", 2,
        low=1 - reach.planning / 100, high=1 + reach.planning / 100, grade=reach.grade, source=reach.source,
        where=reach.where,
    )  # fmt: skip
    return desk.ledger.work(spread_power, rig.title("rotary_in_range"), mean=mean, spread=spread)


def _with_motors(rig: Rig, top: Step) -> Step:
    """Oil motors that run while the shaft works take engine power too."""
    desk = rig.desk
    running = [f for f in rig.oil if f.acting == "motor" and f.moves == "working" and f.supply == "rear_set"]
    running = [f for f in running if f.must or f.id in rig.item.options]
    for function in running:
        if function.flow is None:
            continue
        pressure = function.pressure or _pressure_of(rig)
        if pressure is None:
            continue
        oil = desk.ledger.work(
            oil_power, rig.title("motor_power", job=function.job),
            pressure=desk.figure((rig.key, function.id, "pressure"), pressure, rig.title("pressure", job=function.job)),
            flow=desk.figure((rig.key, function.id, "flow"), function.flow, rig.title("flow", job=function.job)),
            efficiency=desk.choice("oil_efficiency"),
        )  # fmt: skip
        top = desk.ledger.work(with_oil, rig.title("with_motor"), shaft=top, oil=oil)
    return top


def _pressure_of(rig: Rig) -> Figure | None:
    return next((f.pressure for f in rig.oil if f.pressure is not None), None)


# ----------------------------------------------------------------- drawbar work


def _drawbar_work(rig: Rig, setting: Setting) -> Step | None:
    """Drawbar work as PTO power: reserve on the draft, none on rolling and grade."""
    if rig.kind.speed is None or rig.pull is None:
        return None
    desk = rig.desk
    draft = (
        desk.ledger.work(drawbar_power, rig.title("draft_power"), pull=rig.draft, speed=_known(rig.speed))
        if rig.draft is not None
        else desk.constant(desk.say("no_draft"), 0, "kW")
    )
    moving = {}
    if rig.towed is not None:
        speed = _known(rig.climb_speed if desk.steep else rig.speed)
        moving["towed"] = desk.ledger.work(drawbar_power, rig.title("towed_power"), pull=rig.towed, speed=speed)
    if desk.steep:
        moving["tractor"] = _climb(rig, setting, with_implement=not rig.trailed)
    if len(moving) > 1:
        climb = desk.ledger.sum(rig.title("moving_power"), moving)
    else:
        climb = next(iter(moving.values()), None) or desk.constant(desk.say("no_climb"), 0, "kW")
    if desk.steep and rig.level_pull is not None:
        # Uphill it is planned slower; the level parts of the same land are driven at the usual speed.
        level = desk.ledger.work(
            drawbar_power, rig.title("towed_level_power"), pull=rig.level_pull, speed=_known(rig.speed)
        )
        climb = desk.ledger.greatest(rig.title("moving_most"), {"uphill": climb, "level": level})
    return desk.ledger.work(
        shaft_power_of_pull, rig.title("shaft_power_of_pull"), draft_power=draft,
        reserve=desk.choice("reserve_draft"), climb=climb, ratio=desk.ratio(),
    )  # fmt: skip


# ------------------------------------------------------------------------ parts


def _known(step: Step | None) -> Step:
    """A speed of a kind that has one."""
    assert step is not None
    return step


def _moved(rig: Rig, setting: Setting, *, with_implement: bool) -> Step:
    if not with_implement or rig.gross is None:
        return setting.mass
    key = (rig.key, "moved", setting.key)
    return rig.desk.kept(key) or rig.desk.keep(
        key, rig.desk.ledger.work(gross_mass, rig.title("moved"), empty=setting.mass, carried=rig.gross)
    )


def _climb(rig: Rig, setting: Setting, *, with_implement: bool = True) -> Step:
    moved = _moved(rig, setting, with_implement=with_implement)
    return rig.desk.ledger.work(
        climb_power, rig.title("climb"), mass=moved, angle=rig.desk.angle(), speed=_known(rig.climb_speed)
    )


def _travel(rig: Rig, setting: Setting, climb: Step | None) -> Step:
    """Rolling, and grade where there is one, of tractor and machine."""
    desk = rig.desk
    rolling = desk.ledger.work(
        rolling_power, rig.title("rolling"), mass=_moved(rig, setting, with_implement=True),
        rolling=desk.pick_cell(desk.plan.surface, "surfaces", "rolling"), angle=desk.angle(), speed=_known(rig.speed),
    )  # fmt: skip
    return rolling if climb is None else desk.ledger.sum(rig.title("travel"), {"rolling": rolling, "climb": climb})


def rated(desk: Desk, name: str, top: Step) -> Step:
    """Rated power at sea level in mild weather that leaves this much at the buyer's height and heat."""
    losses = {n: s for n, s in (("altitude", _thin_air(desk)), ("heat", _heat(desk))) if s is not None}
    if not losses:
        return top
    if len(losses) == 1:
        loss = next(iter(losses.values()))
    else:
        loss = desk.kept("losses") or desk.keep("losses", desk.ledger.sum(desk.say("losses"), losses))
    return desk.ledger.work(rated_at_sea_level, desk.say("rated", item=name), power=top, loss=loss)


def _thin_air(desk: Desk) -> Step | None:
    altitude = desk.plan.altitude
    if altitude.high <= desk.book.choice("altitude_free").planning:
        return None
    return desk.kept("altitude_loss") or desk.keep(
        "altitude_loss",
        desk.ledger.work(
            altitude_loss, desk.say("altitude_loss"), altitude=desk.fact(altitude, desk.say("altitude")),
            free=desk.choice("altitude_free"), step=desk.choice("altitude_step"),
            loss_per_step=desk.choice("altitude_loss"),
        ),
    )  # fmt: skip


def _heat(desk: Desk) -> Step | None:
    pick, rows = desk.plan.heat, desk.book.tables["heat"].rows
    if not any(rows[id_]["above"].high for id_ in (pick.value, pick.low, pick.high)):
        return None
    return desk.kept("heat_loss") or desk.keep(
        "heat_loss",
        desk.ledger.work(
            heat_loss, desk.say("heat_loss"), above=desk.pick_cell(pick, "heat", "above"),
            step=desk.choice("heat_step"), loss_per_step=desk.choice("heat_loss"),
        ),
    )  # fmt: skip
