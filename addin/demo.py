"""The demo house: one invented survey, filled in as an estimator would leave it after a visit of two hours.

Covers   a brick house of two rooms' depth with a verandah, an L-shaped living room and two rooms upstairs; levels,
         site, ground, cracks, store, rates and crew; entries typed with units, and a few things nobody could see.
Not      a real house, place, client or price: all of it is invented. What the entries mean is in layout.
Signs    x east along letters from the west wall, y north along numbers from the verandah's edge beam.
Units    each number in its column's unit, text with its own: `9 in`.
Sources  rates are invented for the demo; the usual price of the raising alone is common practice, no source.

    python -m addin.demo    writes templates/demo.xlsx
"""

from collections.abc import Iterable
from datetime import date
from pathlib import Path

from addin import tables
from addin.files import write_atomically
from addin.survey_book import Value, survey_bytes

DEMO = Path(__file__).resolve().parents[1] / "templates" / "demo.xlsx"

RATE_NOTE = "invented for the demo"

RATES: dict[str, float] = {
    "P01": 3500, "P02": 2800,
    "S01": 550, "S02": 40, "S03": 35, "S04": 850,
    "T01": 560, "T02": 90, "T03": 320,
    "D01": 450, "D02": 320, "D03": 6200, "D04": 160,
    # Carrier beams are the firm's own or hired and go back: the rate is for use, carriage and handling.
    "J01": 380, "J02": 360, "J03": 14, "J04": 46,
    "R01": 6500, "R02": 9800, "R03": 190, "R04": 12500, "R05": 6800, "R06": 310,
    "F01": 140, "F02": 445, "F03": 1350, "F04": 5200, "F05": 680,
    "M01": 220, "M02": 240, "M03": 160, "M04": 120, "M05": 310,
    "O01": 800, "O02": 750, "O03": 540,
}  # fmt: skip
"""Rupees per unit of each item of work, overheads and profit not in them."""

_USUAL_PRICE = (
    "{} rupees per square foot for the raising alone, about {} per m2: common practice, no source; "
    "masonry, floors and outside works, {} per m2: invented for the demo"
)

_JOB: dict[str, Value] = {
    "job_name": "House at the bend",
    "client": "Orsel Vanti",
    "place": "Kelmara Bend (invented)",
    "survey_date": date(2026, 1, 14),
    "reason": "flooding",
    "cut_level": -0.15,
    "construction": "brick walls",
    "year_built": 1994,
    "condition": "fair",
    "empty": "yes",
    "wind_speed": 39,
    "terrain": "scattered houses",
    "jack_rating": 200,
    "bearing": 150,
    "bearing_from": "soil name",
    "instrument": "rod and rule at every jack with optical level",
    "beams_left_in": "no",
    "beams_known": "unknown",
    "transfer_age": 14,
    "neighbours": "unknown",
    "services": 5,
    "currency": "rupees",
    "contingency": 5,
    "tax": 5,
    "rebuild_rate": 21000,
    "rent": 9000,
    "price_date": date(2026, 1, 20),
}


def _table(keys: str, *rows: tuple[Value, ...]) -> list[dict[str, Value]]:
    """Rows by column key; None is a blank and left out, and so is what a short row leaves off."""
    names = keys.split()
    return [{key: value for key, value in zip(names, row, strict=False) if value is not None} for row in rows]


def demo_job() -> dict[str, Value]:
    """Entries of the Job sheet by key. Plinth, road, flood and rise are blank: they come from the Levels sheet."""
    return dict(_JOB)


