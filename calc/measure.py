"""Rules of measurement: how a dimension is booked, what an opening takes off, what bulking adds.

Covers   booking of dimensions and quantities, the measured line itself, deductions of openings from brickwork and
         plaster, reveals, bulking, weight of steel.
Not      which lines a house needs (quantities) and what they cost (prices).
Signs    quantities positive; a deduction is a line with a negative number.
Units    m, m2, m3, kg.
Sources  dimensions to 0.01 m, areas to 0.01 m2, volumes to 0.01 m3: IS 1200 (Part 4). Weight to 1 kg: SP 27.
         Openings in brickwork: IS 1200 (Part 3), second hand; the same in the CPWD masonry specification.
         Openings in plaster: IS 1200 (Part 13):1994 cl. 3.1 and 3.2. Bulking: common practice, no source.

IS 1200 rounds by IS 2:1960, a half to the even digit. Here a half goes up, as every spreadsheet does, so that the sheet
and the program book the same figure; the two part only where a dimension ends exactly in 5 mm.
"""

from dataclasses import dataclass

from calc.fields import note, quantity
from calc.number import Name, Number, minimum, product, rounded, where, within


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MeasuredLine:
    """One line of the measurement: number x length x breadth x depth. None is a dimension the line does not have."""

    code: Name = note("item of work")
    what: str = note("where it is")
    number: Number = quantity("No", "how often; negative for a deduction; for loose earth times its bulking")
    length: Number | None = quantity("m", "length")
    breadth: Number | None = quantity("m", "breadth")
    depth: Number | None = quantity("m", "depth or height")
    quantity: Number = note("number x length x breadth x depth, in the unit of the item; steel times kg/m")


def booked(length: Number) -> Number:
    """A dimension as it is booked: to the nearest 0.01 m [m].

    Args:
        length: as measured or worked out [m]

    >>> booked(3.567), booked(0.115)
    (3.57, 0.12)
    """
    result: Number = rounded(length, 2)
    return result


def line(
    code: str,
    what: str,
    number: Number,
    length: Number | None = None,
    breadth: Number | None = None,
    depth: Number | None = None,
) -> MeasuredLine:
    """A measured line with its dimensions booked and its quantity to 0.01.

    Args:
        code: item of work
        what: where it is
        number: how often; negative for a deduction [No]
        length: or None [m]
        breadth: or None [m]
        depth: or None [m]

    >>> line("D01", "room Hall", 2, 3.567, 0.9, 0.6).quantity
    3.86
    """
    sides = [None if side is None else booked(side) for side in (length, breadth, depth)]
    return _line(code, what, number, *sides)


def again(code: str, other: MeasuredLine, number: Number) -> MeasuredLine:
    """A line of another item over the same dimensions, which are not worked out a second time.

    Args:
        code: item of work
        other: the line whose place and dimensions are taken
        number: how often [No]
    """
    return _line(code, other.what, number, other.length, other.breadth, other.depth)


def _line(
    code: str, what: str, number: Number, length: Number | None, breadth: Number | None, depth: Number | None
) -> MeasuredLine:
    return MeasuredLine(code=Name(code), what=what, number=number, length=length, breadth=breadth, depth=depth,
                        quantity=rounded(product(number, length, breadth, depth), 2))  # fmt: skip


def steel_line(code: str, what: str, number: Number, length: Number, mass: Number) -> MeasuredLine:
    """A measured line of steel, its weight to the nearest kilogram.

    Args:
        code: item of work
        what: where it is
        number: pieces side by side [No]
        length: of one [m]
        mass: of one metre [kg/m]

    >>> steel_line("J03", "wall W1", 2, 8.77, 37.3).quantity
    654.0
    """
    run = booked(length)
    return MeasuredLine(code=Name(code), what=what, number=number, length=run, breadth=None, depth=None,
                        quantity=rounded(product(number, run, None, None) * mass, 0))  # fmt: skip


