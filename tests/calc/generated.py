"""Invented whole houses for property tests: hypothesis draws them, every one of them can be built.

Covers   2 to 4 by 2 to 4 cells of unequal size, an L-shaped outline, rooms of two or three cells (so that upper walls
         stand on slabs and rooms have inner corners), 1 to 4 storeys each on a part of the one below, storeys of walls
         or of beams on columns, walls cut in two with two thicknesses, upper walls off all lower walls, stated spans,
         pitched roofs, suspended floors, openings, parapets, tanks, balconies.
Not      free edges, overhanging beams, slabs that reach past the end of a wall: there the lever rule puts a load on the
         nearest support and leaves the moment out by convention, so that moments are not kept.
Units    m, kN.
"""

from dataclasses import replace
from itertools import pairwise

from hypothesis import strategies as st

from calc.survey import Survey
from tests.houses import attached, beam, column, entered, house, job, opening, room, wall

THICKNESSES = (0.115, 0.2, 0.23, 0.35)
Cell = tuple[int, int]


def main_line(letter: bool, order: int) -> str:
    """Every second line bounds cells: A C E G I, 1 3 5 7 9. Those between stand off all walls below."""
    return "ACEGI"[order] if letter else "13579"[order]


def half_line(letter: bool, order: int) -> str:
    return "BDFH"[order] if letter else "2468"[order]


def centimetres(low: int, high: int) -> st.SearchStrategy[float]:
    return st.integers(low, high).map(lambda value: value / 100)


@st.composite
def houses(draw: st.DrawFn, l_rooms: bool = False, most_storeys: int = 4) -> Survey:
    """A whole house; with `l_rooms` some rooms are L-shaped, and moments are then not kept."""
    size = draw(st.integers(2, 4)), draw(st.integers(2, 4))
    letters, numbers = _offsets(draw, True, size[0]), _offsets(draw, False, size[1])
    cells = {(i, j) for i in range(size[0]) for j in range(size[1])}
    if draw(st.booleans()):  # an L-shaped outline
        cut = draw(st.integers(1, size[0] - 1)), draw(st.integers(1, size[1] - 1))
        cells = {(i, j) for i, j in cells if i < cut[0] or j < cut[1]}
    places = {**letters, **numbers}
    parts: dict[str, list] = {key: [] for key in ("walls", "rooms", "beams", "columns", "openings", "attached")}
    storeys = draw(st.integers(1, most_storeys))
    for storey in range(1, storeys + 1):
        if storey > 1:
            cells = _part_of(draw, cells)
        _storey(draw, parts, storey, cells, places, storey == storeys, l_rooms)
    cut_level = draw(st.sampled_from((0.0, -0.15)))
    return house(letters, numbers, job=job(cut_level=entered(cut_level), empty=draw(st.sampled_from(("yes", "no")))),
                 **parts)  # fmt: skip


def _offsets(draw: st.DrawFn, letter: bool, count: int) -> dict[str, float]:
    offsets, at = {main_line(letter, 0): 0.0}, 0.0
    for order in range(count):
        width = draw(centimetres(220, 500))
        offsets[half_line(letter, order)] = round(at + round(width * draw(st.sampled_from((0.4, 0.55))), 2), 2)
        at = round(at + width, 2)
        offsets[main_line(letter, order + 1)] = at
    return offsets


def _part_of(draw: st.DrawFn, cells: set[Cell]) -> set[Cell]:
    """A rectangle of cells around one that is there."""
    i, j = draw(st.sampled_from(sorted(cells)))
    wide, deep = draw(st.integers(1, 3)), draw(st.integers(1, 3))
    return {(a, b) for a, b in cells if i <= a <= i + wide and j <= b <= j + deep}


def _storey(
    draw: st.DrawFn, parts: dict[str, list], storey: int, cells: set[Cell], places: dict[str, float], top: bool,
    l_rooms: bool,
) -> None:  # fmt: skip
    rooms = _rooms_of(draw, cells, l_rooms)
    runs = _runs(rooms)
    frame = draw(st.integers(0, 2)) == 0
    height = draw(centimetres(260, 340))
    first_wall = len(parts["walls"])
    for at, (start, end) in enumerate(runs):
        if frame:
            parts["beams"].append(beam(f"B{storey}-{at}", *start_end(start, end), storey=storey,
                                       depth=draw(st.sampled_from((0.3, 0.45)))))  # fmt: skip
        else:
            for part, (a, b) in enumerate(_cut(draw, start, end)):
                parts["walls"].append(wall(
                    f"W{storey}-{at}-{part}", *start_end(a, b), storey=storey, height=height,
                    thickness=draw(st.sampled_from(THICKNESSES)), plastered=draw(st.integers(0, 2)),
                ))  # fmt: skip
    if frame:
        nodes = sorted({node for run in runs for node in _nodes(*run)})
        parts["columns"] += [column(f"C{storey}-{at}", _name(node), storey=storey, height=height - 0.3)
                             for at, node in enumerate(nodes)]  # fmt: skip
    for at, outline in enumerate(rooms):
        pitched = top and draw(st.booleans())
        suspended = storey == 1 and not frame and draw(st.booleans())
        corners = " ".join(_name(node) for node in outline)
        spans = ("auto",) if pitched or len(outline) > 4 else ("auto", "along letters", "along numbers")
        parts["rooms"].append(room(
            f"R{storey}-{at}", corners, storey=storey, above="pitched roof" if pitched else "slab",
            span=draw(st.sampled_from(spans)), carries="Pitched roof" if pitched else "Dwelling room",
            floor="suspended" if suspended else "on soil", slab_thickness=draw(st.sampled_from((0.1, 0.125, 0.15))),
        ))  # fmt: skip
        # A thing on a slab goes to its sides by area; on an L that is not where it stands.
        if not pitched and len(outline) == 4 and draw(st.integers(0, 3)) == 0:
            water = draw(st.sampled_from((0.5, 1.0)))
            parts["attached"].append(attached(f"T{storey}-{at}", "water tank", f"R{storey}-{at}", weight=entered(4.2),
                                              length=entered(0.0), water=water))  # fmt: skip
    if not frame and storey > 1 and draw(st.booleans()):
        _partition(draw, parts, storey, cells, height)
    for item in parts["walls"][first_wall:]:
        _on_wall(draw, parts, item, places, top)


