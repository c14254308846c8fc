"""Right-angled slabs cut exactly into the parts that lie nearest each supported edge.

Covers   any simple right-angled outline with its sides along x and y, and any mix of supported and free edges.
         Distance is the larger of the two offsets (not the Euclidean one): with every edge supported the parts are
         then the faces of the straight skeleton, which is the 45 degree rule carried to inner corners.
Not      slanting edges; weights for fixed and simple edges.
Units    m throughout; grid indices are counts.
Sources  geometry only.

Rules, in this order:
  1. Where a supported and a free edge meet at an inner corner, the slab is cut along the free edge produced, up to
     the far side. A wall that ends there carries what lies in front of it, never what lies past its end. Without the
     cut the bare end of the wall would draw load from all round. A part left with no support at all stays joined to
     the parts beside it.
  2. A spot goes to the nearest stretch of supported edge that it sees: the upright rectangle between the spot and
     the nearest point of the stretch must lie inside the spot's own part of the slab.
  3. Equal distances go to the Euclidean nearest, then (inner corners) to the edge farther off at right angles, which
     is the 45 degree line.
  4. A spot that sees no support hands its load to the supports of the slab next to it.

How: lines through all corners make a grid; in one cell of it every offset is one linear function, so nearest means
clipping a small convex polygon by half planes. Nothing is sampled.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from operator import itemgetter

Point = tuple[float, float]
Piece = tuple[int, list[Point]]
Cell = tuple[int, int]
Linear = tuple[float, float, float]  # a, b, c of a*x + b*y + c
_Cut = tuple[int, int, int]  # axis it runs along, level it lies on, index of the interval along it

_SLIVER = 1e-13  # share of its cell below which a clipped piece is rounding, not slab


def clip(polygon: Sequence[Point], line: Linear) -> list[Point]:
    """The part of a convex polygon where a*x + b*y + c is at most zero; fewer than three points when none is.

    >>> clip([(0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)], (1.0, 0.0, -0.5))
    [(0.0, 1.0), (0.0, 0.0), (0.5, 0.0), (0.5, 1.0)]
    """
    a, b, c = line
    sides = [a * x + b * y + c for x, y in polygon]
    kept: list[Point] = []
    for k in range(-1, len(polygon) - 1):
        here, there = sides[k], sides[k + 1]
        (x, y), (to_x, to_y) = polygon[k], polygon[k + 1]
        if here <= 0.0:
            kept.append((x, y))
        if here < 0.0 < there or there < 0.0 < here:
            t = here / (here - there)
            kept.append((x + t * (to_x - x), y + t * (to_y - y)))
    return kept


def levels(values: Sequence[float], tolerance: float) -> tuple[list[float], list[int]]:
    """The different values, ascending, and for each value given the index of its own; near ones count as one."""
    found: list[float] = []
    index = [0] * len(values)
    for k in sorted(range(len(values)), key=values.__getitem__):
        if not found or values[k] - found[-1] > tolerance:
            found.append(values[k])
        index[k] = len(found) - 1
    return found, index


@dataclass(frozen=True, slots=True)
class _Grid:
    """The outline on the grid of its own corners."""

    lines: tuple[list[float], list[float]]
    corners: list[Cell]
    inside: set[Cell]

    def run(self, edge: int) -> tuple[int, int, int, int]:
        """Axis an edge runs along, the level it lies on, and the indices where it starts and ends."""
        start, end = self.corners[edge], self.corners[(edge + 1) % len(self.corners)]
        axis = 0 if start[1] == end[1] else 1
        return axis, start[1 - axis], start[axis], end[axis]


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of supported edge along one part of the slab, in grid indices."""

    edge: int
    axis: int
    level: int
    low: int
    high: int


@dataclass(frozen=True, slots=True)
class _Rank:
    """How far one stretch is, where that is one linear function: larger offset, smaller offset, larger is square."""

    larger: Linear
    smaller: Linear
    square: bool


def nearest_pieces(points: Sequence[Point], supported: Sequence[bool], tolerance: float) -> list[Piece]:
    """Convex pieces of a right-angled slab, each with the supported edge that carries it.

    Args:
        points: corners of a simple outline with its sides along x and y, counter-clockwise [m]
        supported: for each edge, from corner k to corner k + 1, whether something carries it; one at least
        tolerance: coordinates closer than this are the same [m]
    """
    grid = _grid(points, tolerance)
    cuts = _cuts(grid, supported)
    parts = _supported_parts(grid, supported, cuts)
    stretches = _stretches(grid, supported, parts)
    seen = {cell: _seen(grid, cell, stretches[part], parts) for cell, part in parts.items()}
    _hand_over(seen, parts)
    return [piece for cell, near in seen.items() for piece in _divided(grid, cell, near)]


