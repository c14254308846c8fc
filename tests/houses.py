"""Small invented houses for the tests of calc, built as records on floats; every default stands here in sight.

Covers   one short maker for each record, `house` for the whole survey, `worked` for the chain from plan to take-down.
Not      reading (the tests of addin), and no expected figure.
Units    those of the records: m, kN, kN/m2.

    s = house({"A": 0, "B": 4}, {"1": 0, "2": 3}, walls=[wall("W1", "A1", "B1")])
    worked(s).base("W1").dead
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from addin import tables
from calc.allowances import Allowances
from calc.jack_plan import plan_jacks
from calc.jack_plan_rows import JackPlan
from calc.member_rules import BaseRules, JackRules, MemberRules, PackingRules, SteelRules
from calc.number import text_of
from calc.own_loads import own_loads
from calc.own_rows import OwnLoads
from calc.plan import plan_of
from calc.plan_rows import Plan
from calc.sharing import Sharing, piece_fractions, sharing_of
from calc.survey import (
    Attached,
    Beam,
    Column,
    Entered,
    Footing,
    GridLine,
    GridPoint,
    Job,
    KitItem,
    Material,
    Opening,
    Room,
    Survey,
    Use,
    Wall,
)
from calc.take_down import take_down
from calc.take_down_rows import BaseRow, MemberTotal, TakeDown

BRICK, PLASTER, CONCRETE, PLAIN_CONCRETE, FILL, WATER = 19.0, 20.4, 25.0, 24.0, 18.0, 9.81
"""Unit weights [kN/m3], round figures."""

MATERIALS = {
    "Brick masonry": BRICK, "Cement plaster": PLASTER, "Reinforced concrete": CONCRETE,
    "Plain concrete": PLAIN_CONCRETE, "Compacted fill": FILL, "Water": WATER, "Rubble masonry": 23.0,
}  # fmt: skip

USES = {
    "Dwelling room": 2.0, "Store": 5.0, "Balcony": 3.0, "Corridor or stair": 3.0, "Roof with access": 1.5,
    "Roof without access": 0.75, "Pitched roof": 0.75, "Nothing": 0.0,
}  # fmt: skip
"""Imposed loads [kN/m2]."""

BLANK = Entered(value=0.0, given=False)

ALLOWANCES = Allowances(**{row.key: row.value for row in tables.allowances()})
"""The allowances as shipped."""

RULES = MemberRules(steel=tables.rules(SteelRules), packing=tables.rules(PackingRules),
                    bases=tables.rules(BaseRules), jacks=tables.rules(JackRules))  # fmt: skip
BASIS = tables.plan_basis(RULES)
"""Rules and tables as shipped."""

BARE = {"plastered": 0}
"""An unplastered wall, whose weight is length x thickness x height x unit weight."""


def entered(value: float | None) -> Entered:
    return BLANK if value is None else Entered(value=float(value), given=True)


def point(name: str) -> GridPoint:
    """B3 -> the crossing of lines B and 3."""
    cut = next(i for i, sign in enumerate(name) if sign.isdigit())
    return GridPoint(name[:cut], name[cut:])


def job(**changes: Any) -> Job:
    usual: dict[str, Any] = {
        "reason": "flooding", "condition": "sound", "rise": entered(0.9), "cut_level": entered(0.0),
        "plinth": BLANK, "road": BLANK,
        "flood": BLANK, "freeboard": 0.3, "plinth_above_road": 0.45, "least_plinth": 0.0, "road_build_up": 0.15,
        "empty": "yes", "wind_speed": entered(39.0), "terrain": "built up",
        "jack_rating": 200.0, "share": 0.4, "stroke": 0.15, "widest_spacing": 1.2,
        "closest_spacing": 0.5, "bearing": entered(120.0), "bearing_from": "test", "instrument": "optical level",
        "beams_left_in": "no", "beams_known": "yes", "transfer_age": entered(14.0), "neighbours": "given",
        "engineer": "", "licence": "", "release_date": BLANK, "services": 4.0, "smallest_coin": 1.0,
        "overheads": 0.1, "profit": 0.1, "contingency": 0.1, "tax": 0.0, "rebuild_rate": BLANK,
    }  # fmt: skip
    return Job(**{**usual, **changes})


def wall(name: str, start: str, end: str, **changes: Any) -> Wall:
    usual: dict[str, Any] = {
        "storey": 1, "thickness": 0.23, "height": 3.0, "masonry": "Brick masonry", "plastered": 2,
        "at_lift": "lifted", "system": "beam through wall", "stands_on": "new pad", "side": "free",
        "mortar": "cement 1:6",
    }  # fmt: skip
    entries = {**usual, **changes}
    return Wall(name=name, start=point(start), end=point(end), level=float(entries["storey"]), **entries)


def room(name: str, corners: str, **changes: Any) -> Room:
    """`corners`: two opposite corners, lower left first, or all of them anticlockwise."""
    named = [point(corner) for corner in corners.split()]
    if len(named) == 2:
        a, b = named
        named = [a, GridPoint(b.letter, a.number), b, GridPoint(a.letter, b.number)]
    usual: dict[str, Any] = {
        "storey": 1, "use": "Dwelling room", "above": "slab", "slab_thickness": 0.12, "soffit": 0.0, "finish": 1.0,
        "slope": 25.0, "span": "auto", "carries": "Roof with access", "floor": "on soil",
    }  # fmt: skip
    return Room(name=name, outline=tuple(named), **{**usual, **changes})


def opening(wall_name: str, kind: str, from_start: float, width: float, height: float, **changes: Any) -> Opening:
    usual = {"sill": 0.0 if kind == "door" else 0.9, "block_up": "unknown"}
    return Opening(wall=wall_name, kind=kind, from_start=from_start, width=width, height=height, **{**usual, **changes})


def beam(name: str, start: str, end: str, **changes: Any) -> Beam:
    usual: dict[str, Any] = {"storey": 1, "breadth": 0.23, "depth": 0.3, "carries_slab": "yes", "bears_on": (),
                             "plinth_beam": "no"}  # fmt: skip
    return Beam(name=name, start=point(start), end=point(end), **{**usual, **changes})


def column(name: str, at: str, **changes: Any) -> Column:
    usual: dict[str, Any] = {"storey": 1, "breadth": 0.3, "depth": 0.25, "height": 2.7,
                             "material": "Reinforced concrete", "bars": BLANK, "system": "collar or clamp"}  # fmt: skip
    return Column(name=name, point=point(at), **{**usual, **changes})


def attached(name: str, kind: str, on: str, **changes: Any) -> Attached:
    upright = kind in ("parapet", "hanging wall")
    usual: dict[str, Any] = {
        "from_start": BLANK, "length": BLANK, "thickness": 0.115, "size": 0.9, "weight": BLANK, "water": 0.0,
        "material": "Brick masonry" if upright else "Reinforced concrete", "support": "none",
    }  # fmt: skip
    return Attached(name=name, kind=kind, on=on, **{**usual, **changes})


def footing(members: str, **changes: Any) -> Footing:
    usual: dict[str, Any] = {"plinth_thickness": 0.35, "plinth_height": 0.6, "width": 0.75, "depth": 0.9,
                             "thickness": 0.2, "material": "Plain concrete", "seen": "yes"}  # fmt: skip
    return Footing(label=members, members=tuple(members.split()), **{**usual, **changes})


def kit(name: str, kind: str, number: float, **changes: Any) -> KitItem:
    usual: dict[str, Any] = {"rating": entered(200.0), "stroke": entered(0.15), "closed": entered(0.28),
                             "length": BLANK}  # fmt: skip
    return KitItem(name=name, kind=kind, number=entered(number), **{**usual, **changes})


def lines(offsets: Mapping[str, float]) -> tuple[GridLine, ...]:
    return tuple(GridLine(name=name, offset=float(offset)) for name, offset in offsets.items())


def house(letters: Mapping[str, float], numbers: Mapping[str, float], **parts: Any) -> Survey:
    """A whole survey; `parts` are sequences of records, `job` a Job, `uses` a changed list of imposed loads."""
    uses = parts.pop("uses", USES)
    rest = {key: tuple(value) for key, value in parts.items() if key != "job"}
    titles = ("rooms", "walls", "openings", "beams", "columns", "attached", "footings", "readings", "cracks", "rates",
              "kit")  # fmt: skip
    empty: dict[str, tuple[Any, ...]] = dict.fromkeys(titles, ())
    return Survey(
        job=parts.get("job", job()), letters=lines(letters), numbers=lines(numbers),
        materials=tuple(Material(name=name, unit_weight=weight) for name, weight in MATERIALS.items()),
        uses=tuple(Use(name=name, imposed=imposed) for name, imposed in uses.items()), **{**empty, **rest},
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A house worked through on floats, from the plan to the take-down."""

    survey: Survey
    plan: Plan
    own: OwnLoads
    sharing: Sharing
    taken: TakeDown

    def base(self, name: str) -> BaseRow:
        """A ground wall or column at the cut level."""
        return next(row for row in self.taken.bases if row.name == name)

    def total(self, name: str) -> MemberTotal:
        """A wall, beam or column of any storey."""
        return next(row for row in self.totals() if text_of(row.name) == name)

    def totals(self) -> Iterable[MemberTotal]:
        for block in self.taken.blocks:
            yield from (row for rows in block.beams for row in rows)
            yield from (*block.walls, *block.columns)

    def passed(self, upper: str) -> dict[str, float]:
        """Dead load an upper member passes to each lower one [kN]."""
        given: dict[str, float] = {}
        for block in self.taken.blocks:
            for row in block.passed:
                if row.upper == upper:
                    given[str(row.lower)] = given.get(str(row.lower), 0.0) + row.dead
        return given

    def drawn(self, name: str) -> dict[str, float]:
        """Dead load each support draws from a beam [kN]."""
        rows = [row for block in self.taken.blocks for group in block.drawn for row in group if row.beam == name]
        return {str(row.support): row.dead for row in rows}

    def profile(self, name: str, measure: str = "dead") -> Any:
        """The load along a wall or beam."""
        return self.sharing.profiles[name][measure]


def worked(survey: Survey, allowances: Allowances = ALLOWANCES) -> Worked:
    plan = plan_of(survey)
    fractions = piece_fractions(plan, survey)
    own = own_loads(survey, plan, fractions, allowances)
    sharing = sharing_of(survey, plan, own)
    return Worked(survey=survey, plan=plan, own=own, sharing=sharing,
                  taken=take_down(survey, plan, own, sharing, allowances))  # fmt: skip


def planned(survey: Survey, rise: float = 0.9, allowances: Allowances = ALLOWANCES) -> JackPlan:
    """The jack plan of a house."""
    found = worked(survey, allowances)
    return plan_jacks(survey, found.plan, found.sharing, found.own, found.taken.bases, rise, BASIS, allowances)


def four_walls(corners: Sequence[str], **changes: Any) -> list[Wall]:
    """W1 to W4 round a rectangle A1 B1 B2 A2, south, east, north, west, each from its lower or left point."""
    a, b, c, d = corners
    return [wall("W1", a, b, **changes), wall("W2", b, c, **changes), wall("W3", d, c, **changes),
            wall("W4", a, d, **changes)]  # fmt: skip
