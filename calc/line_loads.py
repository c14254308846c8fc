"""Loads along a straight member: linear pieces and points, on floats.

Covers   adding, cutting, shifting, resultants, the share a support draws by the lever rule, greatest line load.
Not      bending of the member on its supports.
Signs    load positive downward; distances from the member's From point.
Units    m, kN, kN/m.
Sources  statics.
"""

from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from itertools import pairwise


@dataclass(frozen=True, slots=True)
class Ramp:
    """A load that runs straight from `first` [kN/m] at `start` to `last` [kN/m] at `end` [m]."""

    start: float
    end: float
    first: float
    last: float

    @property
    def total(self) -> float:
        """Its resultant [kN]."""
        return (self.end - self.start) * (self.first + self.last) / 2

    @property
    def moment(self) -> float:
        """Its moment about distance 0 [kN m]."""
        length = self.end - self.start
        return self.total * self.start + length**2 * (self.first + 2 * self.last) / 6

    def at(self, distance: float) -> float:
        """Load at a distance inside it [kN/m]."""
        length = self.end - self.start
        return self.first + (self.last - self.first) * (distance - self.start) / length if length else self.first

    def cut(self, start: float, end: float) -> "Ramp | None":
        """The part between two distances, or None where there is none."""
        low, high = max(start, self.start), min(end, self.end)
        return Ramp(low, high, self.at(low), self.at(high)) if high > low else None


@dataclass(slots=True)
class LineLoad:
    """All of one kind of load on one member. Grown while loads are handed down, then only read."""

    ramps: list[Ramp] = field(default_factory=list)
    points: list[tuple[float, float]] = field(default_factory=list)

    def spread(self, load: float, start: float, end: float) -> None:
        """Add `load` [kN] evenly from `start` to `end`, or as a point where they are one."""
        if end - start > 1e-9:
            self.ramps.append(Ramp(start, end, load / (end - start), load / (end - start)))
        elif load:
            self.points.append((start, load))

    def ramp(self, start: float, end: float, first: float, last: float) -> None:
        """Add a load that runs straight from `first` to `last` [kN/m]."""
        if end > start:
            self.ramps.append(Ramp(start, end, first, last))

    def point(self, at: float, load: float) -> None:
        """Add a point load [kN]."""
        if load:
            self.points.append((at, load))

    @property
    def total(self) -> float:
        """Its resultant [kN]."""
        return sum(ramp.total for ramp in self.ramps) + sum(load for _, load in self.points)

    @property
    def moment(self) -> float:
        """Its moment about distance 0 [kN m]."""
        return sum(ramp.moment for ramp in self.ramps) + sum(at * load for at, load in self.points)

    def part(self, start: float, end: float, length: float) -> "LineLoad":
        """What lies from `start` to `end`; a point on the border between two parts goes to the later one."""
        ramps = [cut for ramp in self.ramps if (cut := ramp.cut(start, end))]
        last = end >= length - 1e-9
        points = [(at, load) for at, load in self.points if start - 1e-9 <= at and (at < end - 1e-9 or last)]
        return LineLoad(ramps, points)

    def add_mapped(
        self, other: "LineLoad", origin: float, direction: float, length: float, factor: float = 1.0
    ) -> None:
        """Add `other` as it falls on this member of `length`: its distance d lies at origin + direction * d.

        What falls beyond an end is put on that end: a slab may reach past the centre line of the wall it ends on.
        """
        for ramp in other.ramps:
            a, b = origin + direction * ramp.start, origin + direction * ramp.end
            first, last = ramp.first * factor, ramp.last * factor
            mapped = Ramp(a, b, first, last) if a < b else Ramp(b, a, last, first)
            inside = mapped.cut(0.0, length)
            if inside:
                self.ramps.append(inside)
            for end, beyond in ((0.0, mapped.cut(min(a, b), 0.0)), (length, mapped.cut(length, max(a, b)))):
                if beyond:
                    self.point(end, beyond.total)
        for at, load in other.points:
            self.point(min(max(origin + direction * at, 0.0), length), load * factor)

    def bridged(self, start: float, end: float) -> "LineLoad":
        """The same load with what lies between two distances carried to both of them, as over an opening left open."""
        over = LineLoad([cut for ramp in self.ramps if (cut := ramp.cut(start, end))],
                        [(at, load) for at, load in self.points if start < at < end])  # fmt: skip
        beside = [cut for ramp in self.ramps for cut in (ramp.cut(ramp.start, start), ramp.cut(end, ramp.end)) if cut]
        kept = LineLoad(beside, [(at, load) for at, load in self.points if not start < at < end])
        at_end = (over.moment - over.total * start) / (end - start)
        kept.point(start, over.total - at_end)
        kept.point(end, at_end)
        return kept

    def greatest(self) -> float:
        """The greatest line load [kN/m], points left out."""
        steps = sorted({edge for ramp in self.ramps for edge in (ramp.start, ramp.end)})
        best = 0.0
        for start, end in pairwise(steps):
            inside = [ramp for ramp in self.ramps if ramp.start <= start and ramp.end >= end]
            best = max(best, sum(ramp.at(start) for ramp in inside), sum(ramp.at(end) for ramp in inside))
        return best

    def heaviest_stretch(self, length: float) -> float:
        """The most that lies on any stretch of a length, points included [kN]."""
        stops = {edge for ramp in self.ramps for edge in (ramp.start, ramp.end)} | {at for at, _ in self.points}
        starts = {max(stop, 0.0) for stop in stops} | {max(stop - length, 0.0) for stop in stops}
        best = 0.0
        for start in starts:
            cuts = (ramp.cut(start, start + length) for ramp in self.ramps)
            even = sum(cut.total for cut in cuts if cut)
            best = max(best, even + sum(load for at, load in self.points if start <= at <= start + length))
        return best

    def is_even(self, length: float) -> bool:
        """Whether it is one even load over the whole member."""
        return not self.points and all(
            ramp.start <= 1e-9 and ramp.end >= length - 1e-9 and abs(ramp.first - ramp.last) <= 1e-9
            for ramp in self.ramps
        )

    def shares_of(self, supports: Sequence[float]) -> list[float]:
        """The load each support draws, each span taken as hinged at its supports [kN].

        What hangs over beyond the first or last support goes to that support; the moment of the overhang is left out.
        """
        drawn = [0.0] * len(supports)
        for load, at in self._lumps(supports):
            right = bisect_right(supports, at)
            if right == 0:
                drawn[0] += load
            elif right == len(supports):
                drawn[-1] += load
            else:
                span = supports[right] - supports[right - 1]
                drawn[right] += load * (at - supports[right - 1]) / span
                drawn[right - 1] += load * (supports[right] - at) / span
        return drawn

    def _lumps(self, supports: Sequence[float]) -> Iterable[tuple[float, float]]:
        """Resultants that lie each within one span, so that the lever rule is exact for them."""
        for at, load in self.points:
            yield load, at
        for ramp in self.ramps:
            stops = [ramp.start, *(s for s in supports if ramp.start < s < ramp.end), ramp.end]
            for start, end in pairwise(stops):
                cut = ramp.cut(start, end)
                if cut and cut.total:
                    yield cut.total, cut.moment / cut.total
