"""What a drawing is made of: strokes, areas, marks, texts and dimensions, on a sheet of paper at a scale.

Covers   the shapes, the papers, the symbols of circuits, the width of a text.
Not      what is drawn where (house, band), how a file is written (dxf, picture).
Units    places in mm of the house, so that a reader of the DXF measures the house; heights of text and widths of lines
         in mm of paper; angles in degrees.
Rules    told apart by shape, weight and tone, never by colour alone.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

Place = tuple[float, float]

LAYERS = ("walls", "openings", "columns", "beams", "bases", "jacks", "grid", "dimensions", "text", "sheet")
"""In the order in which they are drawn: what comes later lies over what came before."""

BLACK, DARK, GREY, LIGHT, WHITE = 0.0, 0.35, 0.6, 0.85, 1.0
"""Tones."""

SYMBOLS = (("circle", BLACK), ("triangle", WHITE), ("diamond", GREY), ("square", WHITE), ("plus", BLACK),
           ("star", GREY), ("bar", BLACK))  # fmt: skip
"""Shape and tone of circuits, in their order; after the last one they begin again in another tone. The sheet Plan has
the same, as far as a chart has these shapes."""

_TONES = (BLACK, WHITE, GREY)
_CAPITAL = 0.729
"""Height of a capital letter over the size of the font, DejaVu Sans: read from the font."""

FONT = "DejaVu Sans"
"""Comes with matplotlib, so that a drawing looks the same on every computer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A line through some places."""

    layer: str
    points: tuple[Place, ...]
    width: float = 0.18
    dashes: str = ""
    """Nothing, dashed or dash-dot."""
    tone: float = BLACK
    closed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled outline without an edge."""

    layer: str
    points: tuple[Place, ...]
    tone: float = LIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Ring:
    """A circle."""

    layer: str
    middle: Place
    radius: float
    width: float = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A jack: the symbol of its circuit where it stands."""

    layer: str
    name: str
    middle: Place
    symbol: str
    tone: float
    radius: float

    def outline(self) -> tuple[Place, ...]:
        """The symbol, anticlockwise."""
        return symbol(self.symbol, self.middle, self.radius)


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """One line of text, held at the middle of its height."""

    layer: str
    text: str
    at: Place
    height: float
    """Of a capital letter."""
    across: str = "middle"
    """Which part of it stands at the place: left, middle or right."""
    turn: float = 0.0
    bold: bool = False

    def box(self, scale: float) -> tuple[Place, ...]:
        """The corners it takes up, anticlockwise."""
        wide = text_width(self.text, self.height, self.bold) * scale
        start = {"left": 0.0, "middle": -wide / 2, "right": -wide}[self.across]
        # Letters like g reach below the line, and a hand's breadth of paper keeps neighbours apart.
        return turned_box(self.at, start, start + wide, -0.75 * self.height * scale, 0.75 * self.height * scale,
                          self.turn)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A distance, measured between two places in the direction of its line."""

    layer: str
    start: Place
    end: Place
    line: Place
    """Any place on its line."""
    turn: float
    text: Label

    def feet(self) -> tuple[Place, Place]:
        """Where its line begins and ends."""
        along = direction(self.turn)
        runs = [dot(minus(place, self.line), along) for place in (self.start, self.end)]
        first, last = (plus(self.line, times(along, run)) for run in runs)
        return first, last

    @property
    def measure(self) -> float:
        """What it says [mm]."""
        return abs(dot(minus(self.end, self.start), direction(self.turn)))


