"""Hydraulic circuits of a lift: which jacks share a pressure, what each circuit carries, and what losing one means.

Covers   the exact best grouping of jacks into three or more circuits, its margin of stability, force and oil pressure
         of each circuit, the state after any one circuit is lost.
Not      what wall and beam must pass on between jacks of one circuit, hoses and pumps, stiffness of the ground: forces
         of more than three circuits depend on it, and are those that lie nearest the tributary loads and balance.
Signs    x east, y north; loads downward and forces upward are both positive.
Units    m, m2, kN, kN/m2.
Sources  statics. A circuit has one pressure, so it holds the house up at one place only, the middle of its pistons, and
         turns freely about it: two circuits or one cannot hold a house level, whatever the pressures. The least share
         of a circuit and the distance to an edge are arguments; their usual figures are common practice, no source.

Best is meant among all circuits that are runs of neighbours round the load centre; how it is found: circuit_search.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calc.circuit_balance import Place, centre_of, edge_distances, hull, least_width, nearest_balanced
from calc.circuit_bands import load_bands
from calc.circuit_search import PlacedJack, RingSearch
from calc.errors import NothingFits, require
from calc.fields import note, quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class SteeringRules:
    """What a grouping must keep."""

    least_share: float = quantity("-", "least share of the house on any one circuit")
    edge_distance: float = quantity("-", "load centre from every edge, over half the width of the jacks on plan")


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit:
    """Jacks on one pressure."""

    name: str = note("C1, C2 ... round the load centre")
    jacks: tuple[str, ...] = note("marks of its jacks, round the load centre")
    x: float = quantity("m", "middle of its pistons, east")
    y: float = quantity("m", "middle of its pistons, north")
    tributary: float = quantity("kN", "tributary loads of its jacks")
    force: float = quantity("kN", "what it carries")
    share: float = quantity("-", "of the house")
    pressure: float = quantity("kN/m2", "of its oil")
    deviation: float = quantity("-", "greatest difference of a jack's force from its tributary load, over that load")


@dataclass(frozen=True, slots=True, kw_only=True)
class LostCircuit:
    """The house after one circuit has let go."""

    name: str = note("circuit that is lost")
    stands: bool = note("whether the others hold the house by themselves, with the margin asked for")
    margin: float = quantity("m", "load centre inside the others, less than 0 where it is outside or they are two")
    to_packing: float = quantity("kN", "load its packing or lock nuts take where the others do not hold the house")
    on_one_jack: float = quantity("kN", "greatest of that under one jack")
    greatest_force: float = quantity("kN", "greatest load on a circuit that is left")
    greatest_rise: float = quantity("-", "greatest load on a circuit that is left, over what it carried before")
    bare: tuple[str, ...] = ()
    """Walls and columns of which a jack line loses more than one jack, or its last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steering:
    """The circuits of one house."""

    circuits: tuple[Circuit, ...]
    lost: tuple[LostCircuit, ...]
    load: float = quantity("kN", "of the house")
    x: float = quantity("m", "load centre, east")
    y: float = quantity("m", "load centre, north")
    spread: float = quantity("kN", "root of the mean square of what tributary loads differ from the jacks' even share")
    least_share: float = quantity("-", "least share of the house on one circuit")
    margin: float = quantity("m", "load centre from the nearest edge between circuits")
    residual: float = quantity("kN", "what the forces miss of the load")
    residual_moment: float = quantity("kN m", "what they miss of its moments about the load centre")


def circuits(jacks: Sequence[PlacedJack], count: int, rules: SteeringRules) -> Steering:
    """The best grouping of jacks into circuits: tributary loads as even as they can be within each, margin kept.

    Of groupings that are equally even the one with the greatest least share is taken, or the first whose least share
    comes near an even one.

    Args:
        jacks: every jack with its tributary load
        count: circuits, three or more [No]
        rules: what the grouping must keep

    Raises:
        DomainError: fewer than three circuits, fewer jacks than circuits, a load or piston that is not more than 0,
            jacks in one line, or the load centre not within them
        NothingFits: no grouping keeps the rules

    >>> square = [PlacedJack(name=f"J{k}", x=x, y=y, load=40.0 + k, piston=0.004)
    ...           for k, (x, y) in enumerate([(0, 0), (3, 0), (6, 0), (6, 4), (3, 4), (0, 4)])]
    >>> found = circuits(square, 3, SteeringRules(least_share=0.2, edge_distance=0.25))
    >>> [circuit.jacks for circuit in found.circuits]
    [('J0', 'J1'), ('J2', 'J3'), ('J4', 'J5')]
    """
    require("number of circuits", count, "No", "be at least", 3)
    require("number of jacks", len(jacks), "No", "be at least", count)
    for jack in jacks:
        require(f"load of {jack.name}", jack.load, "kN", "be more than", 0.0)
        require(f"piston of {jack.name}", jack.piston, "m2", "be more than", 0.0)
    centre = centre_of([((jack.x, jack.y), jack.load) for jack in jacks])
    margin = _margin_asked(jacks, centre, rules)
    search = RingSearch(jacks, count, centre, rules.least_share, margin)
    groups = search.best()
    if not groups:
        raise NothingFits(f"grouping into {count} circuits that keeps the margin", rules.least_share, search.share, "-")
    return _steering(groups, centre, rules, margin)


