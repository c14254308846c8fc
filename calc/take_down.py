"""Load take-down: everything passed down, storey by storey, to the ground walls and columns.

Covers   totals of every wall, beam and column; what is lifted apart from what stays below the cut level; the house
         total, its centre, and the balance of what went in with what comes out.
Not      own loads (own_loads) and the fractions no formula gives (sharing).
Signs    weight positive downward.
Units    in each field.
Sources  statics. Equilibrium is checked on each run: `went_in` against what the ground walls and columns carry.
"""

from collections.abc import Iterable, Sequence
from typing import Any

from calc.allowances import Allowances
from calc.centre import CentreRow, centre_rows
from calc.number import Filed, Name, Number, Text, at_issue, fixed, same, text_of, total, value_of, where
from calc.own_loads import FREE
from calc.own_rows import OwnLoads
from calc.plan_rows import Plan, Rest
from calc.sharing import Drawn, Passed, Sharing
from calc.survey import Survey
from calc.take_down_rows import (
    NOT_SURVEYED,
    AttachedPart,
    BaseRow,
    DrawnRow,
    FiledSum,
    FootingRow,
    HouseTotals,
    MemberTotal,
    PassedRow,
    StoreyBlock,
    TakeDown,
    WentIn,
)
from calc.walls import prism_weight


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
