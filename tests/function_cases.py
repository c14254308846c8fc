"""What each worksheet function gives, by hand: shared by the tests of the functions and of the way to the spreadsheet.

Arguments are in the units of the sheet. Every function has at least one case, and every size is a different one.
"""

import math
from typing import Any

BRICK, CONCRETE, PLASTER, FILL = 18.85, 25.0, 20.4, 18.0
SURFACE = 0.23 * BRICK + 2 * 0.012 * PLASTER
THIN = 0.115 * BRICK + 1 * 0.015 * PLASTER

# Lines A, B, C run east: A at 0, B taped by 2.9 clear between walls of 230 and 115 mm, C at 7.4; 1 and 2 run north.
NAMES = [["A"], ["B"], ["C"], ["1"], ["2"]]
OFFSETS = [[0.0], [None], [7.4], [-0.5], [3.5]]
CLEARS = [[None], [2.9], [None], [None], [None]]
WALLS = [[230.0], [115.0], [None], [230.0], [None]]
GRID = (NAMES, OFFSETS, CLEARS, WALLS)
B = 0.115 + 2.9 + 0.0575

OF_WALL = [["W1"], ["W2"], ["w1"], [None]]
WIDTHS = [[1.2], [0.9], ["2 ft"], [None]]
HEIGHTS = [[1.35], [2.1], [0.6], [None]]