def demo_rows() -> dict[str, list[dict[str, Value]]]:
    """Rows by sheet title, values by column key.

    Raises:
        ValueError: the list of items of work and the demo's rates do not hold the same codes; names the codes.
    """
    return {
        **_surroundings(),
        "Grid": _grid(),
        "Rooms": _rooms(),
        "Walls": _walls(),
        "Openings": _openings(),
        "Beams": _table(
            "name storey start end breadth depth carries_slab bears_on",
            ("VB", 1, "A1", "E1", 230, "10 in", "yes", ("P1", "P2", "P3", "P4")),
            # Cast under the upper front wall where that crosses the living room; the slab was cast over it later.
            ("B1", 1, "B3", "D3", 230, 350, "no"),
        ),
        "Columns": _table(
            "name storey point breadth depth height concrete bars system",
            *(
                (name, 1, point, 230, 230, 2.3, "M20", bars, "collar or clamp")
                for name, point, bars in (
                    ("P1", "A1", "unknown"),
                    ("P2", "B1", 452),
                    ("P3", "D1", 452),
                    ("P4", "E1", "unknown"),
                )
            ),
        ),
        "Attached": _attached(),
        "Footings": _footings(),
        "Ground": _ground(),
        "Condition": _condition(),
        "Allowances": _table(
            "name value source",
            ("cheap_per_area", 5000, _USUAL_PRICE.format(250, 2700, 2300)),
            ("dear_per_area", 7000, _USUAL_PRICE.format(350, 3800, 3200)),
            # Mortar of inner walls is unknown: neighbours may differ by 1 mm only, and 1 mm would not be seen.
            ("rod_error", 0.0005, "steel rules read to half a millimetre, tried out: invented for the demo"),
            # A jack of 285 mm closed goes in under the deepest carrier beam.
            ("below_cut", 0.71, "closed height of the jacks and depth of the beams: invented for the demo"),
        ),
        "Kit": _kit(),
        "Rates": _rates(tables.items()),
        "Crew": _crew(),
    }


def demo_bytes() -> bytes:
    """The filled survey workbook as a file's content, the same bytes every time."""
    return survey_bytes(demo_rows(), demo_job(), examples=False)


def _surroundings() -> dict[str, list[dict[str, Value]]]:
    """What stands near the house, and the levels: readings on one datum, the bench mark being 10.000."""
    return {
        "Site": _table(
            "kind what distance depth note",
            ("septic tank", "behind the bath, covered", 2.2, "6 ft", "Full at the visit; empty it before digging"),
            ("tree", "coconut palm, west side", 3.1, None, "Leans away from the house"),
            ("overhead line", "service line, east parapet", 1.8, None, "Has to come down or be lengthened"),
            ("neighbour", "single storey, east side", 3.4, "unknown", "His footings were not seen"),
            ("gate width", "from the road", 2.7, None, "A small tipper passes, a lorry does not"),
            ("machine reach", "front and west side only", 6, None, "Back is reached by hand"),
            ("stacking room", "front yard", 8, None, "About 40 m2"),
            ("sump", "front yard, west corner", 4.5, 1.5, "Dry"),
            ("water", "bore well of the house", 5, "unknown", "Brackish in summer; tank water for concrete"),
            ("power", "single phase, meter on the verandah", 0, None, None),
        ),
        "Levels": _table(
            "point what level note",
            ("BM", "bench mark", 10.0, "Top of the culvert's parapet, taken as 10.000"),
            ("Living", "floor", 9.97), ("Kitchen", "floor", 9.96), ("Bed 1", "floor", 9.98), ("Bed 2", "floor", 9.97),
            ("A1", "ground", 9.66), ("E1", "ground", 9.65), ("E5", "ground", 9.62), ("A5", "ground", 9.63),
            ("Gate", "road", 9.99, "Crown, after the last surfacing"), ("10 m east", "road", 10.01),
            ("Kitchen wall", "flood mark", 10.66, "Silt line of the last flood, 0.69 m above floor"),
            ("Gate post", "flood mark", 10.64, "Same flood; the neighbour confirms it"),
        ),
        "Tapes": _table(
            "start end length",
            ("A2", "E2", 9.73), ("A1", "A5", "28' 6 1/2\""), ("B3", "D3", 2.9),
            ("A2", "E5", 11.87), ("E2", "A5", 11.88),
        ),
    }  # fmt: skip


