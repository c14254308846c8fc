"""Load take-down: everything passed down, storey by storey, to the ground walls and columns.

Covers   totals of every wall, beam and column; what is lifted apart from what stays below the cut level; the house
         total, its centre, and the balance of what went in with what comes out.
Not      own loads (own_loads) and the fractions no formula gives (sharing).
Signs    weight positive downward.
Units    in each field.
Sources  statics. Equilibrium is checked on each run: `went_in` against what the ground walls and columns carry.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from calc.allowances import Allowances
from calc.centre import CentreRow, centre_rows
from calc.fields import note, quantity
from calc.number import Filed, Name, Number, Text, at_issue, fixed, same, text_of, total, value_of, where
from calc.own_loads import FREE
from calc.own_rows import OwnLoads
from calc.plan import Plan, Rest
from calc.sharing import Drawn, Passed, Sharing
from calc.survey import Survey
from calc.walls import prism_weight


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class AttachedPart:
    """What one carrier gets of one attached thing."""

    item: Text = note("attached thing")
    carrier: Name = note("wall, beam or column")
    fraction: Number = quantity("-", "part of it; of a thing on a slab worked out at issue")
    dead: Number = quantity("kN", "dead load")
    imposed: Number = quantity("kN", "imposed load")
    lifted: Number = quantity("kN", "load in the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class PassedRow:
    """What one lower member gets of one upper member."""

    upper: Name = note("upper wall or column")
    lower: Name = note("what it stands on")
    through: str = note("the slab it goes through, if any")
    upper_dead: Number = quantity("kN", "dead load of the upper member")
    upper_imposed: Number = quantity("kN", "imposed load of the upper member")
    upper_lifted: Number = quantity("kN", "load of the upper member in the lift")
    fraction_dead: Number = quantity("-", "part of its dead load")
    fraction_imposed: Number = quantity("-", "part of its imposed load")
    fraction_lifted: Number = quantity("-", "part of its load in the lift")
    dead: Number = quantity("kN", "dead load passed")
    imposed: Number = quantity("kN", "imposed load passed")
    lifted: Number = quantity("kN", "load in the lift passed")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class DrawnRow:
    """What one support draws from one beam."""

    beam: Name = note("beam")
    support: Name = note("column, wall or beam")
    letter: Name = note("letter line the support stands on; - where none")
    number: Name = note("number line the support stands on; - where none")
    x_beam: Number = quantity("m", "x of the beam's start")
    y_beam: Number = quantity("m", "y of the beam's start")
    dx: Number = quantity("m", "run of the beam east")
    dy: Number = quantity("m", "run of the beam north")
    x: Number = quantity("m", "x of the support; where a wall or beam crosses, worked out at issue")
    y: Number = quantity("m", "y of the support, likewise")
    at: Number = quantity("m", "distance along the beam")
    start: Number = quantity("m", "start of the length it carries")
    end: Number = quantity("m", "end of the length it carries")
    beam_length: Number = quantity("m", "length of the beam")
    beam_dead: Number = quantity("kN", "dead load of the beam")
    beam_imposed: Number = quantity("kN", "imposed load of the beam")
    beam_lifted: Number = quantity("kN", "load of the beam in the lift")
    fraction_dead: Number = quantity("-", "part of its dead load")
    fraction_imposed: Number = quantity("-", "part of its imposed load")
    fraction_lifted: Number = quantity("-", "part of its load in the lift")
    dead: Number = quantity("kN", "dead load drawn")
    imposed: Number = quantity("kN", "imposed load drawn")
    lifted: Number = quantity("kN", "load in the lift drawn")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class MemberTotal:
    """Everything one wall, beam or column carries at its foot."""

    name: Text = note("mark")
    kind: str = note("wall, beam or column")
    own: Number = quantity("kN", "own weight")
    slabs: Number = quantity("kN", "dead load of slabs and roofs")
    attached: Number = quantity("kN", "weight of attached things")
    beams: Number = quantity("kN", "dead load of beams")
    above: Number = quantity("kN", "dead load from above")
    dead: Number = quantity("kN", "dead load")
    slabs_imposed: Number = quantity("kN", "imposed load of slabs and roofs")
    attached_imposed: Number = quantity("kN", "imposed load of attached things")
    beams_imposed: Number = quantity("kN", "imposed load of beams")
    above_imposed: Number = quantity("kN", "imposed load from above")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    own_lifted: Number = quantity("kN", "own weight lifted")
    slabs_lifted: Number = quantity("kN", "slabs and roofs in the lift")
    attached_lifted: Number = quantity("kN", "attached things in the lift")
    beams_lifted: Number = quantity("kN", "beams in the lift")
    above_lifted: Number = quantity("kN", "from above in the lift")
    lifted: Number = quantity("kN", "load in the lift")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StoreyBlock:
    """One storey of the take-down: beams in the order they carry each other, then walls and columns."""

    storey: int
    beams: tuple[tuple[MemberTotal, ...], ...]
    drawn: tuple[tuple[DrawnRow, ...], ...]
    walls: tuple[MemberTotal, ...]
    columns: tuple[MemberTotal, ...]
    passed: tuple[PassedRow, ...]
    """What this storey passes to the one below."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FootingRow:
    """A footing as surveyed, or the one assumed where none was."""

    label: Text = note("walls and columns it serves")
    plinth_thickness: Number = quantity("m", "plinth masonry")
    plinth_height: Number = quantity("m", "footing top to floor")
    width: Number = quantity("m", "across the wall")
    depth: Number = quantity("m", "underside below ground")
    thickness: Number = quantity("m", "thickness")
    material: Text = note("material")
    unit_weight: Number = quantity("kN/m3", "unit weight")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BaseRow:
    """One ground wall or column at the cut level."""

    name: Name = note("mark")
    kind: str = note("wall or column")
    member: Text = note("the same, as shown")
    footing: Name = note("its footing")
    length: Number = quantity("m", "length")
    footing_plinth: Number = quantity("m", "plinth masonry of its footing")
    plinth_thickness: Number = quantity("m", "plinth masonry; of a pillar its own side")
    plinth_left: Number = quantity("m", "height of plinth below the cut")
    cut_band: Number = quantity("kN", "plinth masonry between the cut and the floor")
    goes_up: Number = quantity("-", "1 where it is lifted, else 0")
    dead: Number = quantity("kN", "dead load at the cut level")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    lifted: Number = quantity("kN", "load in the lift")
    line_service: Number = quantity("kN/m", "service load along the wall; the whole load of a column per metre of side")
    line_lifted: Number = quantity("kN/m", "load in the lift along the wall")
    width: Number = quantity("m", "footing width")
    footing_thickness: Number = quantity("m", "footing thickness")
    masonry: Number = quantity("kN/m3", "unit weight of the plinth")
    footing_unit_weight: Number = quantity("kN/m3", "unit weight of the footing")
    plinth_height: Number = quantity("m", "footing top to floor")
    plinth: Number = quantity("kN", "plinth that stays")
    footing_weight: Number = quantity("kN", "footing that stays")
    stays: Number = quantity("kN", "all that stays")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class HouseTotals:
    """The house as a whole."""

    dead: Number = quantity("kN", "dead load above the cut level")
    imposed: Number = quantity("kN", "imposed load")
    service: Number = quantity("kN", "dead and imposed")
    lifted: Number = quantity("kN", "load on the jacks")
    stays: Number = quantity("kN", "plinth and footings below the cut level")
    went_in: Number = quantity("kN", "service load of every part, added up before anything is passed down")
    balance: Number = quantity("kN", "what comes out at the ground less what went in")
    lifted_parts: Number = quantity("kN", "what is lifted, added up part by part")
    centre_balance: Number = quantity("kN", "what the centre is worked out from less what is lifted")
    x: Number = quantity("m", "centre of what is lifted, east")
    y: Number = quantity("m", "centre of what is lifted, north")
    z: Number = quantity("m", "centre of what is lifted, above the ground floor")
    floor_area: Number = quantity("m2", "floor area on centre lines, all storeys")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WentIn:
    """One kind of load, added up before anything is passed down."""

    what: str = note("kind of load")
    load: Number = quantity("kN", "all of it")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FiledSum:
    """Loads filed under names, against what was found under those names: a name that fits nothing shows here."""

    what: str = note("what is filed")
    filed: Number = quantity("kN", "all that is filed")
    found: Number = quantity("kN", "all that was looked up")
    gap: Number = quantity("kN", "filed less found")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class TakeDown:
    """The whole take-down."""

    own: OwnLoads
    parts: tuple[AttachedPart, ...]
    blocks: tuple[StoreyBlock, ...]
    footings: tuple[FootingRow, ...]
    bases: tuple[BaseRow, ...]
    house: HouseTotals
    centre: tuple[CentreRow, ...]
    went_in: tuple[WentIn, ...]
    filed_sums: tuple[FiledSum, ...]