def _rooms_of(draw: st.DrawFn, cells: set[Cell], l_rooms: bool) -> list[list[Cell]]:
    """Outlines by nodes, anticlockwise: single cells, two side by side or one behind the other, L-shapes of three."""
    left, rooms = sorted(cells), []
    while left:
        i, j = left.pop(0)
        right, up = (i + 1, j) in left, (i, j + 1) in left
        shape = draw(st.sampled_from(("one", "wide", "deep", "L")))
        if shape == "L" and right and up and l_rooms:
            left = [cell for cell in left if cell not in ((i + 1, j), (i, j + 1))]
            rooms.append([(i, j), (i + 2, j), (i + 2, j + 1), (i + 1, j + 1), (i + 1, j + 2), (i, j + 2)])
            continue
        wide, deep = int(shape == "wide" and right), int(shape == "deep" and up)
        left = [cell for cell in left if cell != (i + wide, j + deep)]
        rooms.append([(i, j), (i + 1 + wide, j), (i + 1 + wide, j + 1 + deep), (i, j + 1 + deep)])
    return rooms


def _runs(rooms: list[list[Cell]]) -> list[tuple[Cell, Cell]]:
    """The longest straight runs along the sides of all rooms."""
    steps = {step for outline in rooms for a, b in pairwise([*outline, outline[0]]) for step in _steps(a, b)}
    runs: list[tuple[Cell, Cell]] = []
    for axis in (0, 1):
        along = sorted((a[1 - axis], a[axis], a, b) for a, b in steps if a[1 - axis] == b[1 - axis])
        first = len(runs)
        for _, _, start, end in along:
            if len(runs) > first and runs[-1][1] == start:
                runs[-1] = (runs[-1][0], end)
            else:
                runs.append((start, end))
    return runs


def _steps(a: Cell, b: Cell) -> list[tuple[Cell, Cell]]:
    nodes = _nodes(min(a, b), max(a, b))
    return list(pairwise(nodes))


def _nodes(a: Cell, b: Cell) -> list[Cell]:
    count = max(b[0] - a[0], b[1] - a[1])
    step = (b[0] - a[0]) // count, (b[1] - a[1]) // count
    return [(a[0] + step[0] * k, a[1] + step[1] * k) for k in range(count + 1)]


def _cut(draw: st.DrawFn, start: Cell, end: Cell) -> list[tuple[Cell, Cell]]:
    nodes = _nodes(start, end)
    if len(nodes) > 2 and draw(st.booleans()):
        middle = draw(st.sampled_from(nodes[1:-1]))
        return [(start, middle), (middle, end)]
    return [(start, end)]


def _name(node: Cell) -> str:
    return main_line(True, node[0]) + main_line(False, node[1])


def start_end(a: Cell, b: Cell) -> tuple[str, str]:
    return _name(a), _name(b)


def _partition(draw: st.DrawFn, parts: dict[str, list], storey: int, cells: set[Cell], height: float) -> None:
    """A wall off the main lines, one or more cells long, over whatever is below."""
    i, j = draw(st.sampled_from(sorted(cells)))
    upward = draw(st.booleans())
    length = 1
    while ((i, j + length) if upward else (i + length, j)) in cells and draw(st.booleans()):
        length += 1
    if upward:
        ends = half_line(True, i) + main_line(False, j), half_line(True, i) + main_line(False, j + length)
    else:
        ends = main_line(True, i) + half_line(False, j), main_line(True, i + length) + half_line(False, j)
    parts["walls"].append(wall(f"P{storey}", *ends, storey=storey, height=height, thickness=0.115))


def _on_wall(draw: st.DrawFn, parts: dict[str, list], item, places: dict[str, float], top: bool) -> None:
    name = item.name
    length = abs(places[item.end.letter] - places[item.start.letter]) + abs(
        places[item.end.number] - places[item.start.number])  # fmt: skip
    if draw(st.booleans()):
        kind = draw(st.sampled_from(("window", "door", "vent")))
        width = draw(centimetres(50, 130))
        # Far enough from the ends for the lintel to have its bearing, or part of it would be put elsewhere.
        start = draw(st.floats(0.2, length - width - 0.2).map(lambda value: round(value, 2)))
        tall = {"window": 1.2, "door": 2.0, "vent": 0.3}[kind]
        parts["openings"].append(opening(name, kind, start, width, tall,
                                         block_up=draw(st.sampled_from(("yes", "no", "unknown")))))  # fmt: skip
    if top and draw(st.integers(0, 2)) == 0:
        parts["attached"].append(attached(f"parapet {name}", "parapet", name))
    if draw(st.integers(0, 4)) == 0:
        parts["attached"].append(attached(f"balcony {name}", "balcony", name, from_start=entered(0.3),
                                          length=entered(1.1), thickness=0.1, size=0.9))  # fmt: skip


def mirrored(survey: Survey) -> Survey:
    """The same house seen in a mirror: every x the other way, marks and From points kept."""
    letters = tuple(replace(line, offset=-line.offset) for line in survey.letters)
    rooms = tuple(replace(item, outline=tuple(reversed(item.outline)), span=item.span) for item in survey.rooms)
    return replace(survey, letters=letters, rooms=rooms)
