"""The face a house shows to the wind while it stands on jacks: width by room outlines, height by storeys.

Covers   outer extent of each room, the widest of each storey both ways, height from the cut level to the top of slab,
         ridge and parapet; area and middle of the face in each direction.
Not      the shape of gables (the whole rectangle up to the ridge counts), tanks and stair heads, one part in the lee of
         another, the plinth that stays, trees and neighbours: the careful side.
Signs    x east, y north; heights above the ground floor, or above the jack heads where it says so.
Units    m, m2, m3.
Sources  geometry. A parapet is taken round the whole top storey.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from calc.allowances import Allowances
from calc.fields import note, quantity
from calc.number import Name, Number, Text, cosine, fixed, maximum, minimum, ratio, same, sqrt, text_of, total, where
from calc.own_loads import storey_name
from calc.own_rows import OwnLoads, RoomRow, SideRow, StoreyRow
from calc.survey import Job, Room


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoomFace:
    """Outer extent of one room, its thickest wall taken on every side."""

    room: Text = note("room")
    level: Name = note("its storey")
    storey: int = note("the same, as a number")
    half: Number = quantity("m", "half of its thickest wall")
    west: Number = quantity("m", "outer face, x")
    east: Number = quantity("m", "outer face, x")
    south: Number = quantity("m", "outer face, y")
    north: Number = quantity("m", "outer face, y")
    ridge: Number = quantity("m", "of a pitched roof over it, above the top of its walls; else 0")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Upstand:
    """One thing attached: whether it stands up from the roof as a parapet."""

    item: Text = note("attached thing")
    height: Number = quantity("m", "of a parapet, else 0")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoreyFace:
    """What one storey shows to the wind."""

    level: Name = note("storey")
    along_x: Number = quantity("m", "its extent east to west")
    along_y: Number = quantity("m", "its extent south to north")
    bottom: Number = quantity("m", "cut level or floor, above the ground floor")
    top: Number = quantity("m", "top of its slab, ridge or parapet, above the ground floor")
    middle: Number = quantity("m", "halfway, above the jack heads")
    area_x: Number = quantity("m2", "face a wind along letters meets")
    area_y: Number = quantity("m2", "face a wind along numbers meets")
    moment_x: Number = quantity("m3", "the first, times its middle")
    moment_y: Number = quantity("m3", "the second, times its middle")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Faces:
    """The whole house in the wind."""

    rooms: tuple[RoomFace, ...]
    upstands: tuple[Upstand, ...]
    storeys: tuple[StoreyFace, ...]
    heads: Number = quantity("m", "jack heads above the ground floor: below it less than 0")
    parapet: Number = quantity("m", "highest parapet")
    top: Number = quantity("m", "top of the house above the ground floor")
    area_x: Number = quantity("m2", "face a wind along letters meets")
    area_y: Number = quantity("m2", "face a wind along numbers meets")
    middle_x: Number = quantity("m", "middle of the first above the jack heads")
    middle_y: Number = quantity("m", "middle of the second above the jack heads")


def ridge_height(span: Number, slope: Number) -> Number:
    """Height of a ridge in the middle of a span [m].

    Args:
        span: of the roof, eaves to eaves [m]
        slope: of its sides [deg]

    >>> round(ridge_height(6.0, 30.0), 3)  # 3 m x 0.577
    1.732
    """
    # The tangent by the cosine: a sheet and every kind of number know that one.
    return span / 2 * sqrt(1 / cosine(slope) ** 2 - 1)


def faces_of(survey_rooms: Sequence[Room], own: OwnLoads, job: Job, allow: Allowances) -> Faces:
    """The faces of the house above its cut level.

    Args:
        survey_rooms: rooms as surveyed, in the order of the floors in `own`
        own: own loads, with the sides of rooms and the storeys
        job: the Job entries
        allow: the allowances
    """
    rooms = tuple(_room(room, row, own.sides) for room, row in zip(survey_rooms, own.rooms, strict=True))
    upstands = tuple(
        Upstand(item=row.name, height=where(same(row.kind, "parapet"), row.size, 0)) for row in own.attached
    )
    heads = job.cut_level.value - allow.head_depth
    parapet = maximum(0, *(row.height for row in upstands))
    storeys = tuple(_storeys(rooms, parapet, own.storeys, job.cut_level.value, heads))
    area_x, area_y = total([row.area_x for row in storeys]), total([row.area_y for row in storeys])
    return Faces(
        rooms=rooms, upstands=upstands, storeys=storeys, heads=heads, parapet=parapet,
        top=maximum(*(row.top for row in storeys)), area_x=area_x, area_y=area_y,
        middle_x=ratio(total([row.moment_x for row in storeys]), area_x, 0),
        middle_y=ratio(total([row.moment_y for row in storeys]), area_y, 0),
    )  # fmt: skip


def _room(room: Room, row: RoomRow, sides: Sequence[SideRow]) -> RoomFace:
    mine = [side for side in sides if text_of(side.panel) == text_of(row.panel)]
    half = maximum(*(side.half for side in mine))
    west, south = minimum(*(side.x_start for side in mine)) - half, minimum(*(side.y_start for side in mine)) - half
    east, north = maximum(*(side.x_start for side in mine)) + half, maximum(*(side.y_start for side in mine)) + half
    ridge = ridge_height(minimum(east - west, north - south), room.slope)
    if room.above != "pitched roof":
        ridge = fixed(0, half, half)
    return RoomFace(room=row.room, level=storey_name(row.storey), storey=row.storey, half=half, west=west, east=east,
                    south=south, north=north, ridge=ridge)  # fmt: skip


def _storeys(
    rooms: Sequence[RoomFace], parapet: Number, storeys: Sequence[StoreyRow], cut: Number, heads: Number
) -> Iterable[StoreyFace]:
    for row in storeys:
        mine = [room for room in rooms if room.storey == row.storey]
        along_x = maximum(*(room.east for room in mine)) - minimum(*(room.west for room in mine))
        along_y = maximum(*(room.north for room in mine)) - minimum(*(room.south for room in mine))
        bottom = cut if row.storey == 1 else row.base
        roof = row.ceiling + row.slab + maximum(*(room.ridge for room in mine))
        top = roof + parapet if row.storey == storeys[-1].storey else roof
        middle = (bottom + top) / 2 - heads
        area_x, area_y = along_y * (top - bottom), along_x * (top - bottom)
        yield StoreyFace(
            level=Name(row.name), along_x=along_x, along_y=along_y, bottom=bottom, top=top, middle=middle,
            area_x=area_x, area_y=area_y, moment_x=area_x * middle, moment_y=area_y * middle,
        )  # fmt: skip
