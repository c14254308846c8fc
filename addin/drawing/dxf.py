"""A drawing as DXF, by ezdxf.

Covers   layers, one block for each symbol, real dimensions, a layout that prints to scale; the same bytes for the same
         drawing.
Not      what is drawn where.
Units    mm of the house in model space; the layout is the paper in mm, with one window on all of it.
Rules    everything is in model space, the heading too: nobody sees the plan without it. A jack is an insert of the
         block of its circuit's symbol, with its mark as an attribute.
"""

import io
from collections import OrderedDict
from datetime import datetime
from typing import TYPE_CHECKING, Any

from addin.drawing.chains import OFF
from addin.drawing.composing import Drawing
from addin.drawing.shapes import (
    BLACK,
    DARK,
    GREY,
    LAYERS,
    LIGHT,
    WHITE,
    Area,
    Dimension,
    Label,
    Mark,
    Ring,
    Shape,
    Stroke,
    symbol,
)

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document
    from ezdxf.layouts.layout import Modelspace

STYLE, BOLD = "PLAIN", "BOLD"
DIMENSIONS = "CHAIN"

_COLOURS = {BLACK: 7, DARK: 250, GREY: 252, LIGHT: 254}
"""By tone, of the list every program knows; 7 is black on white paper and white on a black screen."""

_LINES = {"": "CONTINUOUS", "dashed": "DASHED", "dash-dot": "DASHDOT"}
_PATTERNS = {"DASHED": [3.0, 2.0, -1.0], "DASHDOT": [7.0, 5.0, -1.0, 0.0, -1.0]}
"""Length of a pattern, then line and gap in turn [mm of paper]."""

_WEIGHTS = (13, 18, 25, 35, 50)
"""Widths of line that a file can name [1/100 mm]."""


def dxf_bytes(drawing: Drawing) -> bytes:
    """The drawing as the content of a DXF file of the 2010 format."""
    from ezdxf._options import options
    from ezdxf.filemanagement import new

    before = options.write_fixed_meta_data_for_testing
    # The one switch of the library that leaves out the clock and chance, which would make each file another one.
    options.write_fixed_meta_data_for_testing = True
    try:
        document = new("R2010", setup=False, units=4)
        _set_up(document, drawing.sheet.scale)
        model = document.modelspace()
        for shape in drawing.shapes:
            _add(model, shape, drawing.sheet.scale)
        _lay_out(document, drawing)
        document.update_all()
        # The library lists classes in the order of a set, which differs from run to run.
        document.classes.classes = OrderedDict(sorted(document.classes.classes.items()))
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return document.encode(_dated(stream.getvalue(), drawing))


def _set_up(document: "Document", scale: float) -> None:
    document.header["$MEASUREMENT"] = 1
    document.header["$LTSCALE"] = scale
    document.header["$LWDISPLAY"] = 1
    for name, pattern in _PATTERNS.items():
        document.linetypes.add(name, pattern, description=name.lower())
    for name in LAYERS:
        document.layers.add(name)
    document.styles.add(STYLE, font="arial.ttf")
    document.styles.add(BOLD, font="arialbd.ttf")
    document.dimstyles.new(DIMENSIONS, dxfattribs={
        "dimscale": scale, "dimtsz": 0.9, "dimexo": OFF, "dimexe": 1.0, "dimgap": 0.5, "dimtad": 1, "dimdec": 0,
        "dimrnd": 1.0, "dimzin": 8, "dimtmove": 2, "dimtxsty": STYLE, "dimtih": 0, "dimtoh": 0, "dimasz": 0.9,
        "dimlunit": 2,
    })  # fmt: skip


def _add(model: "Modelspace", shape: Shape, scale: float) -> None:
    look: dict[str, Any] = {"layer": shape.layer}
    match shape:
        case Stroke():
            look |= _look(shape.tone, shape.width) | {"linetype": _LINES[shape.dashes]}
            model.add_lwpolyline(shape.points, close=shape.closed, dxfattribs=look)
        case Area():
            _fill(model, shape.points, look | _look(shape.tone, 0.13))
        case Ring():
            model.add_circle(shape.middle, shape.radius, dxfattribs=look | _look(BLACK, shape.width))
        case Mark():
            _insert(model, shape, look)
        case Label():
            _write(model, shape, scale)
        case Dimension():
            _measure(model, shape)