def _grid() -> list[dict[str, Value]]:
    """Letters as taped inside the rooms, clear sizes and walls; numbers as offsets from the verandah's edge beam."""
    return _table(
        "name offset clear wall note",
        ("A", 0, None, 230, "West wall"),
        ("B", None, "10' 5\"", 230, "Kitchen and recess"),
        ("C", None, 1.6, 115, "Partition between bath and closet"),
        ("D", None, 0.95, 230, "Spine wall"),
        ("E", None, "10' 6\"", 230, "East wall"),
        ("1", 0, None, None, "Edge beam of the verandah"),
        ("2", 1.9, None, None, "Front wall"),
        ("3", 5.5, None, None, "Middle wall"),
        ("4", 6.85, None, None, "Bath"),
        ("5", 8.7, None, None, "Back wall"),
    )


def _rooms() -> list[dict[str, Value]]:
    living = ("A2", "D2", "D4", "B4", "B3", "A3")
    # The recess of the living room lies under the study, so its whole slab is taken with a room's load.
    return _table(
        "name storey corner opposite outline use above slab soffit span finish carries floor",
        ("Verandah", 1, "A1", "E2", None, "Verandah", "slab", 110, 2.55, "along numbers", 0.75, "Roof without access",
         "on soil"),
        ("Living", 1, None, None, living, "Dwelling room", "slab", "6 in", None, "auto", 1.5, "Dwelling room",
         "on soil"),
        ("Bed 1", 1, "D2", "E3", None, "Dwelling room", "slab", 125, None, "auto", 1.5, "Roof with access", "on soil"),
        ("Bed 2", 1, "D3", "E5", None, "Dwelling room", "slab", 125, None, "auto", 1.5, "Roof with access", "on soil"),
        ("Kitchen", 1, "A3", "B5", None, "Kitchen", "slab", 125, None, "auto", 1.0, None, "on soil"),
        ("Bath", 1, "B4", "D5", None, "Bathroom", "slab", "unknown", None, "auto", "unknown", None, "tied to wall"),
        ("Upper room", 2, "A3", "B5", None, "Dwelling room", "slab", 120, None, "auto", 1.5, "Roof without access"),
        ("Study", 2, "B3", "D5", None, "Dwelling room", "slab", 120, None, "auto", 1.5, "Roof without access"),
    )  # fmt: skip


def _walls() -> list[dict[str, Value]]:
    keys = "name storey start end thickness height mortar plastered system stands_on"
    outer = ("cement 1:6", 2, "beam through wall", "new pad")
    # The mortar of the inner walls was not raked out.
    inner = ("unknown", 2, "beam through wall", "new pad")
    return _table(
        keys,
        ("W1", 1, "A2", "E2", 230, 3.0, *outer),
        ("W2", 1, "E2", "E5", 230, 3.0, *outer),
        ("W3", 1, "A5", "E5", 230, 3.0, *outer),
        ("W4", 1, "A2", "A5", 230, 3.0, *outer),
        # The pier beside its door carries too much for jacks in one line.
        ("W5", 1, "A3", "B3", 230, 3.0, "unknown", 2, "twin beams and needles", "new pad"),
        ("W6", 1, "B3", "B5", 230, 3.0, *inner),
        ("W7", 1, "B4", "D4", 230, 3.0, *inner),
        ("W8", 1, "D2", "D5", 230, 3.0, *outer),
        ("W9", 1, "D3", "E3", 230, 3.0, *inner),
        ("W10", 1, "C4", "C5", 115, 3.0, "unknown", 2, "unknown", "unknown"),
        # From B to D this wall has no wall under it, only beam B1.
        ("U1", 2, "A3", "D3", "9 in", 2.85, "cement 1:6", 2),
        ("U2", 2, "D3", "D5", "9 in", 2.85, "cement 1:6", 2),
        ("U3", 2, "A5", "D5", "9 in", 2.85, "cement 1:6", 2),
        ("U4", 2, "A3", "A5", "9 in", 2.85, "cement 1:6", 2),
        ("U5", 2, "B3", "B5", "9 in", 2.85, "cement 1:6", 2),
    )