CASES: list[tuple[str, tuple[Any, ...], Any]] = [
    ("PLINTH_WALL_WEIGHT", (5.0, 3.0, 230, 2.1), (15.0 - 2.1) * SURFACE),
    ("PLINTH_WALL_WEIGHT", (4.0, 2.8, 115, 0, 18.85, 1, 15), 4.0 * 2.8 * THIN),
    ("PLINTH_WALL_LOAD", (60.0, [[3.61], [2.0]], [[6.625], [4.0]]), 60 + 3.61 * 6.625 + 8.0),
    ("PLINTH_WALL_LOAD", (60.0, [[3.61], [None], [2.0]], [[6.625], [None], [4.0]]), 60 + 3.61 * 6.625 + 8.0),
    ("PLINTH_LINE_LOAD", (91.0, 3.5), 26.0),
    ("PLINTH_WALL_STRESS", (200, 8.0, 230), 200 / (8.0 * 0.23)),
    ("PLINTH_BEAM_WEIGHT", (2.4, 230, 350), 2.4 * 0.23 * 0.35 * CONCRETE),
    ("PLINTH_BEAM_WEIGHT", (0.9, 350, 400, 18.85), 0.9 * 0.35 * 0.4 * BRICK),
    ("PLINTH_SLAB_SHARE", (3.8, 4.6), 3.8**2 / 4),
    ("PLINTH_SLAB_SHARE", (4.6, 3.8), 3.8 / 2 * (4.6 - 1.9)),
    ("PLINTH_SLAB_SHARE_ONE_WAY", (9.0, 1.5), 6.75),
    ("PLINTH_SLAB_LOAD", (110,), 0.11 * 25 + 1.5),
    ("PLINTH_SLAB_LOAD", (None, 0.75, 24), 0.125 * 24 + 0.75),
    ("PLINTH_SLAB_WEIGHT", (12.5, 150, 1.0), 12.5 * (0.15 * 25 + 1.0)),
    ("PLINTH_ROOF_LOAD", (0.64, 30), 0.64 / math.cos(math.pi / 6)),
    ("PLINTH_ROOF_WEIGHT", (20.0, 0.64, 30), 20 * 0.64 / math.cos(math.pi / 6)),
    ("PLINTH_ROOF_IMPOSED", (20,), 0.75 - 0.02 * 10),
    ("PLINTH_ROOF_IMPOSED", (35, 0.75), 0.4),
    ("PLINTH_IMPOSED_LOAD", ("dwelling  Room",), 2.0),
    ("PLINTH_UNIT_WEIGHT", ("Brick masonry",), 18.85),
    ("PLINTH_COVERING", ("Mangalore tiles with battens",), 0.64),
    ("PLINTH_BEARING", ("Soft rock",), 440.0),
    ("PLINTH_FOOTING_PRESSURE", (33.375, 0.75), 44.5),
    ("PLINTH_PAD_PRESSURE", (54.3, 0.6), 54.3 / 0.36),
    ("PLINTH_NEW_MASONRY_LOAD", (0.9,), 0.23 * (0.9 - 0.15) * BRICK + 0.23 * 0.15 * CONCRETE),
    ("PLINTH_NEW_MASONRY_LOAD", (0.1, 350), 0.35 * 0.15 * CONCRETE),
    ("PLINTH_FILL_LOAD", (2, 0.75, 350, 0.9), 0.4 * 0.9 * FILL),
    ("PLINTH_USABLE_LOAD", (250, 50), 125.0),
    ("PLINTH_USABLE_LOAD", (), 80.0),
    ("PLINTH_JACKS", (216.973, 8.77), 8),
    ("PLINTH_JACKS", (700, 2.0), 9),
    ("PLINTH_JACKS", (0, 8.77), 0),
    ("PLINTH_JACKS_BY_LOAD", (216.973,), 3),
    ("PLINTH_JACKS_BY_LOAD", (216.973, 100, 50), 5),
    ("PLINTH_JACKS_BY_SPACING", (8.77,), 8),  # 8.17 / 1.2 = 6.8: 7 gaps
    ("PLINTH_JACKS_BY_SPACING", (8.77, 0.9, 0.2), 11),  # 8.37 / 0.9 = 9.3: 10 gaps
    ("PLINTH_JACK_SPACING", (8.77, 8), 8.17 / 7),
    ("PLINTH_BASE_SIDE", (33.902, 120), 0.55),  # 0.5315 m
    ("PLINTH_BASE_THICKNESS", (0.7,), 0.25),
    ("PLINTH_BASE_THICKNESS", (0.4,), 0.15),
    ("PLINTH_NEEDED_PLINTH", (0.5, 0.9), 1.2),
    ("PLINTH_NEEDED_PLINTH", (0.5, None), 1.1),
    ("PLINTH_NEEDED_PLINTH", (-0.3, None), 0.45),
    ("PLINTH_NEEDED_PLINTH", (-0.3, None, 0.45, 0.15, 0.3, 0.2), 0.3),
    ("PLINTH_NEEDED_PLINTH", (), 0.45),
    ("PLINTH_NEEDED_RISE", (0.35, 0.5, 0.9), 0.85),
    ("PLINTH_NEEDED_RISE", (-0.1, None, 0.2, None, None, 0.25), 0.55),
    ("PLINTH_NEEDED_RISE", (1.4, 0.5), 0),
    ("PLINTH_WALL_LENGTH", ("A1", "C2", *GRID), math.hypot(7.4, 4.0)),
    ("PLINTH_WALL_LENGTH", ("b1", "C1", *GRID), 7.4 - B),
    ("PLINTH_WALL_LENGTH", ("A1", "A2", NAMES, OFFSETS), 4.0),
    ("PLINTH_ROOM_AREA", ("A1", "B2", None, *GRID), B * 4.0),
    ("PLINTH_ROOM_AREA", (None, None, "A1 C1 C2 B2", *GRID), 7.4 * 4.0 - B * 4.0 / 2),
    ("PLINTH_OPENINGS", ("W1", OF_WALL, WIDTHS, HEIGHTS), [[1.2 * 1.35, 0.6096 * 0.6]]),
    ("PLINTH_OPENINGS", ("W9", OF_WALL, WIDTHS, HEIGHTS), [[0.0]]),
    ("PLINTH_WALL_MASONRY", (5.0, 230, 3.0, "W1", OF_WALL, WIDTHS, HEIGHTS), (15 - 1.62 - 0.6096 * 0.6) * 0.23),
    ("PLINTH_WALL_MASONRY", (5.0, 230, 3.0, "W9", OF_WALL, WIDTHS, HEIGHTS), 15 * 0.23),
    # 1.62 m2 is taken off one face, 0.37 m2 is not taken off.
    ("PLINTH_WALL_PLASTER", (5.0, 3.0, None, "W1", OF_WALL, WIDTHS, HEIGHTS), 30 - 1.62),
    ("PLINTH_MASONRY", (5.0, 230, 3.0, [[0.1, 0.12], [2.1, None]]), (15.0 - 0.12 - 2.1) * 0.23),
    ("PLINTH_MASONRY", (5.0, 230, 3.0), 15.0 * 0.23),
    ("PLINTH_PLASTER", (5.0, 3.0, 2, [0.48, 1.2, 3.78]), 30.0 - 1.2 - 2 * 3.78),
    ("PLINTH_DIGGING", (8.0, 0.9, 0.75), 5.4),
    ("PLINTH_DIGGING", (8.0, 0.9, 0.75, [[0.6], [None], [0.25]]), 5.4 - 0.85),
    ("PLINTH_LOOSE_EARTH", (8.0,), 10.0),
    ("PLINTH_LOOSE_EARTH", (8.0, "1.3"), 10.4),
    ("PLINTH_FILL", (4.0, 3.0, 0.78), 9.36),
    ("PLINTH_FILL", (4.0, 3.0, 0.78, [1.2]), 8.16),
    ("PLINTH_FILL_OF_AREA", (12.5, 0.6), 7.5),
    ("PLINTH_BOOKED", ("10 ft",), 3.05),
    ("PLINTH_STEEL", ("MB 250", 8.774, 2), 654),  # 2 x 8.77 x 37.3 = 654.2 kg
    ("PLINTH_CONVERT", ("10' 6\"", "mm"), 3200.4),
    ("PLINTH_CONVERT", ("58 t/m2", "kPa"), 58 * 9.80665),
    ("PLINTH_CONVERT", (-2.5, "m"), -2.5),
    ("PLINTH_AMOUNT", (12.67, 560), 7095),
    ("PLINTH_AMOUNT", (2, 10.26, 0.05), 20.5),
    ("PLINTH_TO_COIN", (-1234.56, 5), -1235),
    ("PLINTH_IN_WORDS", (3500, "Indian"), "three thousand, five hundred"),
    ("PLINTH_IN_WORDS", (707_778,), "seven lakh, seven thousand, seven hundred and seventy-eight"),
    ("PLINTH_IN_WORDS", (12.5, "international"), "twelve point five"),
]
"""Name, arguments as a cell would hand them over, and the result by hand."""
