"""The sheet round the plan: heading, lists, legend, cautions, signature, title.

Covers   what stands in the band on the right and in the heading, as shapes; how wide the band must be.
Not      the rows of the lists (lists), the plan itself (house, chains, naming), the choice of paper (composing).
Rules    the heading says NOT RELEASED FOR LIFTING unless the house is released. Nothing is left out for want of room: a
         band that is too long for its paper takes a larger one.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from addin.drawing.house import JACK, MM, House
from addin.drawing.lists import GAP, ROW, TEXT, Writer, lists_of
from addin.drawing.shapes import (
    BLACK,
    DARK,
    Area,
    Label,
    Mark,
    Place,
    Shape,
    Sheet,
    symbol,
    text_width,
    turned_box,
    wrapped,
)
from calc.checks import STOP

MARGIN = 10.0
"""Round the sheet [mm of paper]."""

HEADING = 11.0
"""Height of the heading [mm of paper]."""

_LEAST = 92.0
"""Width of the band: what the title needs [mm of paper]."""

NOT_RELEASED = "NOT RELEASED FOR LIFTING"

_CAUTIONS = (
    "The figures prepare a decision and do not replace one. Reactions are predicted, not measured.",
    "Dimensions are along centre lines, from the From point of each wall, in millimetres. Check every one on site "
    "before anything is dug or cut; do not measure from the print.",
    "Ground, footings, masonry and mortar are confirmed at each base before it carries. No one is inside from the "
    "first cut until the load is back on masonry; nobody is under a load that stands on jacks alone.",
    "Approval rests with the licensed engineer and the local authority; local codes come before this drawing.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Title:
    """What the sheet says about the job."""

    job: str
    place: str
    issued_on: date
    released: bool
    open_answers: int
    engineer: str
    licence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """The shapes round the plan, and what they leave for it [mm of paper]."""

    shapes: tuple[Shape, ...]
    left: float
    right: float
    low: float
    top: float


class TooLong(Exception):  # noqa: N818 - it tells the choice of paper to take a larger one
    """The band does not fit on this paper."""


def heading_of(house: House, title: Title) -> str:
    """What stands across the top of the sheet."""
    stops = _stops(house)
    if stops:
        return f"{NOT_RELEASED}: this plan says {STOP} in {stops} {'place' if stops == 1 else 'places'}, see the notes"
    if title.released:
        return f"Released for lifting by its engineer: {title.engineer}, licence {title.licence}"
    many = "answer" if title.open_answers == 1 else "answers"
    return f"{NOT_RELEASED}: {title.open_answers} {many} open; the sheet Checks of the estimate lists them"


def _stops(house: House) -> int:
    """Where the plan itself says STOP: a release of the survey does not cover what has no plan."""
    return sum(text.startswith(STOP) for text in warnings_of(house))


def warnings_of(house: House) -> tuple[str, ...]:
    """What is wrong with the plan itself, first of all on the sheet."""
    plan = house.plan
    found = [f"{STOP}: no jack plan for {member.name}: {member.why_not or 'it has no jacks'}"
             for member in plan.members if not member.jacks]  # fmt: skip
    found += [f"Jacks {one} and {other} are {apart * MM:.0f} mm apart, nearer than the closest spacing: see Checks."
              for one, other, apart in plan.close]  # fmt: skip
    if plan.steering is None:
        found.append(f"No circuits: {plan.steering_why or 'jacks are steered one by one'}")
    if any(not member.chosen for member in plan.members):
        found.append("* The survey does not choose this lifting system; the usual one is taken.")
    return tuple(found)


def band(house: House, title: Title, sheet: Sheet) -> Band:
    """Everything round the plan on a sheet of paper.

    Args:
        house: for its lists
        title: for its words
        sheet: paper and scale

    Raises:
        TooLong: it does not fit
    """
    lists = lists_of(house)
    top = sheet.height - MARGIN - HEADING - 2.0
    for columns in range(1, 6):
        left = sheet.width - MARGIN - max(_LEAST, columns * (lists.width + GAP) - GAP)
        writer = Writer(sheet, left, sheet.width - MARGIN)
        rows = int((top - _foot(writer, house, title)) / ROW)
        if 0 < lists.columns(rows) <= columns:
            lists.write(writer, top, columns)
            shapes = (*_frame(sheet, heading_of(house, title), left), *writer.shapes)
            return Band(shapes=shapes, left=MARGIN, right=left - 3.0, low=MARGIN, top=sheet.height - MARGIN - HEADING)
    raise TooLong


def _frame(sheet: Sheet, heading: str, left: float) -> Iterator[Shape]:
    writer = Writer(sheet, MARGIN, sheet.width - MARGIN)
    top = sheet.height - MARGIN
    writer.box(MARGIN, MARGIN, sheet.width - MARGIN, top, width=0.5)
    writer.line((MARGIN, top - HEADING), (sheet.width - MARGIN, top - HEADING), width=0.5)
    writer.line((left - 1.5, MARGIN), (left - 1.5, top - HEADING), width=0.35)
    height = min(4.2, 4.2 * (sheet.width - 2 * MARGIN - 6) / text_width(heading, 4.2, True))
    writer.shapes.append(Label(layer="sheet", text=heading, at=sheet.at(sheet.width / 2, top - HEADING / 2),
                               height=height, bold=True))  # fmt: skip
    yield from writer.shapes


def _foot(writer: Writer, house: House, title: Title) -> float:
    """Title, signature, cautions and legend from below; gives back where they end."""
    low = _title(writer, house, title, MARGIN)
    low = _signature(writer, title, low)
    low = _words(writer, house, low)
    return _legend(writer, house, low)


def _title(writer: Writer, house: House, title: Title, low: float) -> float:
    left, wide = writer.left + 1.5, writer.right - writer.left - 3.0
    paper = f"Scale 1:{writer.sheet.scale:.0f} on {writer.sheet.paper}"
    why = f"this plan says {STOP}" if _stops(house) else f"{title.open_answers} answers open"
    grade = "released for lifting" if title.released and not _stops(house) else f"budget, not for lifting; {why}"
    names = wrapped(title.job or "Job without a name", wide, 3.4, True)
    places = wrapped(title.place, wide, 2.0) if title.place else []
    up = low + 3.0
    lines = ((f"Issued {title.issued_on:%Y-%m-%d}. Sheet 1 of 1", 2.0), (f"{paper}, dimensions in mm", 2.0),
             (f"Grade: {grade}", 2.0), ("Jack plan of the ground storey", 2.8))  # fmt: skip
    for text, height in lines:
        writer.text(left, up, text, height, bold=height > 2.0)
        up += 4.2
    for text in reversed(places):
        writer.text(left, up, text, 2.0)
        up += 3.8
    up += 0.8
    for text in reversed(names):
        writer.text(left, up, text, 3.4, bold=True)
        up += 5.6
    return _ruled(writer, up - 1.0)


def _signature(writer: Writer, title: Title, low: float) -> float:
    left, half = writer.left + 1.5, (writer.right - writer.left) / 2
    for across, up, label, given in (
        (left, low + 9.5, "Licensed engineer", title.engineer), (left + half, low + 9.5, "Licence", title.licence),
        (left, low + 3.0, "Signature", ""), (left + half, low + 3.0, "Date", ""),
    ):  # fmt: skip
        writer.text(across, up, label, 1.6)
        begin = across + text_width("Licensed engineer" if across == left else "Licence", 1.6) + 1.5
        height = min(2.0, 2.0 * (across + half - 4.5 - begin) / max(text_width(given, 2.0), 1.0))
        writer.text(begin, up, given, height)
        writer.line((begin, up - 1.6), (across + half - 4.0, up - 1.6))
    return _ruled(writer, low + 14.0)


def _words(writer: Writer, house: House, low: float) -> float:
    wide = writer.right - writer.left - 3.0
    lines = [(line, True) for text in warnings_of(house) for line in wrapped(text, wide, 1.8, True)]
    lines += [(line, False) for text in (*_sizes(house), *_CAUTIONS) for line in wrapped(text, wide, 1.6)]
    up = low + 2.2 + 2.7 * len(lines)
    for order, (text, bold) in enumerate(lines, start=1):
        writer.text(writer.left + 1.5, up - 2.7 * order, text, 1.8 if bold else 1.6, bold)
    return _ruled(writer, up - 0.2)


def _sizes(house: House) -> Iterator[str]:
    if house.bases:
        yield f"Bases are {house.usual_base} mm where the list has no other size: along the wall, across it, thickness."
    if house.plan.merged:
        yield "Bases drawn over one another are poured as one: the sheet Jack checks lists them."
    if any(jack.kind == "wall" and abs(jack.across) * MM >= 1 for jack in house.plan.jacks):
        yield "Off line: beside the centre line, L to the left and R to the right when one looks from the From point."


def _ruled(writer: Writer, up: float) -> float:
    writer.line((writer.left - 1.5, up), (writer.right, up), width=0.35)
    return up


def _legend(writer: Writer, house: House, low: float) -> float:
    """Symbols and lines in as many columns as there is room for, scale bar and north under them."""
    entries: list[tuple[str, str]] = [("circuit", name) for name in house.symbols]
    entries += [(kind, text) for kind, text in _KINDS.items() if kind != "beam" or house.plan.members]
    up = _scale_bar(writer, low)
    wide = max(text_width(_entry_text(kind, text, house), TEXT) for kind, text in entries) + 10.0
    columns = max(1, int((writer.right - writer.left - 16.0) / wide))
    high = -(-len(entries) // columns)
    for order, (kind, text) in enumerate(entries):
        across, down = divmod(order, high)
        place = writer.left + 4.0 + across * wide, up + 2.5 + (high - 1 - down) * 3.7
        _sign(writer, kind, text, place, house)
        writer.text(place[0] + 4.5, place[1], _entry_text(kind, text, house))
    _north(writer, (writer.right - 7.0, low + 4.0))
    return _ruled(writer, max(up + high * 3.7 + 0.5, low + 24.0))


_KINDS = {
    "wall": "wall; gap: door, lines: window",
    "base": "base under a jack",
    "beam": "carrier beam",
    "from": "From point: a chain begins",
    "centre": "centre of what is lifted",
}


def _entry_text(kind: str, text: str, house: House) -> str:
    if kind != "circuit":
        return text
    jacks = [jack for jack in house.plan.jacks if jack.circuit == text]
    force = (
        next((c.force for c in house.plan.steering.circuits if c.name == text), None) if house.plan.steering else None
    )
    name = f"circuit {text}" if text else "jack on no circuit"
    return f"{name}: {len(jacks)} jacks" + (f", {force:.0f} kN" if force is not None else "")


def _sign(writer: Writer, kind: str, text: str, place: Place, house: House) -> None:
    at, scale = writer.sheet.at(*place), writer.sheet.scale
    x, y = place
    if kind == "circuit":
        shape, tone = house.symbols[text]
        writer.shapes.append(Mark(layer="sheet", name="", middle=at, symbol=shape, tone=tone, radius=JACK * scale))
    elif kind == "wall":
        writer.shapes.append(Area(layer="sheet", points=turned_box(at, -3 * scale, 3 * scale, -scale, scale, 0.0)))
        writer.line((x - 3, y - 1), (x + 3, y - 1), width=0.35)
        writer.line((x - 3, y + 1), (x + 3, y + 1), width=0.35)
    elif kind == "base":
        corners = ((x - 1.4, y - 1.4), (x + 1.4, y - 1.4), (x + 1.4, y + 1.4), (x - 1.4, y + 1.4), (x - 1.4, y - 1.4))
        writer.line(*corners, width=0.25, dashes="dashed", tone=DARK)
    elif kind == "beam":
        writer.line((x - 3, y), (x + 3, y), width=0.5, dashes="dash-dot", tone=DARK)
    elif kind == "from":
        writer.shapes.append(Area(layer="sheet", points=symbol("circle", at, 0.8 * scale), tone=BLACK))
    else:
        writer.box(x - 1.4, y - 1.4, x + 1.4, y + 1.4)
        writer.line((x - 1.4, y - 1.4), (x + 1.4, y + 1.4))
        writer.line((x - 1.4, y + 1.4), (x + 1.4, y - 1.4))


def _scale_bar(writer: Writer, low: float) -> float:
    """A bar of whole metres, in fields of one."""
    metre = MM / writer.sheet.scale
    metres = max(1, int((writer.right - writer.left - 30.0) / metre))
    left, up = writer.left + 3.0, low + 2.0
    for field in range(metres):
        ends = (left + field * metre, left + (field + 1) * metre)
        writer.box(ends[0], up, ends[1], up + 1.5, width=0.18)
        if field % 2 == 0:
            corners = ((ends[0], up), (ends[1], up), (ends[1], up + 1.5), (ends[0], up + 1.5))
            writer.shapes.append(Area(layer="sheet", points=tuple(writer.sheet.at(*p) for p in corners), tone=BLACK))
    writer.text(left - 0.5, up + 3.2, "0", 1.6)
    writer.text(left + metres * metre - 1.0, up + 3.2, f"{metres} m", 1.6)
    return up + 5.0


def _north(writer: Writer, foot: Place) -> None:
    x, y = foot
    writer.line((x, y), (x, y + 14), width=0.35)
    writer.shapes.append(Area(layer="sheet", tone=BLACK, points=tuple(
        writer.sheet.at(*p) for p in ((x - 1.5, y + 9), (x + 1.5, y + 9), (x, y + 14)))))  # fmt: skip
    writer.text(x - 1.2, y + 16.5, "N", 2.6, bold=True)
