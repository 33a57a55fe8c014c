"""A drawing as SVG: black on white, nothing loaded from anywhere, one image with a title to whoever hears the page."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from html import escape

from firstfurrow.report.drawing import SIZES, Area, Disc, Drawing, Fill, Label, Line, Path, Shape, Stroke

__all__ = ["SIZES", "svg", "svg_file"]

_FILLS: dict[Fill, str] = {
    "none": "none", "paper": "#fff", "light": "#eee", "mid": "#bbb", "dark": "#444", "hatch": "url(#{id}-hatch)",
}  # fmt: skip
_STROKES: dict[Stroke, str] = {
    "none": 'stroke="none"', "thin": 'stroke="#000" stroke-width="0.7"', "normal": 'stroke="#000" stroke-width="1.4"',
    "thick": 'stroke="#000" stroke-width="3"', "dashed": 'stroke="#000" stroke-width="1.2" stroke-dasharray="5 4"',
}  # fmt: skip
# What XML does not allow, and signs that nobody sees: they break words, move a cursor or turn the way of reading.
_UNSEEN = re.compile(
    "[\x00-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff0-\uffff\ud800-\udfff]"
)
_ID = re.compile(r"[A-Za-z][A-Za-z0-9_-]*")


def svg(drawing: Drawing, title: str, id_: str) -> str:
    """The element inside a page; the sentences that say the same stand there under the id `{id_}-says`.

    Raises
    ------
    ValueError
        When `id_` is no id, or a number of the drawing is none.
    """
    return _element(drawing, title, id_, "")


def svg_file(drawing: Drawing, title: str, says: Sequence[str], id_: str = "picture") -> str:
    """A file of its own, which carries the sentences that say the same.

    Raises
    ------
    ValueError
        When `id_` is no id, or a number of the drawing is none.
    """
    said = f'<desc id="{id_}-says">{_text(" ".join(says))}</desc>'
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{_element(drawing, title, id_, said)}\n'


def _element(drawing: Drawing, title: str, id_: str, said: str) -> str:
    if _ID.fullmatch(id_) is None:
        raise ValueError(f'"{id_}" is not an id.')
    width, height = _n(drawing.width), _n(drawing.height)
    shapes = "".join(_shape(shape, id_) for shape in drawing.shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{id_}-title" '
        f'aria-describedby="{id_}-says" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
        'font-family="Helvetica, Arial, Liberation Sans, sans-serif" fill="#000">'
        f'<title id="{id_}-title">{_text(title)}</title>{said}{_definitions(id_)}'
        f'<rect width="{width}" height="{height}" fill="#fff"/>{shapes}</svg>'
    )


def _definitions(id_: str) -> str:
    return (
        f'<defs><pattern id="{id_}-hatch" width="6" height="6" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="6" height="6" fill="#fff"/>'
        '<line x1="0" y1="0" x2="0" y2="6" stroke="#000" stroke-width="1.5"/></pattern>'
        f'<marker id="{id_}-arrow" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="9" markerHeight="9" '
        'markerUnits="userSpaceOnUse" orient="auto-start-reverse"><path d="M0 1L10 5L0 9z"/></marker></defs>'
    )


def _shape(shape: Shape, id_: str) -> str:
    if isinstance(shape, Label):
        weight = ' font-weight="bold"' if shape.bold else ""
        return (
            f'<text x="{_n(shape.x)}" y="{_n(shape.y)}" font-size="{_n(SIZES[shape.size])}" '
            f'text-anchor="{shape.anchor}"{weight}>{_text(shape.text)}</text>'
        )
    stroke = _STROKES[shape.stroke]
    if isinstance(shape, Line):
        ends = f'x1="{_n(shape.x1)}" y1="{_n(shape.y1)}" x2="{_n(shape.x2)}" y2="{_n(shape.y2)}"'
        return f"<line {ends} {stroke}{''.join(_arrows(shape, id_))}/>"
    if isinstance(shape, Path):
        return f'<polyline points="{_points(shape.points)}" fill="none" {stroke}/>'
    fill = f'fill="{_FILLS[shape.fill].format(id=id_)}"'
    if isinstance(shape, Area):
        return f'<polygon points="{_points(shape.points)}" {fill} {stroke}/>'
    assert isinstance(shape, Disc)
    return f'<circle cx="{_n(shape.x)}" cy="{_n(shape.y)}" r="{_n(shape.r)}" {fill} {stroke}/>'


def _arrows(line: Line, id_: str) -> Iterator[str]:
    if line.arrow in ("end", "both"):
        yield f' marker-end="url(#{id_}-arrow)"'
    if line.arrow == "both":
        yield f' marker-start="url(#{id_}-arrow)"'


def _points(points: tuple[tuple[float, float], ...]) -> str:
    return " ".join(f"{_n(x)},{_n(y)}" for x, y in points)


def _n(value: float) -> str:
    """A number to the hundredth, without needless signs.

    >>> _n(12.5), _n(-0.001), _n(480)
    ('12.5', '0', '480')
    """
    if not math.isfinite(value):
        raise ValueError(f"A drawing cannot have a point at {value}.")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _text(text: str) -> str:
    """Text and nothing but text: no tag, no sign that breaks the file or turns the direction of reading."""
    return escape(_UNSEEN.sub(" ", text))