def _grid(points: Sequence[Point], tolerance: float) -> _Grid:
    xs, across = levels([x for x, _ in points], tolerance)
    ys, up = levels([y for _, y in points], tolerance)
    crossings: list[list[int]] = [[] for _ in ys]
    for k, column in enumerate(across):
        if column == across[k - 1]:
            for row in range(min(up[k], up[k - 1]), max(up[k], up[k - 1])):
                crossings[row].append(column)
    inside: set[Cell] = set()
    for row, columns in enumerate(crossings):
        columns.sort()
        for start, end in zip(columns[::2], columns[1::2], strict=True):
            inside.update((column, row) for column in range(start, end))
    return _Grid(lines=(xs, ys), corners=list(zip(across, up, strict=True)), inside=inside)


def _cell(axis: int, along: int, across: int) -> Cell:
    return (along, across) if axis == 0 else (across, along)


def _cuts(grid: _Grid, supported: Sequence[bool]) -> set[_Cut]:
    """Where the slab is cut by rule 1, as single intervals of the grid."""
    cuts: set[_Cut] = set()
    for k, corner in enumerate(grid.corners):
        if supported[k - 1] == supported[k]:
            continue
        before, after = grid.corners[k - 1], grid.corners[(k + 1) % len(grid.corners)]
        turn = (corner[0] - before[0]) * (after[1] - corner[1]) - (corner[1] - before[1]) * (after[0] - corner[0])
        if turn >= 0:
            continue
        axis, level, start, end = grid.run(k if supported[k - 1] else k - 1)
        forward = (end > start) != supported[k - 1]  # the free edge is produced past the corner it shares with the wall
        along = corner[axis] if forward else corner[axis] - 1
        while _cell(axis, along, level - 1) in grid.inside and _cell(axis, along, level) in grid.inside:
            cuts.add((axis, level, along))
            along += 1 if forward else -1
    return cuts


def _supported_parts(grid: _Grid, supported: Sequence[bool], cuts: set[_Cut]) -> dict[Cell, int]:
    """The part of the slab each cell belongs to, once parts without support have been joined to their neighbours."""
    parts = _parts(grid, cuts)
    while cuts:
        carried = set(_stretches(grid, supported, parts))
        kept = {
            (axis, level, along)
            for axis, level, along in cuts
            if parts[_cell(axis, along, level - 1)] in carried and parts[_cell(axis, along, level)] in carried
        }
        if kept == cuts:
            break
        cuts = kept
        parts = _parts(grid, cuts)
    return parts


def _neighbours(cell: Cell) -> tuple[tuple[Cell, _Cut], ...]:
    """The four cells beside one, each with the interval of the grid between."""
    i, j = cell
    return (
        ((i - 1, j), (1, i, j)),
        ((i + 1, j), (1, i + 1, j)),
        ((i, j - 1), (0, j, i)),
        ((i, j + 1), (0, j + 1, i)),
    )


def _parts(grid: _Grid, cuts: set[_Cut]) -> dict[Cell, int]:
    parts: dict[Cell, int] = {}
    for part, first in enumerate(sorted(grid.inside)):
        waiting = [] if first in parts else [first]
        while waiting:
            cell = waiting.pop()
            parts[cell] = part
            waiting += [c for c, gap in _neighbours(cell) if c in grid.inside and c not in parts and gap not in cuts]
    return parts


def _stretches(grid: _Grid, supported: Sequence[bool], parts: dict[Cell, int]) -> dict[int, list[_Stretch]]:
    """The stretches of supported edge along each part of the slab."""
    found: dict[int, list[_Stretch]] = {}
    for edge, carried in enumerate(supported):
        if not carried:
            continue
        axis, level, start, end = grid.run(edge)
        faces_up = (end > start) == (axis == 0)  # counter-clockwise: the slab is on the left hand
        beside = level if faces_up else level - 1
        places = range(min(start, end), max(start, end))
        sides = [(parts[_cell(axis, along, beside)], along) for along in places]
        for part, run in groupby(sides, key=itemgetter(0)):
            low, *rest = [along for _, along in run]
            high = rest[-1] if rest else low
            found.setdefault(part, []).append(_Stretch(edge, axis, level, low, high + 1))
    return found


def _offsets(grid: _Grid, cell: Cell, stretch: _Stretch) -> tuple[Linear, Linear]:
    """Offset from a stretch at right angles to it, and past its end (nothing within its length), over one cell."""
    along, across = cell[stretch.axis], cell[1 - stretch.axis]
    lines = grid.lines[stretch.axis]
    square = _linear(1 - stretch.axis, grid.lines[1 - stretch.axis][stretch.level], across >= stretch.level)
    if along < stretch.low:
        return square, _linear(stretch.axis, lines[stretch.low], False)
    if along >= stretch.high:
        return square, _linear(stretch.axis, lines[stretch.high], True)
    return square, (0.0, 0.0, 0.0)


def _linear(axis: int, value: float, above: bool) -> Linear:
    """Distance from the line x (axis 0) or y (axis 1) = value, for points above or below it."""
    sign = 1.0 if above else -1.0
    return (sign, 0.0, -sign * value) if axis == 0 else (0.0, sign, -sign * value)