def brickwork_deduction(area: Number, none_up_to: Number) -> Number:
    """What an opening takes off brickwork [m2]: nothing up to the limit, the limit itself included.

    Args:
        area: of the opening [m2]
        none_up_to: greatest opening that is not deducted [m2]

    >>> brickwork_deduction(0.1, 0.1), brickwork_deduction(0.12, 0.1)
    (0, 0.12)
    """
    result: Number = where(within(area, none_up_to), 0, area)
    return result


def plaster_deduction(area: Number, faces: Number, none_up_to: Number, one_face_up_to: Number) -> Number:
    """What an opening takes off the plaster of a wall with the same finish on its plastered faces [m2].

    Nothing up to the first limit; one face up to the second, both limits included; beyond it every plastered face.

    Args:
        area: of the opening [m2]
        faces: plastered faces of the wall, 0 to 2 [No]
        none_up_to: greatest opening that is not deducted [m2]
        one_face_up_to: greatest opening deducted on one face only [m2]

    >>> [plaster_deduction(a, 2, 0.5, 3.0) for a in (0.5, 1.2, 3.0, 3.78)]
    [0, 1.2, 3.0, 7.56]
    """
    one_face = where(within(area, one_face_up_to), minimum(faces, 1), faces)
    result: Number = where(within(area, none_up_to), 0, area * one_face)
    return result


def reveal_run(area: Number, run: Number, none_up_to: Number) -> Number:
    """Length of jambs, soffit and sill of an opening whose plaster is added [m]: none up to the limit.

    Args:
        area: of the opening [m2]
        run: jambs, soffit and, for a window, sill [m]
        none_up_to: greatest opening whose reveals are not added [m2]

    >>> reveal_run(3.0, 7.0, 3.0), reveal_run(3.78, 6.0, 3.0)
    (0, 6.0)
    """
    result: Number = where(within(area, none_up_to), 0, run)
    return result


def bulked(amount: Number, bulking: Number) -> Number:
    """Earth as it is carried: what was dug, measured loose. Digging itself is measured in the ground.

    Args:
        amount: in the ground, or the number of a line that measures it
        bulking: loose over in the ground [-]

    >>> bulked(8.0, 1.25)
    10.0
    """
    return amount * bulking


def masonry_volume(length: Number, thickness: Number, height: Number, deducted: Number) -> Number:
    """Masonry of a wall, net of the openings that are deducted [m3].

    Args:
        length: of the wall [m]
        thickness: of the wall [m]
        height: of the wall [m]
        deducted: area taken off for openings [m2]

    >>> round(masonry_volume(5.0, 0.23, 3.0, 2.1), 3)
    2.967
    """
    result: Number = (length * height - deducted) * thickness
    return result


def plaster_area(length: Number, height: Number, faces: Number, deducted: Number) -> Number:
    """Plaster of a wall, net of the openings that are deducted; reveals left out [m2].

    Args:
        length: of the wall [m]
        height: of the wall [m]
        faces: plastered faces, 0 to 2 [No]
        deducted: area taken off for openings, all faces together [m2]

    >>> plaster_area(5.0, 3.0, 2, 8.76)
    21.24
    """
    result: Number = length * height * faces - deducted
    return result


def earth_volume(length: Number, breadth: Number, depth: Number, deducted: Number) -> Number:
    """Earth dug or filled, as it lies in the ground [m3].

    Args:
        length: of the trench or room [m]
        breadth: of the trench or room [m]
        depth: of digging or fill [m]
        deducted: of it, what is not dug or filled: another trench at a corner, a footing, a bed [m3]

    >>> round(earth_volume(8.0, 0.9, 0.75, 0.6), 3)
    4.8
    """
    result: Number = length * breadth * depth - deducted
    return result


def spread_volume(area: Number, depth: Number) -> Number:
    """Fill, gravel or concrete spread over an area [m3].

    Args:
        area: on plan [m2]
        depth: of the layer [m]

    >>> spread_volume(12.5, 0.6)
    7.5
    """
    result: Number = area * depth
    return result