NOT_SURVEYED = Name("not surveyed")
"""Label of the assumed footing."""


def take_down(survey: Survey, plan: Plan, own: OwnLoads, sharing: Sharing, allowances: Allowances) -> TakeDown:
    """Pass every load down to the cut level.

    Args:
        survey: the entries, in any kind of number
        plan: who carries whom
        own: own loads, in the same kind of number
        sharing: the fractions no formula gives
        allowances: figures for what was not surveyed
    """
    builder = _Builder(survey, plan, own, sharing, allowances)
    blocks = builder.blocks()
    footings, bases = builder.bases(blocks[-1])
    house, centre, went_in = builder.house(bases)
    return TakeDown(
        own=own,
        parts=builder.parts,
        blocks=blocks,
        footings=footings,
        bases=bases,
        house=house,
        centre=centre,
        went_in=went_in,
        filed_sums=tuple(_filed_sums(own, builder.parts, blocks)),
    )


class _Loads:
    """Three columns filed under one list of carriers."""

    def __init__(self, names: Sequence[Text], rows: Sequence[object]) -> None:
        self.dead = Filed(names, [row.dead for row in rows])  # type: ignore[attr-defined]
        self.imposed = Filed(names, [row.imposed for row in rows])  # type: ignore[attr-defined]
        self.lifted = Filed(names, [row.lifted for row in rows])  # type: ignore[attr-defined]


