"""What one offer says twice must agree: axles and weight, both lifts, shaft and engine, sets and sockets."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from firstfurrow.advice.offers.offer import Offer
from firstfurrow.advice.say import say
from firstfurrow.book.model import Book
from firstfurrow.quantities import Units, show

# The first must not be more than the second.
_NEVER_MORE: tuple[tuple[str, str, str], ...] = (
    ("lift_610", "lift_ball_ends", "offer_lift_crossed"),
    ("pto_power", "engine_power", "offer_power_crossed"),
    ("oil_flow", "pump_flow", "offer_flow_crossed"),
    ("loader_lift", "loader_breakout", "offer_loader_crossed"),
    ("mass_bare", "mass", "offer_mass_crossed"),
    ("front_axle_mass", "mass_bare", "offer_axle_crossed"),
    ("rear_axle_mass", "mass_bare", "offer_axle_crossed"),
    ("track", "width", "offer_track_crossed"),
    ("height_folded", "height", "offer_height_crossed"),
    ("rear_tyre_width", "rear_tyre_diameter", "offer_tyre_crossed"),
    ("front_tyre_width", "front_tyre_diameter", "offer_tyre_crossed"),
)
_HAIR = 1e-9


def problems(book: Book, offer: Offer, units: Units = "us") -> Iterator[str]:
    """One sentence, with its place, for each pair that does not go together."""
    for small, large, sentence in _NEVER_MORE:
        one, other = offer.said.get(small), offer.said.get(large)
        if one is not None and other is not None and one.value > other.value * (1 + _HAIR):
            yield f"{one.place or offer.place}: " + say(
                book, sentence, name=offer.name, what=book.offer_keys[small].name, small=one.text, large=other.text
            )
    yield from _axles(book, offer, units)
    sets, ports = offer.said.get("rear_sets"), offer.said.get("rear_ports")
    if sets is not None and ports is not None and sets.value > ports.value // 2:
        yield f"{sets.place or offer.place}: " + say(
            book, "offer_sets_crossed", name=offer.name, sets=sets.text, ports=ports.text, real=f"{ports.value // 2:g}"
        )
    circle, radius = offer.said.get("turning_circle"), offer.said.get("turning_radius")
    if circle is not None and radius is not None and radius.value * 2 > circle.value * (1 + _off(book)):
        yield f"{circle.place or offer.place}: " + say(
            book, "offer_circle_crossed", name=offer.name, circle=circle.text, radius=radius.text
        )


def _axles(book: Book, offer: Offer, units: Units) -> Iterator[str]:
    front, rear, whole = (offer.said.get(k) for k in ("front_axle_mass", "rear_axle_mass", "mass_bare"))
    if front is None or rear is None:
        return
    both = front.value + rear.value
    shown = _shown(units)
    if whole is not None:
        if abs(both - whole.value) > _off(book) * whole.value * (1 + _HAIR):
            yield f"{whole.place or offer.place}: " + say(
                book, "offer_axle_sum", name=offer.name, both=shown(both), whole=shown(whole.value)
            )
        return
    ready = offer.said.get("mass")
    if ready is not None and both > ready.value * (1 + _off(book)):
        yield f"{ready.place or offer.place}: " + say(
            book, "offer_axle_sum", name=offer.name, both=shown(both), whole=shown(ready.value)
        )


def _off(book: Book) -> float:
    return book.offer_figures["axle_sum"].planning / 100


def _shown(units: Units) -> Callable[[float], str]:
    def text(kilograms: float) -> str:
        return show(kilograms, "kg", units)

    return text