def _openings() -> list[dict[str, Value]]:
    return _table(
        "wall kind from_start width height sill block_up",
        ("W1", "window", 0.75, 1.5, 1.35, 0.9, "yes"),
        ("W1", "door", 3.1, 1.05, 2.1, 0),
        ("W1", "window", 4.75, "4'", "4' 6\"", "3'", "yes"),
        ("W1", "window", 7.25, 1.5, 1.35, 0.9, "yes"),
        ("W2", "window", 0.9, 1.2, 1.35, 0.9, "yes"),
        ("W3", "window", 0.9, 1.2, 1.05, 1.1, "yes"),
        ("W3", "vent", 4.0, 0.6, 0.45, 2.1),
        ("W3", "vent", 5.5, 0.45, 0.45, 2.1),
        ("W3", "window", 7.25, 1.5, 1.35, 0.9),
        ("W4", "window", 1.2, 1.5, 1.35, 0.9, "yes"),
        ("W4", "door", 5.2, 0.8, 2.1, 0),
        ("W5", "door", 1.9, 1.0, 2.1, 0),
        ("W7", "door", 0.4, 0.75, 2.0, 0),
        ("W7", "door", 1.95, 0.7, 2.0, 0, "yes"),
        ("W8", "door", 2.3, 0.9, 2.1, 0),
        ("W8", "door", 3.85, 0.9, 2.1, 0),
        ("U1", "door", 1.2, 0.9, 2.1, 0),
        ("U1", "door", 4.4, 0.9, 2.1, 0),
        ("U2", "window", 0.9, 1.2, 1.2, 0.9),
        ("U3", "window", 1.1, "4'", "4'", 0.9),
        ("U3", "window", 4.2, "4'", "4'", 0.9),
        ("U4", "door", 1.2, 0.9, 2.1, 0),
    )


def _attached() -> list[dict[str, Value]]:
    return _table(
        "name kind on from_start length thickness size weight water material support",
        ("Parapet W1", "parapet", ("W1",), None, None, 115, 0.75, None, None, None, "none"),
        ("Parapet W2", "parapet", ("W2",), None, None, 115, 0.75, None, None, None, "none"),
        ("Parapet W3", "parapet", ("W3",), 6.3, 3.43, 115, 0.75, None, None, None, "none"),
        ("Parapet W4", "parapet", ("W4",), 0, 3.6, 115, 0.75, None, None, None, "none"),
        ("Upstand U1", "parapet", ("U1",), None, None, 115, 0.3, None, None, None, "none"),
        ("Upstand U2", "parapet", ("U2",), None, None, 115, 0.3, None, None, None, "none"),
        ("Upstand U3", "parapet", ("U3",), None, None, 115, 0.3, None, None, None, "none"),
        ("Upstand U4", "parapet", ("U4",), None, None, 115, 0.3, None, None, None, "none"),
        # The balcony of the upper room is cast with the slab on the ground floor's west wall.
        ("Balcony", "balcony", ("W4",), 4.1, 2.4, 110, 1.0, None, None, None, "unknown"),
        ("Stair", "stair", ("W2",), 2.5, 4.2, 200, 0.9, None, None, None, "props"),
        ("Tank", "water tank", ("Study",), None, None, None, 1.1, "0.3 t", 1000, None, "none"),
        ("Sunshade W2", "sunshade", ("W2",), 0.75, 1.5, 75, "18 in", None, None, None, "none"),
        ("Sunshade W3", "sunshade", ("W3",), 7.1, 1.8, 75, "18 in", None, None, None, "none"),
        ("Kitchen slab", "kitchen platform", ("W3",), 0.2, 2.6, 50, 0.6, None, None, None, "taken off"),
    )


def _footings() -> list[dict[str, Value]]:
    keys = "members plinth_thickness plinth_height steps width depth thickness material seen"
    unseen = ("unknown",) * 6
    return _table(
        keys,
        (("W1", "W2", "W3", "W4"), 350, 1.0, 1, "2' 6\"", 0.9, 0.2, "Plain concrete", "yes"),
        (("W8",), 350, 1.0, 1, 0.75, 0.9, 0.2, "Plain concrete", "yes"),
        (("W5", "W6", "W7", "W9", "W10"), *unseen, None, "no"),
        (("P1", "P2", "P3", "P4"), 230, 0.8, 0, 0.75, 0.75, 0.2, "Plain concrete", "no"),
    )