Shape = Stroke | Area | Ring | Mark | Label | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A sheet of paper, and where in the house its lower left corner lies."""

    paper: str
    width: float
    """Of the paper [mm]."""
    height: float
    scale: float
    """Millimetres of the house in one of paper."""
    corner: Place = (0.0, 0.0)

    def at(self, across: float, up: float) -> Place:
        """The place of a point of the paper, from its lower left corner [mm of paper]."""
        return self.corner[0] + across * self.scale, self.corner[1] + up * self.scale

    def on_paper(self, place: Place) -> Place:
        """Where a place lies on the paper, from its lower left corner [mm of paper]."""
        return (place[0] - self.corner[0]) / self.scale, (place[1] - self.corner[1]) / self.scale


def symbol(kind: str, middle: Place, radius: float) -> tuple[Place, ...]:
    """The outline of a symbol of about the same size as a circle of this radius.

    >>> symbol("diamond", (0, 0), 10.0)
    ((13.0, 0.0), (0.0, 13.0), (-13.0, 0.0), (0.0, -13.0))
    """
    if kind == "plus":
        arm, half = 1.2 * radius, 0.4 * radius
        corners = [(half, half), (half, arm), (-half, arm), (-half, half), (-arm, half), (-arm, -half), (-half, -half),
                   (-half, -arm), (half, -arm), (half, -half), (arm, -half), (arm, half)]  # fmt: skip
        return tuple(plus(middle, corner) for corner in corners)
    if kind == "star":
        sizes = (1.3 * radius, 0.6 * radius)
        return tuple(plus(middle, times(direction(90 + 30 * point), sizes[point % 2])) for point in range(12))
    if kind == "bar":
        return turned_box(middle, -1.3 * radius, 1.3 * radius, -0.5 * radius, 0.5 * radius, 0.0)
    sides, first, size = {"circle": (24, 0.0, 1.0), "square": (4, 45.0, 1.25), "triangle": (3, 90.0, 1.3),
                          "diamond": (4, 0.0, 1.3)}[kind]  # fmt: skip
    return tuple(plus(middle, times(direction(first + 360 * side / sides), size * radius)) for side in range(sides))


def symbols_of(circuits: Iterable[str]) -> dict[str, tuple[str, float]]:
    """Symbol and tone of each circuit, by their numbers.

    >>> symbols_of(["C2", "C1", "C2"])
    {'C1': ('circle', 0.0), 'C2': ('triangle', 1.0)}
    """
    found = {}
    for order, name in enumerate(sorted(set(circuits), key=lambda name: (len(name), name))):
        again, place = divmod(order, len(SYMBOLS))
        shape, tone = SYMBOLS[place]
        found[name] = (shape, _TONES[(_TONES.index(tone) + again) % len(_TONES)])
    return found


# ------------------------------------------------------------------------------------------ plane geometry


def plus(one: Place, other: Place) -> Place:
    """The sum of two places."""
    return one[0] + other[0], one[1] + other[1]


def minus(one: Place, other: Place) -> Place:
    """From the other place to the one."""
    return one[0] - other[0], one[1] - other[1]


def times(place: Place, factor: float) -> Place:
    """A place, farther or nearer."""
    return place[0] * factor, place[1] * factor


def dot(one: Place, other: Place) -> float:
    """How far one reaches along the other, where that is of length 1."""
    return one[0] * other[0] + one[1] * other[1]


def left_of(along: Place) -> Place:
    """A direction turned to the left."""
    return -along[1], along[0]


def direction(turn: float) -> Place:
    """The direction at an angle; quarter turns to the last digit.

    >>> direction(90.0)
    (0.0, 1.0)
    """
    quarters = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    return quarters.get(turn % 360, (math.cos(math.radians(turn)), math.sin(math.radians(turn))))


def upright(along: Place) -> float:
    """Angle of a text along a direction, so that it is read from below or from the right [deg].

    >>> upright((-1.0, 0.0)), upright((0.0, -1.0))
    (0.0, 90.0)
    """
    turn = math.degrees(math.atan2(along[1], along[0])) % 180
    return round(turn - 180 if turn > 90.001 else turn, 9) % 360


def turned_box(at: Place, left: float, right: float, low: float, high: float, turn: float) -> tuple[Place, ...]:
    """The corners of a rectangle given along and across a direction, anticlockwise."""
    along = direction(turn)
    up = left_of(along)
    return tuple(plus(at, plus(times(along, a), times(up, b)))
                 for a, b in ((left, low), (right, low), (right, high), (left, high)))  # fmt: skip


def square(middle: Place, half: float) -> tuple[Place, ...]:
    """The corners of an upright square, anticlockwise."""
    return turned_box(middle, -half, half, -half, half, 0.0)


def bounds(points: Iterable[Place]) -> tuple[float, float, float, float]:
    """Least x and y, greatest x and y."""
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


# ------------------------------------------------------------------------------------------ text


def font_size(height: float) -> float:
    """Size of the font whose capitals are this high [pt]."""
    return height / _CAPITAL * 72 / 25.4


@lru_cache(maxsize=4096)
def text_width(text: str, height: float, bold: bool = False) -> float:
    """Width of a line of text [mm of paper]."""
    from matplotlib.textpath import text_to_path

    wide, _, _ = text_to_path.get_text_width_height_descent(printable(text), font(100.0, bold), ismath=False)
    return float(wide) / 100 * height / _CAPITAL


def printable(text: str) -> str:
    """A text with a question mark for each letter the font of the pictures lacks; the DXF keeps them."""
    known = _letters()
    return "".join(sign if ord(sign) in known else "?" for sign in " ".join(text.split()))


@lru_cache(maxsize=1)
def _letters() -> frozenset[int]:
    from matplotlib.font_manager import findfont, get_font

    return frozenset(get_font(findfont(font(10.0, bold=True))).get_charmap())


def font(size: float, bold: bool) -> Any:
    """The font of the pictures."""
    from matplotlib.font_manager import FontProperties

    return FontProperties(family=FONT, size=size, weight="bold" if bold else "normal")


def wrapped(text: str, width: float, height: float, bold: bool = False) -> list[str]:
    """A text in lines that are not wider than this; a word that is, is cut.

    Args:
        text: any
        width: of a line [mm of paper]
        height: of a capital letter [mm of paper]
        bold: whether it is
    """
    lines: list[str] = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, height, bold) <= width:
            lines[-1] = longer
            continue
        if lines[-1]:
            lines.append("")
        while text_width(word, height, bold) > width and len(word) > 1:
            kept = next(n for n in range(len(word) - 1, 0, -1) if n == 1 or text_width(word[:n], height, bold) <= width)
            lines[-1], word = word[:kept], word[kept:]
            lines.append("")
        lines[-1] = word
    return lines
