"""Grip of one offer from its tyres: the traction equations on the planned soil, at the slip of best efficiency.

They hold for farm lugs on soil that gives way. Where the book has no cone index for the planned surface (grass, gravel,
snow) the usual figure stays. For other treads the equations promise too much, and the usual figure is an upper limit.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal

from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.offers.tyre_size import TyreSize
from firstfurrow.advice.profile import Profile
from firstfurrow.advice.say import say
from firstfurrow.mechanics.traction import (
    gross_traction_ratio,
    gross_traction_ratio_radial,
    mobility_number,
    motion_resistance_ratio,
    motion_resistance_ratio_radial,
    net_traction_ratio,
    tractive_efficiency,
)
from firstfurrow.mechanics.tyres import net_of_axles, wheel_load
from firstfurrow.quantities import factor
from firstfurrow.reasoning import FORMULAS

Driven = Literal["two", "four"]
NotWorked = Literal["surface", "axles", "rear", "front"]  # why tyres are not worked out
KEYS = tuple(f"{end}_tyre_{part}" for end in ("rear", "front") for part in ("size", "width", "diameter"))
_SINKS = 0.1  # the least mobility number that is written
_LIGHTEST = 1.0  # kg on the wheels: a start for finding a weight, for nothing pulls nothing


@dataclass(frozen=True, slots=True)
class Tyres:
    """What of an offer the equations need. `front` is None where only the rear wheels are driven."""

    rear: TyreSize
    front: TyreSize | None
    rear_share: float  # of the weight


@dataclass(frozen=True, slots=True)
class Wheel:
    """One driven wheel at work: load in kN, and the ratios to that load."""

    tyre: TyreSize
    load: float
    mobility: float
    gross: float
    resistance: float
    net: float
    efficiency: float


@dataclass(frozen=True, slots=True)
class Grip:
    """What the driven wheels pull together, as a share of the weight on them, when the tractor weighs so many kg."""

    soil: Soil = field(compare=False)
    ratio: float
    weight: float
    rear: Wheel
    front: Wheel | None
    capped: bool  # the usual figure is less, and the tread is not farm lugs


class Soil:
    """The ground of one profile, as far as the equations need it."""

    def __init__(self, profile: Profile) -> None:
        book = profile.book
        row = book.tables["surfaces"].rows[profile.plan.surface.value]
        self.name = row.name
        self.known = {"cone_index", "slip"} <= row.figures.keys()
        self.usual = row["grip"].planning
        self.leaf = say(book, "cell.surfaces.grip", row=row.name)  # the title of the leaf that the tyres replace
        self.cone_index = row["cone_index"].planning * factor("bar", "kPa") if self.known else 0.0  # kPa
        self.slip = row["slip"].planning / 100 if self.known else 0.0
        self.deflection = book.offer_figures["tyre_deflection"].planning / 100

    def tyres(self, offer: Offer) -> Tyres | NotWorked | None:
        """The tyres of an offer; a word where they cannot be worked out, None where it says nothing of them."""
        if not any(key in offer.said for key in KEYS):
            return None
        if not self.known:
            return "surface"
        in_front, behind = offer.get("front_axle_mass"), offer.get("rear_axle_mass")
        if in_front is None or behind is None:
            return "axles"
        rear, front = tyre_of(offer, "rear"), tyre_of(offer, "front")
        if rear is None:
            return "rear"
        if front is None and offer.get("driven_wheels") != "two":
            return "front"
        return Tyres(rear, front, behind / (in_front + behind))

    def grip(self, tyres: Tyres, driven: Driven, *, lugs: bool, weight: float, pressed: float) -> Grip:
        """The grip with `weight` kg of tractor, split on its axles as it stands, and `pressed` kg more behind."""
        weight = max(weight, _LIGHTEST)
        behind = tyres.rear_share * weight + pressed
        rear = self._wheel(tyres.rear, behind)
        front = None
        ratio = rear.net
        if driven == "four":
            assert tyres.front is not None
            in_front = weight + pressed - behind
            front = self._wheel(tyres.front, in_front)
            ratio = _worked(net_of_axles, front=front.net, front_load=in_front, rear=rear.net, rear_load=behind)
        capped = not lugs and ratio > self.usual
        return Grip(self, self.usual if capped else ratio, weight, rear, front, capped)

    def _wheel(self, tyre: TyreSize, axle: float) -> Wheel:
        load = axle * 9.80665 / 2000 if axle < 2 * _LIGHTEST else _worked(wheel_load, axle=axle)
        mobility = max(_SINKS, _worked(
            mobility_number, cone_index=self.cone_index, width=tyre.width, diameter=tyre.diameter, load=load,
            deflection=self.deflection,
        ))  # fmt: skip
        pushes, rolls = (
            (gross_traction_ratio_radial, motion_resistance_ratio_radial)
            if tyre.radial
            else (gross_traction_ratio, motion_resistance_ratio)
        )
        gross = _worked(pushes, mobility=mobility, slip=self.slip)
        resistance = _worked(rolls, mobility=mobility, slip=self.slip)
        net = _worked(net_traction_ratio, gross=gross, resistance=resistance)
        efficiency = _worked(tractive_efficiency, slip=self.slip, net=net, gross=gross)
        return Wheel(tyre, load, mobility, gross, resistance, net, efficiency)


def tyre_of(offer: Offer, end: str) -> TyreSize | None:
    """The tyre at one end: what was measured wins over what is printed."""
    printed: TyreSize | None = offer.get(f"{end}_tyre_size")
    width, diameter = offer.get(f"{end}_tyre_width"), offer.get(f"{end}_tyre_diameter")
    if printed is not None:
        width, diameter = width or printed.width, diameter or printed.diameter
    if width is None or diameter is None:
        return None
    return TyreSize(width, diameter, printed is not None and printed.radial)


def _worked(function: Callable[..., float], **inputs: float) -> float:
    """Rounded as a step would be, so that the printed figures give each other."""
    return round(function(**inputs), FORMULAS[function].digits)