def _look(tone: float, width: float) -> dict[str, Any]:
    return {"color": _COLOURS[tone], "lineweight": min(_WEIGHTS, key=lambda weight: abs(weight - 100 * width))}


def _fill(model: Any, points: Any, look: dict[str, Any]) -> None:
    hatch = model.add_hatch(color=look["color"], dxfattribs={"layer": look["layer"]})
    hatch.paths.add_polyline_path(points, is_closed=True)


def _insert(model: "Modelspace", mark: Mark, look: dict[str, Any]) -> None:
    name = f"JACK {mark.symbol} {mark.tone:.1f}".upper()
    document = model.doc
    if name not in document.blocks:
        block = document.blocks.new(name)
        outline = symbol(mark.symbol, (0.0, 0.0), 1.0)
        if mark.tone < WHITE:
            _fill(block, outline, {"layer": "0", "color": _COLOURS[mark.tone]})
        block.add_lwpolyline(outline, close=True, dxfattribs={"layer": "0", "lineweight": 25})
    insert = model.add_blockref(name, mark.middle, dxfattribs=look | {"xscale": mark.radius, "yscale": mark.radius})
    if mark.name:
        attribute = insert.add_attrib("MARK", mark.name, mark.middle, dxfattribs={"layer": mark.layer})
        # The mark that is read stands beside it, where there is room; this one is for lists made of the file.
        attribute.is_invisible = True


def _write(model: "Modelspace", label: Label, scale: float) -> None:
    from ezdxf.enums import TextEntityAlignment

    places = {"left": TextEntityAlignment.MIDDLE_LEFT, "middle": TextEntityAlignment.MIDDLE_CENTER,
              "right": TextEntityAlignment.MIDDLE_RIGHT}  # fmt: skip
    text = model.add_text(plain(label.text), height=label.height * scale, rotation=label.turn, dxfattribs={
        "layer": label.layer, "style": BOLD if label.bold else STYLE, "color": 7})  # fmt: skip
    text.set_placement(label.at, align=places[label.across])


def plain(text: str) -> str:
    """A text that a reader of DXF takes letter by letter: %% and ^ would begin a command.

    >>> plain("50%%c ^I")
    '50% %c ^ I'
    """
    one_line = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    return one_line.replace("^", "^ ").replace("%%", "% %")


def _measure(model: "Modelspace", shape: Dimension) -> None:
    made = model.add_linear_dim(
        base=shape.line, p1=shape.start, p2=shape.end, angle=shape.turn, dimstyle=DIMENSIONS, location=shape.text.at,
        text_rotation=shape.text.turn, override={"dimtxt": shape.text.height}, dxfattribs={"layer": shape.layer},
    )  # fmt: skip
    made.render()


def _lay_out(document: "Document", drawing: Drawing) -> None:
    """The paper, with one window on everything, so that it prints to scale."""
    sheet = drawing.sheet
    page: Any = document.layout("Layout1")
    page.page_setup(size=(sheet.width, sheet.height), margins=(0, 0, 0, 0), units="mm")
    page.add_viewport(center=(sheet.width / 2, sheet.height / 2), size=(sheet.width, sheet.height),
                      view_center_point=sheet.at(sheet.width / 2, sheet.height / 2),
                      view_height=sheet.height * sheet.scale)  # fmt: skip
    document.layouts.rename("Layout1", "Jack plan")


def _dated(content: str, drawing: Drawing) -> str:
    """The file with the day of issue in place of the day that the switch writes."""
    from ezdxf.tools.juliandate import juliandate

    issued = juliandate(datetime.combine(drawing.title.issued_on, datetime.min.time()))
    return content.replace(f"\n{juliandate(datetime(2000, 1, 1))}\n", f"\n{issued}\n")