class _Builder:
    def __init__(self, survey: Survey, plan: Plan, own: OwnLoads, sharing: Sharing, allowances: Allowances) -> None:
        self.survey, self.plan, self.own, self.sharing, self.allow = survey, plan, own, sharing, allowances
        self.like = survey.letters[0].offset
        self.shares = _Loads([row.carrier for row in own.shares], own.shares)
        self.weights = Filed([m.name for m in survey.materials], [m.unit_weight for m in survey.materials])
        self.parts = tuple(self._attached_parts())
        self.attached = _Loads([part.carrier for part in self.parts], self.parts)
        self.xs = Filed([line.name for line in survey.letters], [line.offset for line in survey.letters])
        self.ys = Filed([line.name for line in survey.numbers], [line.offset for line in survey.numbers])
        names = [row.name for row in own.members]
        self.member = {key: Filed(names, [getattr(row, key) for row in own.members])
                       for key in ("length", "across", "unit_weight", "goes_up")}  # fmt: skip

    def _attached_parts(self) -> Iterable[AttachedPart]:
        names = [row.name for row in self.own.attached]
        loads = _Loads(names, self.own.attached)
        panel_names = [row.panel for row in self.own.panels]
        areas = Filed(panel_names, [row.area for row in self.own.panels])
        for row in self.own.attached:
            pieces = [share for share in self.own.shares if share.panel == row.on and share.carrier != FREE]
            if row.on in self.plan.members or row.on in self.plan.columns:
                found: list[tuple[str, Number]] = [(row.on, fixed(1.0, self.like))]
            else:
                found = [
                    (s.carrier, at_issue(value_of(s.share) / value_of(areas.at(s.panel)), s.share, areas.at(s.panel)))
                    for s in pieces
                ]
            for carrier, fraction in found:
                yield AttachedPart(
                    item=row.name, carrier=Name(carrier), fraction=fraction, dead=fraction * loads.dead.at(row.name),
                    imposed=fraction * loads.imposed.at(row.name), lifted=fraction * loads.lifted.at(row.name),
                )  # fmt: skip

    # ------------------------------------------------------------------------------------------ storey by storey

    def blocks(self) -> tuple[StoreyBlock, ...]:
        """All storeys from the top down."""
        blocks: list[StoreyBlock] = []
        above: list[PassedRow] = []
        for storey in sorted(self.plan.storeys, reverse=True):
            block = self._block(storey, above)
            blocks.append(block)
            above = list(block.passed)
        return tuple(blocks)

    def _block(self, storey: int, above: Sequence[PassedRow]) -> StoreyBlock:
        from_above = _Loads([row.lower for row in above], above)
        beam_blocks: list[tuple[MemberTotal, ...]] = []
        drawn_blocks: list[tuple[DrawnRow, ...]] = []
        drawn: list[_Loads] = []
        beams = [row for row in self.own.beams if row.storey == storey]
        ranks = sorted({self.plan.beam_ranks[text_of(row.name)] for row in beams})
        for rank in ranks:
            rows = [row for row in beams if self.plan.beam_ranks[text_of(row.name)] == rank]
            totals = tuple(self._total(row.name, "beam", row.dead, row.dead, from_above, drawn) for row in rows)
            beam_blocks.append(totals)
            lines = tuple(self._drawn_rows(totals))
            drawn_blocks.append(lines)
            drawn.append(_Loads([row.support for row in lines], lines))
        walls = tuple(self._total(row.name, "wall", row.dead, row.lifted, from_above, drawn)
                      for row in self.own.walls if row.storey == storey)  # fmt: skip
        columns = tuple(self._total(row.name, "column", row.dead, row.dead, from_above, drawn)
                        for row in self.own.columns if row.storey == storey)  # fmt: skip
        passed = tuple(self._passed_rows((*walls, *columns)))
        return StoreyBlock(storey=storey, beams=tuple(beam_blocks), drawn=tuple(drawn_blocks), walls=walls,
                           columns=columns, passed=passed)  # fmt: skip

    def _total(
        self, name: Text, kind: str, own: Number, own_lifted: Number, above: _Loads, drawn: Sequence[_Loads]
    ) -> MemberTotal:
        slabs, slabs_imposed = self.shares.dead.total(name), self.shares.imposed.total(name)
        attached, attached_imposed = self.attached.dead.total(name), self.attached.imposed.total(name)
        beams = _sum_by_name([loads.dead for loads in drawn], name)
        beams_imposed = _sum_by_name([loads.imposed for loads in drawn], name)
        from_above, above_imposed = above.dead.total(name), above.imposed.total(name)
        dead = own + slabs + attached + beams + from_above
        imposed = slabs_imposed + attached_imposed + beams_imposed + above_imposed
        slabs_lifted, attached_lifted = self.shares.lifted.total(name), self.attached.lifted.total(name)
        beams_lifted, above_lifted = _sum_by_name([loads.lifted for loads in drawn], name), above.lifted.total(name)
        return MemberTotal(
            name=name, kind=kind, own=own, slabs=slabs, attached=attached, beams=beams, above=from_above, dead=dead,
            slabs_imposed=slabs_imposed, attached_imposed=attached_imposed, beams_imposed=beams_imposed,
            above_imposed=above_imposed, imposed=imposed, service=dead + imposed, own_lifted=own_lifted,
            slabs_lifted=slabs_lifted, attached_lifted=attached_lifted, beams_lifted=beams_lifted,
            above_lifted=above_lifted, lifted=own_lifted + slabs_lifted + attached_lifted + beams_lifted + above_lifted,
        )  # fmt: skip

    def _fraction(self, passed: Passed, measure: str, load: Number) -> Number:
        """All of it where the upper member stands here whole, else as worked out at issue."""
        return fixed(1.0, self.like) if passed.full else at_issue(getattr(passed, measure), load)

    def _passed_rows(self, totals: Sequence[MemberTotal]) -> Iterable[PassedRow]:
        names = [row.name for row in totals]
        loads = _Loads(names, totals)
        known = {text_of(name) for name in names}
        for passed in self.sharing.passed:
            if passed.upper not in known:
                continue
            upper = Name(passed.upper)
            dead, imposed, lifted = (getattr(loads, measure).at(upper) for measure in ("dead", "imposed", "lifted"))
            parts = {
                "dead": self._fraction(passed, "dead", dead),
                "imposed": self._fraction(passed, "imposed", imposed),
                "lifted": self._fraction(passed, "lifted", lifted),
            }
            yield PassedRow(
                upper=upper, lower=Name(passed.lower), through=passed.through, upper_dead=dead,
                upper_imposed=imposed, upper_lifted=lifted, fraction_dead=parts["dead"],
                fraction_imposed=parts["imposed"], fraction_lifted=parts["lifted"], dead=parts["dead"] * dead,
                imposed=parts["imposed"] * imposed, lifted=parts["lifted"] * lifted,
            )  # fmt: skip

    # ------------------------------------------------------------------------------------------ beams

    def _drawn_rows(self, totals: Sequence[MemberTotal]) -> Iterable[DrawnRow]:
        loads = _Loads([row.name for row in totals], totals)
        names = [row.name for row in self.own.beam_lines]
        lines = {key: Filed(names, [getattr(row, key) for row in self.own.beam_lines])
                 for key in ("x_start", "y_start", "dx", "dy", "length")}  # fmt: skip
        known = {text_of(row.name) for row in totals}
        by_beam: dict[str, list[Drawn]] = {}
        for drawn in self.sharing.drawn:
            by_beam.setdefault(text_of(drawn.rest.beam), []).append(drawn)
        for name, group in by_beam.items():
            if name not in known:
                continue
            starts = [self._support(drawn.rest, lines) for drawn in group]
            for order, (drawn, place) in enumerate(zip(group, starts, strict=True)):
                beam = place["beam"]
                length = place["beam_length"]
                # The outermost supports carry to the ends of the beam.
                before = starts[order - 1]["at"] if order else None
                after = starts[order + 1]["at"] if order + 1 < len(group) else None
                start = fixed(0.0, self.like, self.like) if before is None else (before + place["at"]) / 2
                end = lines["length"].at(beam) if after is None else (place["at"] + after) / 2
                yield self._drawn_row(drawn, place, start, end, length, loads)

    def _support(self, rest: Rest, lines: dict[str, Filed]) -> dict[str, Any]:
        """Where a support stands: live where it is a grid point, else as worked out at issue."""
        beam = Name(rest.beam)
        x_beam, y_beam = lines["x_start"].at(beam), lines["y_start"].at(beam)
        letter, number = (rest.point.letter, rest.point.number) if rest.point else ("-", "-")
        line, cross = Name(letter), Name(number)
        if rest.point is None:
            x, y = self.plan.members[rest.beam].at(rest.at)
            x, y = at_issue(x, x_beam, like=x_beam), at_issue(y, y_beam, like=y_beam)
        else:
            x, y = self.xs.at(line), self.ys.at(cross)
        dx, dy, length = (lines[key].at(beam) for key in ("dx", "dy", "length"))
        # Along the beam, not from its end straight to the support: a column may stand beside the centre line.
        at = ((x - x_beam) * dx + (y - y_beam) * dy) / length
        return {"beam": beam, "letter": line, "number": cross, "x_beam": x_beam, "y_beam": y_beam, "dx": dx, "dy": dy,
                "x": x, "y": y, "at": at, "beam_length": length}  # fmt: skip

    def _drawn_row(
        self, drawn: Drawn, place: dict[str, Any], start: Number, end: Number, length: Number, loads: _Loads
    ) -> DrawnRow:
        beam = place["beam"]
        dead, imposed, lifted = (getattr(loads, measure).at(beam) for measure in ("dead", "imposed", "lifted"))
        if drawn.even:
            parts = [(end - start) / length for _ in range(3)]
        else:
            parts = [at_issue(drawn.dead, dead, length), at_issue(drawn.imposed, imposed, length),
                     at_issue(drawn.lifted, lifted, length)]  # fmt: skip
        return DrawnRow(
            **place,
            support=Name(drawn.rest.support),
            start=start,
            end=end,
            beam_dead=dead,
            beam_imposed=imposed,
            beam_lifted=lifted,
            fraction_dead=parts[0],
            fraction_imposed=parts[1],
            fraction_lifted=parts[2],
            dead=parts[0] * dead,
            imposed=parts[1] * imposed,
            lifted=parts[2] * lifted,
        )

    # ------------------------------------------------------------------------------------------ at the cut level

    def bases(self, ground: StoreyBlock) -> tuple[tuple[FootingRow, ...], tuple[BaseRow, ...]]:
        """Footings, and every ground wall and column at the cut level."""
        allow = self.allow
        surveyed = [
            FootingRow(label=f.label, plinth_thickness=f.plinth_thickness, plinth_height=f.plinth_height,
                       width=f.width, depth=f.depth, thickness=f.thickness, material=f.material,
                       unit_weight=self.weights.at(f.material))
            for f in self.survey.footings
        ]  # fmt: skip
        concrete = Name("Plain concrete")
        assumed = FootingRow(
            label=NOT_SURVEYED, plinth_thickness=allow.plinth_thickness, plinth_height=allow.plinth_height,
            width=allow.footing_width, depth=allow.footing_depth, thickness=allow.footing_thickness, material=concrete,
            unit_weight=self.weights.at(concrete),
        )  # fmt: skip
        footings = (*surveyed, assumed)
        labels = [row.label for row in footings]
        wanted = ("plinth_thickness", "plinth_height", "width", "thickness", "unit_weight")
        self.footing = {item: Filed(labels, [getattr(row, item) for row in footings]) for item in wanted}
        self.footing_of = {member: text_of(f.label) for f in self.survey.footings for member in f.members}
        return footings, tuple(self._ground(ground))

    def _ground(self, ground: StoreyBlock) -> Iterable[BaseRow]:
        """Every ground wall, then every ground column."""
        groups = ((kind, rows) for kind, rows in (("wall", ground.walls), ("column", ground.columns)) if rows)
        loads = {kind: _Loads([row.name for row in rows], rows) for kind, rows in groups}
        for kind, rows in (("wall", ground.walls), ("column", ground.columns)):
            for row in rows:
                yield self._base(Name(text_of(row.name)), kind, list(loads.values()))

    def _base(self, name: Name, kind: str, loads: Sequence[_Loads]) -> BaseRow:
        label, member = Name(self.footing_of.get(name, NOT_SURVEYED)), fixed(kind, self.like)
        is_wall = same(member, "wall")
        length, masonry = self.member["length"].at(name), self.member["unit_weight"].at(name)
        height, cut = self.footing["plinth_height"].at(label), self.survey.job.cut_level.value
        left = height + cut
        # A pillar goes down to its footing with its own section; only walls widen to a plinth.
        footing_plinth = self.footing["plinth_thickness"].at(label)
        across = where(is_wall, footing_plinth, self.member["across"].at(name))
        # Under a wall that stays or is rebuilt the plinth above the cut is not lifted either, but it stands there.
        up = self.member["goes_up"].at(name)
        band = prism_weight(length, across, 0 - cut, masonry)
        dead = _sum_by_name([load.dead for load in loads], name) + band
        imposed = _sum_by_name([load.imposed for load in loads], name)
        lifted = _sum_by_name([load.lifted for load in loads], name) + band * up
        plinth = prism_weight(length, across, left, masonry)
        width, thickness = self.footing["width"].at(label), self.footing["thickness"].at(label)
        footing_weight = self.footing["unit_weight"].at(label)
        below = prism_weight(where(is_wall, length, width), width, thickness, footing_weight)
        return BaseRow(
            name=name,
            kind=kind,
            member=member,
            footing=label,
            length=length,
            footing_plinth=footing_plinth,
            plinth_thickness=across,
            plinth_left=left,
            cut_band=band,
            goes_up=up,
            dead=dead,
            imposed=imposed,
            service=dead + imposed,
            lifted=lifted,
            line_service=(dead + imposed) / length,
            line_lifted=lifted / length,
            width=width,
            footing_thickness=thickness,
            masonry=masonry,
            footing_unit_weight=footing_weight,
            plinth_height=height,
            plinth=plinth,
            footing_weight=below,
            stays=plinth + below,
        )

    def house(self, bases: Sequence[BaseRow]) -> tuple[HouseTotals, tuple[CentreRow, ...], tuple[WentIn, ...]]:
        """The house as a whole: totals, balance, centre; and the rows its centre comes from."""
        own = self.own
        bands = total([row.cut_band for row in bases])
        dead, imposed = total([row.dead for row in bases]), total([row.imposed for row in bases])
        lifted, stays = total([row.lifted for row in bases]), total([row.stays for row in bases])
        inputs = tuple(_went_in(own, bands))
        went_in = total([row.load for row in inputs])
        area = total([row.area for row in own.rooms])
        parts = tuple(centre_rows(self.plan, own, bases, self.survey.job.cut_level.value))
        weight = total([part.lifted for part in parts])
        house = HouseTotals(
            dead=dead, imposed=imposed, service=dead + imposed, lifted=lifted, stays=stays, went_in=went_in,
            balance=dead + imposed - went_in, lifted_parts=weight, centre_balance=weight - lifted,
            x=total([part.moment_x for part in parts]) / weight, y=total([part.moment_y for part in parts]) / weight,
            z=total([part.moment_z for part in parts]) / weight, floor_area=area,
        )  # fmt: skip
        return house, parts, inputs