def _box(grid: _Grid, cell: Cell) -> list[Point]:
    (xs, ys), (i, j) = grid.lines, cell
    return [(xs[i], ys[j]), (xs[i + 1], ys[j]), (xs[i + 1], ys[j + 1]), (xs[i], ys[j + 1])]


def _seen(grid: _Grid, cell: Cell, stretches: Sequence[_Stretch], parts: dict[Cell, int]) -> list[_Stretch]:
    """The stretches a cell sees (rule 2) that may be the nearest somewhere in it."""
    bottom, _, top, _ = _box(grid, cell)
    reach = []
    for stretch in stretches:
        offsets = _offsets(grid, cell, stretch)
        ends = [sorted((_at(offset, bottom), _at(offset, top))) for offset in offsets]
        reach.append((max(ends[0][0], ends[1][0]), max(ends[0][1], ends[1][1]), stretch))
    reach.sort(key=lambda item: item[0])
    seen: list[_Stretch] = []
    enough = float("inf")
    for least, most, stretch in reach:
        if least > enough:
            break
        if _in_view(cell, stretch, parts):
            seen.append(stretch)
            enough = min(enough, most)
    return seen


def _in_view(cell: Cell, stretch: _Stretch, parts: dict[Cell, int]) -> bool:
    """Whether the rectangle between a cell and the nearest point of a stretch lies in the cell's own part.

    Behind a stretch it never does within its length; past its end it may, where the end stands free in the slab.
    """
    along, across = cell[stretch.axis], cell[1 - stretch.axis]
    rows = range(stretch.level, across + 1) if across >= stretch.level else range(across, stretch.level)
    nearest = min(max(along, stretch.low), stretch.high - 1)
    if along < nearest:
        columns = range(along, stretch.low)
    else:
        columns = range(stretch.high if along > nearest else along, along + 1)
    part = parts[cell]
    return all(parts.get(_cell(stretch.axis, i, j)) == part for j in rows for i in columns)


def _hand_over(seen: dict[Cell, list[_Stretch]], parts: dict[Cell, int]) -> None:
    """Give the cells that see no support the supports of the cells beside them (rule 4), ring by ring."""
    while blind := [cell for cell, near in seen.items() if not near]:
        ring: dict[Cell, list[_Stretch]] = {}
        for cell in blind:
            beside = [c for c, _ in _neighbours(cell) if parts.get(c) == parts[cell]]
            ring[cell] = list(dict.fromkeys(stretch for c in beside for stretch in seen[c]))
        seen.update(ring)


def _at(line: Linear, point: Point) -> float:
    return line[0] * point[0] + line[1] * point[1] + line[2]


def _minus(first: Linear, second: Linear) -> Linear:
    return (first[0] - second[0], first[1] - second[1], first[2] - second[2])


def _divided(grid: _Grid, cell: Cell, near: Sequence[_Stretch]) -> Iterator[Piece]:
    """One cell cut into the pieces nearest each of the stretches it can go to."""
    box = _box(grid, cell)
    if len({stretch.edge for stretch in near}) == 1:
        yield near[0].edge, box
        return
    least = _SLIVER * (box[2][0] - box[0][0]) * (box[2][1] - box[0][1])
    offsets = [_offsets(grid, cell, stretch) for stretch in near]
    pieces = [box]
    for line in {_minus(square, past) for square, past in offsets if past != (0.0, 0.0, 0.0)}:
        opposite = _minus((0.0, 0.0, 0.0), line)
        halves = [clip(piece, side) for piece in pieces for side in (line, opposite)]
        pieces = [half for half in halves if _area(half) > least]
    for piece in pieces:
        ranks = [_rank(piece, *pair) for pair in offsets]
        for k, stretch in enumerate(near):
            part = piece
            for m, other in enumerate(ranks):
                if m != k and part:
                    part = clip(part, _nearer(ranks[k], other, k < m))
            if _area(part) > least:
                yield stretch.edge, part


def _area(polygon: Sequence[Point]) -> float:
    return sum(polygon[k - 1][0] * p[1] - p[0] * polygon[k - 1][1] for k, p in enumerate(polygon)) / 2


def _rank(piece: Sequence[Point], square: Linear, past: Linear) -> _Rank:
    middle = (sum(x for x, _ in piece) / len(piece), sum(y for _, y in piece) / len(piece))
    if _at(square, middle) >= _at(past, middle):
        return _Rank(square, past, True)
    return _Rank(past, square, False)


def _nearer(one: _Rank, other: _Rank, first: bool) -> Linear:
    """The linear function that is at most zero where the one is nearer than the other (rules 2 and 3)."""
    if one.larger != other.larger:
        return _minus(one.larger, other.larger)
    if one.smaller != other.smaller:
        return _minus(one.smaller, other.smaller)
    wins = first if one.square == other.square else one.square
    return (0.0, 0.0, -1.0 if wins else 1.0)
