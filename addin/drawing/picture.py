"""A drawing as PDF and PNG, by matplotlib.

Covers   each shape as matplotlib draws it; the size of the page; the same bytes for the same drawing.
Not      what is drawn where.
Rules    the page is the paper, to the millimetre, so that it prints to scale. matplotlib is loaded when it is needed.
"""

import io
from datetime import datetime
from typing import TYPE_CHECKING, Any

from addin.drawing.chains import lines_of
from addin.drawing.composing import Drawing
from addin.drawing.shapes import (
    BLACK,
    FONT,
    WHITE,
    Area,
    Dimension,
    Label,
    Mark,
    Place,
    Ring,
    Shape,
    Stroke,
    direction,
    font,
    font_size,
    left_of,
    minus,
    plus,
    printable,
    times,
)

if TYPE_CHECKING:
    from matplotlib.axes import Axes

DOTS = 200
"""Of the PNG, in an inch."""

_INCH, _POINT = 25.4, 72 / 25.4
_DASHES: dict[str, Any] = {"": "-", "dashed": (0, (5, 2.5)), "dash-dot": (0, (9, 2, 1, 2))}
_SETTINGS: Any = {
    "font.family": FONT, "text.usetex": False, "pdf.fonttype": 42, "path.simplify": False, "savefig.bbox": None,
    "pdf.compression": 6,
}  # fmt: skip
"""Settings of the user's own must not change a drawing. This kind of font leaves the text of a PDF to be searched."""


def pictures(drawing: Drawing) -> tuple[bytes, bytes]:
    """The drawing as a PDF of one page and as a PNG."""
    import matplotlib
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    sheet = drawing.sheet
    with matplotlib.rc_context(_SETTINGS):
        figure = Figure(figsize=(sheet.width / _INCH, sheet.height / _INCH), facecolor="white")
        FigureCanvasAgg(figure)
        axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        low, high = sheet.at(0, 0), sheet.at(sheet.width, sheet.height)
        axes.set_xlim(low[0], high[0])
        axes.set_ylim(low[1], high[1])
        for order, shape in enumerate(drawing.shapes):
            _draw(axes, shape, sheet.scale, order)
        day = datetime.combine(drawing.title.issued_on, datetime.min.time())
        about = {"Title": f"Jack plan: {drawing.title.job}", "Creator": "plinthbook", "CreationDate": day}
        pdf, png = io.BytesIO(), io.BytesIO()
        figure.savefig(pdf, format="pdf", metadata=about)
        figure.savefig(png, format="png", dpi=DOTS, metadata={"Title": about["Title"], "Software": "plinthbook"})
    return pdf.getvalue(), png.getvalue()


def _draw(axes: "Axes", shape: Shape, scale: float, order: int) -> None:
    match shape:
        case Stroke():
            points = (*shape.points, shape.points[0]) if shape.closed else shape.points
            _line(axes, points, shape.width, order, shape.dashes, shape.tone)
        case Area():
            _fill(axes, shape.points, shape.tone, order)
        case Ring():
            from matplotlib.patches import Circle

            axes.add_patch(Circle(shape.middle, shape.radius, fill=True, facecolor="white", edgecolor="black",
                                  linewidth=shape.width * _POINT, zorder=order))  # fmt: skip
        case Mark():
            outline = shape.outline()
            _fill(axes, outline, shape.tone, order)
            _line(axes, (*outline, outline[0]), 0.3, order)
        case Label():
            _write(axes, shape, scale, order)
        case Dimension():
            _dimension(axes, shape, scale, order)


def _line(
    axes: "Axes", points: tuple[Place, ...], width: float, order: int, dashes: str = "", tone: float = BLACK
) -> None:
    from matplotlib.lines import Line2D

    xs, ys = zip(*points, strict=True)
    axes.add_line(Line2D(xs, ys, linewidth=width * _POINT, color=str(tone), linestyle=_DASHES[dashes], zorder=order,
                         solid_capstyle="butt", solid_joinstyle="miter"))  # fmt: skip


def _fill(axes: "Axes", points: tuple[Place, ...], tone: float, order: int) -> None:
    from matplotlib.patches import Polygon

    axes.add_patch(Polygon(points, closed=True, facecolor=str(min(tone, WHITE)), edgecolor="none", zorder=order))


def _write(axes: "Axes", label: Label, scale: float, order: int) -> None:
    # The place is the middle of the capitals; matplotlib's own middle depends on which letters there are.
    base = minus(label.at, times(left_of(direction(label.turn)), label.height * scale / 2))
    axes.text(*base, printable(label.text), fontproperties=font(font_size(label.height), label.bold),
              rotation=label.turn, rotation_mode="anchor", verticalalignment="baseline", zorder=order,
              horizontalalignment={"middle": "center"}.get(label.across, label.across),
              parse_math=False)  # fmt: skip


def _dimension(axes: "Axes", shape: Dimension, scale: float, order: int) -> None:
    for stroke in lines_of(shape, scale):
        _line(axes, stroke, 0.13, order)
    slope = times(direction(shape.turn + 45), 0.9 * scale)
    for foot in shape.feet():
        _line(axes, (minus(foot, slope), plus(foot, slope)), 0.3, order)
    _write(axes, shape.text, scale, order)