def _sum_by_name(columns: Sequence[Filed], name: Text) -> Number:
    result: Number = 0.0
    for order, column in enumerate(columns):
        part = column.total(name)
        result = part if order == 0 else result + part
    return result


def _went_in(own: OwnLoads, bands: Number) -> Iterable[WentIn]:
    yield WentIn(what="plinth lifted", load=bands)
    groups: tuple[tuple[str, Sequence[Any]], ...] = (
        ("walls", own.walls), ("slabs and roofs", own.shares), ("beams", own.beams), ("columns", own.columns),
        ("attached things", own.attached),
    )  # fmt: skip
    for what, rows in groups:
        yield WentIn(what=f"{what}, dead", load=total([row.dead for row in rows]))
    for what, rows in groups:
        if what in ("slabs and roofs", "attached things"):
            yield WentIn(what=f"{what}, imposed", load=total([row.imposed for row in rows]))


def _filed_sums(own: OwnLoads, parts: Sequence[AttachedPart], blocks: Sequence[StoreyBlock]) -> Iterable[FiledSum]:
    """Each relation by name, added up from both ends."""
    members = [row for block in blocks for row in (*sum(block.beams, ()), *block.walls, *block.columns)]
    yield _filed_sum("Openings in walls", [row.change for row in own.openings], [row.openings for row in own.walls])
    yield _filed_sum("Slab loads", [row.dead for row in own.shares], [row.slabs for row in members])
    yield _filed_sum("Imposed slab loads", [row.imposed for row in own.shares], [row.slabs_imposed for row in members])
    yield _filed_sum("Attached things", [row.dead for row in own.attached], [row.dead for row in parts])
    yield _filed_sum("Parts of attached things", [row.dead for row in parts], [row.attached for row in members])
    drawn = [row.dead for block in blocks for rows in block.drawn for row in rows]
    yield _filed_sum("Loads of beams", drawn, [row.beams for row in members])
    passed = [row.dead for block in blocks for row in block.passed]
    yield _filed_sum("Loads from above", passed, [row.above for row in members])


def _filed_sum(what: str, filed: Sequence[Number], found: Sequence[Number]) -> FiledSum:
    into, out = total(filed), total(found)
    return FiledSum(what=what, filed=into, found=out, gap=into - out)