def banded_circuits(jacks: Sequence[PlacedJack], bands: int, rules: SteeringRules) -> Steering:
    """Three zones round the load centre, each split into bands of like load: a circuit for each band of each zone.

    Where loads differ much from jack to jack, three pressures cannot suit them all; bands bring the forces nearer to
    what the jacks draw while the zones keep the house stable.

    Args:
        jacks: every jack with its tributary load
        bands: in each zone [No]
        rules: what the three zones must keep

    Raises:
        DomainError: as for circuits, or fewer jacks in a zone than bands
        NothingFits: no three zones keep the rules

    >>> loads = (10.0, 40.0, 12.0, 41.0, 11.0, 44.0)
    >>> places = [(0, 0), (1, 0), (6, 0), (5, 0), (3, 5), (3, 4)]
    >>> six = [PlacedJack(name=f"J{k}", x=x, y=y, load=load, piston=0.004)
    ...        for k, ((x, y), load) in enumerate(zip(places, loads))]
    >>> found = banded_circuits(six, 2, SteeringRules(least_share=0.2, edge_distance=0.25))
    >>> sorted(circuit.jacks for circuit in found.circuits)
    [('J0',), ('J1',), ('J2',), ('J3',), ('J4',), ('J5',)]
    """
    zones = circuits(jacks, 3, rules)
    known = {jack.name: jack for jack in jacks}
    groups = [band for zone in zones.circuits for band in load_bands([known[name] for name in zone.jacks], bands)]
    centre = centre_of([((jack.x, jack.y), jack.load) for jack in jacks])
    return _steering(groups, centre, rules, _margin_asked(jacks, centre, rules))


def _margin_asked(jacks: Sequence[PlacedJack], centre: Place, rules: SteeringRules) -> float:
    """Distance asked of the load centre from every edge; no circuits can give it where the jacks themselves do not."""
    corners = hull([(jack.x, jack.y) for jack in jacks])
    size = max(math.dist(a, b) for a in corners for b in corners)
    width = least_width(corners)
    # A millionth of the length of a row is rounding, not a width.
    require("width of the jacks on plan", width, "m", "be more than", size / 1e6)
    margin = rules.edge_distance * width / 2
    require(
        "distance of the load centre inside the jacks", min(edge_distances(corners, centre)), "m", "be more than", 0
    )
    return margin


def _steering(groups: Sequence[Sequence[PlacedJack]], centre: Place, rules: SteeringRules, asked: float) -> Steering:
    places = [centre_of([((jack.x, jack.y), jack.piston) for jack in group]) for group in groups]
    pistons = [math.fsum(jack.piston for jack in group) for group in groups]
    loads = [math.fsum(jack.load for jack in group) for group in groups]
    house = math.fsum(loads)
    forces = nearest_balanced(places, loads, pistons, house, centre)
    found = [_circuit(k, *each, house) for k, each in enumerate(zip(groups, places, pistons, forces, strict=True), 1)]
    even = [(jack.load, jack.piston * load / piston)
            for group, load, piston in zip(groups, loads, pistons, strict=True) for jack in group]  # fmt: skip
    east = math.fsum(force * (x - centre[0]) for force, (x, _) in zip(forces, places, strict=True))
    north = math.fsum(force * (y - centre[1]) for force, (_, y) in zip(forces, places, strict=True))
    return Steering(
        circuits=tuple(found),
        lost=tuple(_lost(k, found, pistons, groups, centre, rules, asked) for k in range(len(found))),
        load=house, x=centre[0], y=centre[1],
        spread=math.sqrt(math.fsum((load - share) ** 2 for load, share in even) / len(even)),
        least_share=min(circuit.share for circuit in found),
        margin=min(edge_distances(hull(places), centre)),
        residual=abs(math.fsum(forces) - house), residual_moment=math.hypot(east, north),
    )  # fmt: skip


def _circuit(
    order: int, group: Sequence[PlacedJack], place: Place, piston: float, force: float, house: float
) -> Circuit:
    pressure = force / piston
    return Circuit(
        name=f"C{order}", jacks=tuple(jack.name for jack in group), x=place[0], y=place[1],
        tributary=math.fsum(jack.load for jack in group), force=force, share=force / house, pressure=pressure,
        deviation=max(abs(pressure * jack.piston / jack.load - 1) for jack in group),
    )  # fmt: skip


def _lost(
    lost: int, found: Sequence[Circuit], pistons: Sequence[float], groups: Sequence[Sequence[PlacedJack]],
    centre: Place, rules: SteeringRules, asked: float,
) -> LostCircuit:  # fmt: skip
    """What is left without one circuit: three or more others may hold the house, two cannot."""
    left = [k for k in range(len(found)) if k != lost]
    places, house = [(found[k].x, found[k].y) for k in left], math.fsum(circuit.force for circuit in found)
    margin = min(edge_distances(hull(places), centre))
    forces = [found[k].force for k in left]
    stands = False
    if margin > 0.0:
        forces = nearest_balanced(places, [found[k].tributary for k in left], [pistons[k] for k in left], house, centre)
        # Of many small circuits none can have the share that is asked of three or four: there all must push.
        asked_share = rules.least_share if rules.least_share * len(left) < 1 else 0.0
        stands = margin >= asked and min(forces) / house > 0 and min(forces) / house >= asked_share
    down = 0.0 if stands else found[lost].force
    if not stands:  # the packing takes over at once, and the others carry what they carried
        forces = [found[k].force for k in left]
    biggest = max(jack.piston for jack in groups[lost]) / pistons[lost]
    return LostCircuit(
        name=found[lost].name, stands=stands, margin=margin, to_packing=down, on_one_jack=down * biggest,
        greatest_force=max(forces),
        greatest_rise=max(force / found[k].force for force, k in zip(forces, left, strict=True)),
    )  # fmt: skip
