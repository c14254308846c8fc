"""The drawing of the jack plan: what is drawn, that no text lies over another, what the three files hold."""

import io
import itertools
import math
import re
from dataclasses import replace
from datetime import date

import ezdxf
import pytest

from addin.drawing.band import Title
from addin.drawing.chains import chains
from addin.drawing.composing import CannotDraw, Drawing, drawing_of
from addin.drawing.dxf import dxf_bytes
from addin.drawing.house import house_of, outside
from addin.drawing.labels import overlap, thin
from addin.drawing.picture import pictures
from addin.drawing.shapes import LAYERS, Dimension, Label, Mark, Stroke, square, symbols_of
from tests.jack_plans import jacks_along, member, two_rooms

TITLE = Title(job="Two rooms at the canal", place="North bank", issued_on=date(2026, 1, 31), released=False,
              open_answers=3, engineer="", licence="")  # fmt: skip
CLOSE = 1e-6
"""mm: sums of doubles in another order."""


def texts(drawing: Drawing) -> list[Label]:
    return [shape.text if isinstance(shape, Dimension) else shape
            for shape in drawing.shapes if isinstance(shape, (Label, Dimension))]  # fmt: skip


def words(drawing: Drawing) -> str:
    return "\n".join(label.text for label in texts(drawing))


def drawn(survey, view, plan, title=TITLE) -> Drawing:
    return drawing_of(plan, view, survey, title)


@pytest.fixture(scope="module")
def two() -> Drawing:
    return drawn(*two_rooms())


@pytest.fixture(scope="module")
def crowded(demo) -> Drawing:
    """The demo house with a jack every metre or so."""
    return drawn(demo.survey, demo.found.view, jacks_along(demo.survey, demo.found.view, 1.1))


@pytest.fixture(scope="module")
def planned(demo) -> Drawing:
    """The demo house with its own plan: two jack lines, strips, a small room, many circuits."""
    return drawn(demo.survey, demo.found.view, demo.prepared.jacks)


@pytest.fixture(scope="module")
def document(two):
    return ezdxf.read(io.StringIO(dxf_bytes(two).decode()))


# ------------------------------------------------------------------------------------------ what is drawn


def test_a_small_house_is_drawn_one_to_fifty_on_the_smallest_paper_that_takes_it(two):
    assert (two.sheet.paper, two.sheet.scale) == ("A3", 50)
    assert "Scale 1:50 on A3, dimensions in mm" in words(two)


def test_a_house_of_twenty_metres_is_drawn_one_to_a_hundred():
    sheet = drawn(*two_rooms(times=3.0)).sheet
    assert (sheet.paper, sheet.scale) == ("A3", 100)


def test_a_house_too_large_for_every_paper_is_refused_in_one_sentence():
    with pytest.raises(CannotDraw, match=r"^The jack plan does not fit on A0 at 1:200; no drawing was made\.$"):
        drawn(*two_rooms(times=60.0))


def test_every_jack_is_drawn_once_where_the_plan_says(two):
    _, _, plan = two_rooms()
    marks = {shape.name: shape.middle for shape in two.on("jacks") if isinstance(shape, Mark)}
    assert len([s for s in two.on("jacks") if isinstance(s, Mark)]) == 12
    assert marks == {jack.name: pytest.approx((jack.x * 1000, jack.y * 1000)) for jack in plan.jacks}


def test_circuits_differ_in_shape_and_in_tone(two):
    looks = {(shape.symbol, shape.tone) for shape in two.on("jacks") if isinstance(shape, Mark)}
    assert len({shape for shape, _ in looks}) == 3
    assert len({tone for _, tone in looks}) == 3


def test_no_two_of_twenty_circuits_look_alike():
    names = [f"C{n}" for n in range(1, 21)]
    assert len(set(symbols_of(names).values())) == 20


def test_a_chain_runs_from_the_from_point_over_every_jack_to_the_other_end():
    survey, view, plan = two_rooms()
    found = {chain.of: chain for chain in chains(house_of(plan, view, survey), 50)}
    # W1: 0, 350, 2600, 3700, 6650 and 7000 mm. W3 runs west, from C2: 300, 3000, 3700, 6650 of 7000 mm.
    assert [round(d.measure) for d in found["W1"].dimensions] == [350, 2250, 1100, 2950, 350]
    assert [round(d.measure) for d in found["W3"].dimensions] == [300, 2700, 700, 2950, 350]
    assert found["W3"].dimensions[0].end == pytest.approx((7000, 4200))


def test_figures_say_what_is_measured_to_the_millimetre(two):
    for shape in two.on("dimensions"):
        if isinstance(shape, Dimension):
            assert shape.text.text == f"{shape.measure:.0f}"


def test_figures_are_read_from_below_or_from_the_right(two):
    assert {label.turn for label in texts(two)} == {0.0, 90.0}


def test_a_jack_beside_a_column_is_measured_from_its_middle(crowded):
    column = [s for s in crowded.on("dimensions") if isinstance(s, Dimension) and math.isclose(s.measure, 450)]
    assert len(column) == 8  # two at each of four columns