def _ground() -> list[dict[str, Value]]:
    clay = "Moist clay or sand and clay, indented by strong thumb pressure"
    return _table(
        "where depth soil cohesion friction unit_weight water_depth n_value",
        ("pit 1, outside W4", 0.4, "unknown", None, None, 17, 1.3),
        ("pit 1, outside W4", 1.5, clay, "unknown", "unknown", 18, 1.3, "unknown"),
        ("pit 2, Bed 1 at W8", "1'", "unknown", None, None, 17, "unknown"),
        ("pit 2, Bed 1 at W8", "4' 3\"", clay, "unknown", "unknown", 18, "unknown", "unknown"),
    )


def _condition() -> list[dict[str, Value]]:
    visit = date(2026, 1, 14)
    return _table(
        "what where size size_unit length live method date",
        ("crack", "W4, below living window", 1.5, "mm", 1.3, "live", "gauge card", visit),
        ("crack", "W8, over the door to Bed 2", 0.6, "mm", 0.9, "old", "gauge card", visit),
        ("crack", "U1, along beam B1", 0.4, "mm", 2.6, "unknown", "gauge card", visit),
        ("crack", "W3, below the kitchen window", 0.3, "mm", "2 ft", "old", "gauge card", visit),
        ("damp patch", "W1 and W4, inside", 1.1, "m", None, "old", "by eye", visit),
        ("spalling", "balcony soffit, bars seen", 0.2, "m2", None, "unknown", "by eye", visit),
        ("test", "W2, mortar: firm to a key", "unknown", None, None, None, "by hand", visit),
    )


def _kit() -> list[dict[str, Value]]:
    return _table(
        "name type size rating stroke closed_height number hire last_test",
        ("J20", "jack with lock nut", "20 t class", 200, 150, 285, 24, None, date(2025, 11, 3)),
        ("J20 hired", "jack with lock nut", "20 t class", 200, 150, 285, 60, 45),
        ("S10", "screw jack", None, "10 t", 120, 260, 8, None, date(2025, 8, 21)),
        ("MB 250", "carrier beam", "3 m", None, None, None, 12, 60),
        ("Sleepers", "packing", "250 x 125 x 900", None, None, None, 300),
        ("Plates 12", "packing", "200 x 200 x 12", None, None, None, 160),
        ("Props", "prop", "2.0 to 3.5 m", 20, None, None, 30, 6),
        ("Cribs", "crib", "0.9 x 0.9", 250, None, None, 10),
    )


def _crew() -> list[dict[str, Value]]:
    """The firm's own records would stand here; these are invented."""
    return _table(
        "name gang output output_unit",
        ("digging inside", "4 labourers", 8, "m3"),
        ("digging outside", "4 labourers", 11, "m3"),
        ("jack bases", "1 mason, 3 labourers", 16, "No"),
        ("pockets and beams", "2 masons, 4 labourers", 8, "No"),
        ("lifting", "1 foreman, 12 men", 0.15, "m"),
        ("brickwork", "2 masons, 4 labourers", 2.2, "m3"),
        ("filling", "6 labourers", 15, "m3"),
        ("plaster", "2 masons, 2 labourers", 18, "m2"),
    )


def _rates(items: Iterable[tables.Item]) -> list[dict[str, Value]]:
    """A rate for every item of work.

    Raises:
        ValueError: an item has no rate here, or a rate no item.
    """
    codes = [item.code for item in items]
    if missing := [code for code in codes if code not in RATES]:
        raise ValueError(f"the demo has no rate for {', '.join(missing)}; add it to RATES in addin/demo.py")
    if strange := [code for code in RATES if code not in codes]:
        raise ValueError(f"the demo has a rate for {', '.join(strange)}, which is no item of work")
    return [{"name": code, "rate": RATES[code], "note": RATE_NOTE} for code in codes]


def main() -> None:
    """Write the demo survey that ships with the program."""
    write_atomically(DEMO, demo_bytes())


if __name__ == "__main__":
    main()
