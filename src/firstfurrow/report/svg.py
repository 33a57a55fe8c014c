"""A drawing as SVG: black on white, nothing loaded from anywhere, one image with a title to whoever hears the page."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from firstfurrow.report.drawing import Area, Disc, Drawing, Fill, Label, Line, Path, Shape, Stroke

_FILLS: dict[Fill, str] = {
    "none": "none", "paper": "#fff", "light": "#eee", "mid": "#bbb", "dark": "#444", "hatch": "url(#{id}-hatch)",
}  # fmt: skip
_STROKES: dict[Stroke, str] = {
    "none": 'stroke="none"', "thin": 'stroke="#000" stroke-width="0.7"', "normal": 'stroke="#000" stroke-width="1.4"',
    "thick": 'stroke="#000" stroke-width="3"', "dashed": 'stroke="#000" stroke-width="1.2" stroke-dasharray="5 4"',
}  # fmt: skip
SIZES = {"small": 11.0, "normal": 13.0, "large": 16.0}  # of letters, in units of the drawing


def svg(drawing: Drawing, title: str, id_: str) -> str:
    """The text of the element; `id_` keeps the ids inside it apart from those of other drawings on a page."""
    shapes = "".join(_shape(shape, id_) for shape in drawing.shapes)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" aria-labelledby="{id_}-title" '
        f'viewBox="0 0 {_n(drawing.width)} {_n(drawing.height)}" width="{_n(drawing.width)}" '
        f'height="{_n(drawing.height)}" font-family="Helvetica, Arial, sans-serif">'
        f'<title id="{id_}-title">{escape(title)}</title>{_definitions(id_)}{shapes}</svg>'
    )


def _definitions(id_: str) -> str:
    return (
        f'<defs><pattern id="{id_}-hatch" width="6" height="6" patternUnits="userSpaceOnUse" '
        'patternTransform="rotate(45)"><rect width="6" height="6" fill="#fff"/>'
        '<line x1="0" y1="0" x2="0" y2="6" stroke="#000" stroke-width="1.5"/></pattern>'
        f'<marker id="{id_}-arrow" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="9" markerHeight="9" '
        'markerUnits="userSpaceOnUse" orient="auto-start-reverse"><path d="M0 0L10 5L0 10z"/></marker></defs>'
    )


def _shape(shape: Shape, id_: str) -> str:
    if isinstance(shape, Label):
        weight = ' font-weight="bold"' if shape.bold else ""
        return (
            f'<text x="{_n(shape.x)}" y="{_n(shape.y)}" font-size="{_n(SIZES[shape.size])}" '
            f'text-anchor="{shape.anchor}"{weight}>{escape(shape.text)}</text>'
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
    return f"{value:.4g}" if abs(value) < 1000 else f"{value:.0f}"