def test_walls_are_as_thick_as_surveyed_and_doors_are_gaps():
    survey, view, plan = two_rooms()
    house = house_of(plan, view, survey)
    south = [box for box in house.masonry if {corner[1] for corner in box} == {-115.0, 115.0}]
    # W1 from face to face, 7.23 m, without the door of 0.9 m and the window of 1.2 m.
    length = sum(box[1][0] - box[0][0] for box in south)
    assert length == pytest.approx(7230 - 900 - 1200)


def test_a_wall_that_runs_into_another_shows_no_line_inside_it():
    box = square((500, 0), 100)
    assert list(outside((0, 0), (1000, 0), [box])) == [((0, 0), (400, 0)), ((600, 0), (1000, 0))]


def test_a_strip_reaches_under_all_its_jacks():
    survey, view, plan = two_rooms()
    strips = [base for base in house_of(plan, view, survey).bases if base.strip]
    assert [[jack.name for jack in base.jacks] for base in strips] == [["W3-2", "W3-3"]]
    # Jacks at x = 4.0 and 3.3 m, 0.9 m wide: from 2.85 to 4.45 m.
    assert sorted({round(corner[0]) for corner in strips[0].box}) == [2850, 4450]


def test_bases_of_another_size_than_most_say_their_own(two):
    assert {"750x750x250", "1600x900x250"} <= {label.text for label in two.on("bases") if isinstance(label, Label)}
    assert "Bases are 600x600x250 mm" in words(two)


def test_the_demo_house_is_drawn_one_to_fifty_on_a3(planned):
    assert (planned.sheet.paper, planned.sheet.scale) == ("A3", 50)


# ------------------------------------------------------------------------------------------ texts keep apart


@pytest.mark.parametrize("which", ["two", "crowded", "planned"])
def test_no_two_texts_lie_over_one_another(which, request):
    drawing = request.getfixturevalue(which)
    boxes = [(label.text, label.box(drawing.sheet.scale)) for label in texts(drawing)]
    both = [(one, other) for (one, a), (other, b) in itertools.combinations(boxes, 2) if overlap(a, b)]
    assert both == []


@pytest.mark.parametrize("which", ["two", "crowded", "planned"])
def test_no_text_lies_over_the_mark_of_a_jack(which, request):
    drawing = request.getfixturevalue(which)
    marks = [square(shape.middle, shape.radius) for shape in drawing.on("jacks") if isinstance(shape, Mark)]
    boxes = [label.box(drawing.sheet.scale) for label in texts(drawing)]
    assert not any(overlap(mark, box) for mark in marks for box in boxes)


@pytest.mark.parametrize("which", ["two", "crowded", "planned"])
def test_no_leader_runs_through_a_text(which, request):
    drawing = request.getfixturevalue(which)
    leaders = [shape for layer in ("jacks", "text", "dimensions", "bases") for shape in drawing.on(layer)
               if isinstance(shape, Stroke) and shape.width == 0.13]  # fmt: skip
    boxes = [label.box(drawing.sheet.scale) for label in texts(drawing)]
    for leader in leaders:
        start, end = leader.points
        # It ends at its own text, so only what is well before its end counts.
        short = (start, (start[0] + 0.8 * (end[0] - start[0]), start[1] + 0.8 * (end[1] - start[1])))
        assert not any(overlap(thin(*short, 1.0), box) for box in boxes)


@pytest.mark.parametrize("which", ["two", "crowded", "planned"])
def test_everything_lies_on_the_paper(which, request):
    drawing = request.getfixturevalue(which)
    for label in texts(drawing):
        for corner in label.box(drawing.sheet.scale):
            x, y = drawing.sheet.on_paper(corner)
            assert 10 - CLOSE <= x <= drawing.sheet.width - 10 + CLOSE, label.text
            assert 10 - CLOSE <= y <= drawing.sheet.height - 10 + CLOSE, label.text


# ------------------------------------------------------------------------------------------ what the sheet says


def test_the_heading_says_not_released_with_the_number_of_open_answers(two):
    assert "NOT RELEASED FOR LIFTING: 3 answers open" in words(two)


def test_a_released_house_says_by_whom():
    title = replace(TITLE, released=True, open_answers=0, engineer="The engineer", licence="L-12")
    found = words(drawn(*two_rooms(), title=title))
    assert "NOT RELEASED" not in found
    assert "Released for lifting by its engineer: The engineer, licence L-12" in found


def test_a_wall_without_a_plan_says_so_on_the_plan_and_shuts_the_release():
    survey, view, plan = two_rooms()
    kept = tuple(jack for jack in plan.jacks if jack.member != "W4")
    members = (*(m for m in plan.members if m.name != "W4"), member("W4", (), why_not="no jack in the store fits"))
    title = replace(TITLE, released=True, open_answers=0)
    found = words(drawn(survey, view, replace(plan, jacks=kept, members=members), title))
    assert "W4: NO JACK PLAN" in found
    assert "STOP: no jack plan for W4: no jack in the store fits" in found
    assert "NOT RELEASED FOR LIFTING: this plan says STOP in 1 place" in found
    assert "Released for lifting" not in found


def test_jacks_that_stand_too_close_are_named():
    survey, view, plan = two_rooms()
    found = words(drawn(survey, view, replace(plan, close=(("W1-1", "W4-1", 0.31),)))).replace("\n", " ")
    assert "Jacks W1-1 and W4-1 are 310 mm apart, nearer than the closest spacing: see Checks." in found


def test_jacks_on_no_circuit_are_told_apart_from_the_others():
    survey, view, plan = two_rooms()
    single = replace(plan, jacks=tuple(replace(jack, circuit="") for jack in plan.jacks), steering=None)
    assert "jack on no circuit: 12 jacks" in words(drawn(survey, view, single))


def test_the_sheet_says_who_must_approve_and_leaves_room_to_sign(two):
    found = words(two).replace("\n", " ")
    assert "Approval rests with the licensed engineer and the local authority" in found
    for label in ("Licensed engineer", "Licence", "Signature", "Date", "Sheet 1 of 1", "Two rooms at the canal"):
        assert label in found
    assert not re.search(r"\bsafe\b", found)


def test_every_jack_has_its_row_under_its_wall(two):
    found = [label.text for label in two.on("sheet") if isinstance(label, Label)]
    start = found.index("W3-1")
    assert found[start - 1 : start + 5] == ["W3: 2 x SECTION 150, beam through wall", "W3-1", "300", "31.4/36.8",
                                            "750x750x250", "C2"]  # fmt: skip
    assert all(found.count(f"W1-{n}") == 1 for n in (1, 2, 3, 4))


def test_jacks_beside_a_wall_say_how_far_off_its_line():
    survey, view, plan = two_rooms()
    moved = tuple(replace(jack, across=-0.4, x=4.4) if jack.name == "W5-1" else jack for jack in plan.jacks)
    assert "400 R" in words(drawn(survey, view, replace(plan, jacks=moved)))


# ------------------------------------------------------------------------------------------ DXF


def test_the_dxf_is_clean_and_in_millimetres(document):
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    assert document.units == 4


def test_layers_are_named_in_plain_words(document):
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    used = {entity.dxf.layer for entity in document.modelspace()}
    assert used <= set(LAYERS)


def test_the_dxf_holds_every_jack_once_under_its_mark(document):
    _, _, plan = two_rooms()
    inserts = [entity for entity in document.modelspace().query("INSERT") if entity.dxf.layer == "jacks"]
    found = {insert.get_attrib_text("MARK"): insert.dxf.insert for insert in inserts}
    assert len(inserts) == 12
    for jack in plan.jacks:
        assert (found[jack.name].x, found[jack.name].y) == pytest.approx((jack.x * 1000, jack.y * 1000))


def test_dimensions_of_the_dxf_measure_what_the_plan_says(document):
    chain = [d for d in document.modelspace().query("DIMENSION")
             if {d.dxf.defpoint2.y, d.dxf.defpoint3.y} == {0.0} and d.dxf.angle == 0]  # fmt: skip
    measured = sorted(round(d.get_measurement(), 6) for d in chain)
    assert measured == [350, 350, 1100, 2250, 2950]


def test_the_layout_is_the_paper_with_one_window_to_scale(document):
    page = document.layout("Jack plan")
    assert (page.dxf.paper_width, page.dxf.paper_height) == (420, 297)
    window = page.query("VIEWPORT")[-1]
    assert window.dxf.view_height / window.dxf.height == pytest.approx(50)


def test_a_name_that_looks_like_a_command_is_only_text():
    drawing = drawn(*two_rooms(), title=replace(TITLE, job="Half %%c price ^J $x$"))
    read = ezdxf.read(io.StringIO(dxf_bytes(drawing).decode()))
    found = [entity.plain_text() for entity in read.modelspace().query("TEXT")]
    assert "Half % %c price ^J $x$" in found
    pictures(drawing)


# ------------------------------------------------------------------------------------------ pictures


def test_the_pdf_page_is_the_paper(two):
    pdf, _ = pictures(two)
    box = re.search(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", pdf)
    assert [float(side) / 72 * 25.4 for side in box.groups()] == pytest.approx([420, 297], abs=0.01)
    assert pdf.count(b"/Type /Page\n") == 1 or pdf.count(b"/Type /Page ") == 1


def test_the_png_is_the_paper_at_its_dots(two):
    _, png = pictures(two)
    width, height = (int.from_bytes(png[start : start + 4]) for start in (16, 20))
    assert (width, height) == (int(420 / 25.4 * 200), int(297 / 25.4 * 200))


def test_the_same_plan_gives_the_same_bytes(two):
    again = drawn(*two_rooms())
    assert dxf_bytes(again) == dxf_bytes(two)
    assert pictures(again) == pictures(two)


def test_letters_the_font_lacks_are_kept_in_the_dxf_and_marked_in_the_pictures():
    drawing = drawn(*two_rooms(), title=replace(TITLE, job="घर"))
    assert "घर" in dxf_bytes(drawing).decode()
    pictures(drawing)
