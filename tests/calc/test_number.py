"""calc.number: the same verbs on floats, traced numbers and quantities, and what a traced number refuses."""
# ruff: noqa: ARG005 - every verb of the table takes two numbers, needed or not

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from addin import units
from addin.kinds import Floats, Tracing
from calc.errors import FrozenBranch
from calc.number import (
    Filed,
    Name,
    Traced,
    TracedText,
    at_issue,
    both,
    ceil,
    cosine,
    either,
    entry,
    fixed,
    half_up,
    literal,
    maximum,
    minimum,
    product,
    ratio,
    rounded,
    rounded_up_to,
    same,
    sqrt,
    text_of,
    total,
    value_of,
    where,
    within,
    word_where,
)
from tests.addin import expressions


def live(value: float) -> Traced:
    return entry(value, "somewhere")


def live_text(value: str) -> TracedText:
    return TracedText(value, "entry", ("somewhere",))


def q(value: float, unit: str):
    return units.quantity(value, unit)


# ------------------------------------------------------------------------------------------ each verb, each kind

VERBS = {
    "add": (lambda a, b: a + b, 7.5, 2.0, 9.5),
    "add from the right": (lambda a, b: 7.5 + b, 7.5, 2.0, 9.5),
    "subtract": (lambda a, b: a - b, 7.5, 2.0, 5.5),
    "subtract from a number": (lambda a, b: 7.5 - b, 7.5, 2.0, 5.5),
    "multiply": (lambda a, b: a * b, 7.5, 2.0, 15.0),
    "multiply from the right": (lambda a, b: 7.5 * b, 7.5, 2.0, 15.0),
    "divide": (lambda a, b: a / b, 7.5, 2.0, 3.75),
    "divide a number": (lambda a, b: 7.5 / b, 7.5, 2.0, 3.75),
    "power": (lambda a, b: a**2, 7.5, 2.0, 56.25),
    "negative power": (lambda a, b: b**-2, 7.5, 2.0, 0.25),
    "negative": (lambda a, b: -a, 7.5, 2.0, -7.5),
    "at most": (lambda a, b: a <= b, 7.5, 2.0, False),
    "at most, equal": (lambda a, b: a <= b, 2.0, 2.0, True),
    "less than": (lambda a, b: a < b, 1.5, 2.0, True),
    "less than, equal": (lambda a, b: a < b, 2.0, 2.0, False),
    "at least": (lambda a, b: a >= b, 2.0, 2.0, True),
    "more than": (lambda a, b: a > b, 7.5, 2.0, True),
    "ceil": (lambda a, b: ceil(a), 7.5, 2.0, 8.0),
    "ceil of a negative": (lambda a, b: ceil(a), -7.5, 2.0, -7.0),
    "rounded": (lambda a, b: rounded(a, 1), 7.25, 2.0, 7.3),
    "rounded up to": (rounded_up_to, 7.5, 2.0, 8.0),
    "maximum": (maximum, 7.5, 2.0, 7.5),
    "minimum": (minimum, 7.5, 2.0, 2.0),
    "maximum with a bare 0": (lambda a, b: maximum(a, 0), -7.5, 2.0, 0.0),
    "minimum with a bare 0": (lambda a, b: minimum(0, b), 7.5, 2.0, 0.0),
    "sqrt": (lambda a, b: sqrt(a), 6.25, 2.0, 2.5),
    "where it holds": (lambda a, b: where(a > b, a, 0), 7.5, 2.0, 7.5),
    "where it does not": (lambda a, b: where(a < b, a, 0), 7.5, 2.0, 0.0),
    "where a plain truth holds": (lambda a, b: where(True, a, b), 7.5, 2.0, 7.5),
    "ratio": (lambda a, b: ratio(a, b, 0), 7.5, 2.0, 3.75),
    "ratio to 0": (lambda a, b: ratio(a, b, 1), 7.5, 0.0, 1.0),
    "both": (lambda a, b: both(a > b, b > 3), 7.5, 2.0, False),
    "either": (lambda a, b: either(a > b, b > 3), 7.5, 2.0, True),
    "both plain and live": (lambda a, b: both(True, a > b), 7.5, 2.0, True),
    "within": (within, 0.1 + 0.2, 0.3, True),
    "within, a millionth over": (within, 0.300001, 0.3, False),
    "total": (lambda a, b: total([a, b, 0]), 7.5, 2.0, 9.5),
    "product": (product, 7.5, 2.0, 15.0),
    "product without a dimension": (lambda a, b: product(2, a, None, b), 7.5, 2.0, 30.0),
    "filed at": (lambda a, b: Filed(["W1", "W2"], [a, b]).at("W2"), 7.5, 2.0, 2.0),
    "filed total": (lambda a, b: Filed(["W1", "W2", "W1"], [a, b, b]).total("W1"), 7.5, 2.0, 9.5),
    "filed total of none": (lambda a, b: Filed(["W1", "W2"], [a, b]).total("W9"), 7.5, 2.0, 0.0),
    "at issue": (lambda a, b: at_issue(3.0, a, b), 7.5, 2.0, 3.0),
    "fixed": (lambda a, b: fixed(4.0, a), 7.5, 2.0, 4.0),
}


@pytest.mark.parametrize("verb", VERBS)
def test_a_verb_gives_the_same_on_floats_on_traced_numbers_and_on_quantities(verb):
    act, a, b, expected = VERBS[verb]
    assert act(a, b) == expected
    traced = act(live(a), live(b))
    assert isinstance(traced, Traced)
    assert traced.value == expected
    assert type(traced.value) is bool if isinstance(expected, bool) else not isinstance(traced.value, bool)
    with_unit = act(q(a, "-"), q(b, "-"))
    assert value_of(with_unit) == expected


def test_the_cosine_takes_degrees_in_every_kind():
    assert cosine(60.0) == pytest.approx(0.5, rel=1e-15)
    assert cosine(live(60.0)).value == cosine(60.0)
    assert cosine(q(60.0, "deg")).m_as("") == pytest.approx(0.5, rel=1e-15)


def test_a_node_keeps_its_operation_and_the_very_nodes_it_came_from():
    a, b = live(7.5), live(2.0)
    node = a - b
    assert node.op == "subtract"
    assert node.args[0] is a
    assert node.args[1] is b
    assert (2 - b).args[0].op == "literal"
    assert (-a).op == "subtract"
    assert (-a).args[0].value == 0
    assert repr(node) == "Traced(5.5, 'subtract')"
    assert repr(live_text("door")) == "TracedText('door', 'entry')"


def test_where_computes_both_branches_and_ratio_does_not():
    zero = live(0.0)
    with pytest.raises(ZeroDivisionError):
        where(zero > 0, 1 / zero, 0)
    assert ratio(1, zero, 0).value == 0


@pytest.mark.parametrize(("act", "unit"), [
    (lambda: where(q(1, "m") > q(2, "m"), q(3, "m2"), 0), "m2"),
    (lambda: where(q(1, "m") < q(2, "m"), q(3, "m2"), 0), "m2"),
    (lambda: where(q(1, "m") < q(2, "m"), 0, q(3, "m2")), "m2"),
    (lambda: maximum(q(-1, "kN"), 0), "kN"),
    (lambda: minimum(0, q(1, "kN")), "kN"),
    (lambda: ratio(q(1, "kN"), q(2, "m"), 0), "kN/m"),
    (lambda: ratio(q(1, "kN"), q(0, "m"), 0), "kN/m"),
    (lambda: ratio(1, q(0, "m"), 0) * q(1, "m2"), "m"),
    (lambda: ratio(q(1, "m"), 0.0, 0), "m"),
    (lambda: sqrt(q(9, "m2")), "m"),
    (lambda: rounded(q(1.005, "m3"), 2), "m3"),
    (lambda: ceil(q(1.2, "m") / q(500, "mm")), "-"),
    (lambda: rounded_up_to(q(0.53, "m"), q(0.05, "m")), "m"),
    (lambda: total([q(1, "m"), q(2, "m")]), "m"),
    (lambda: product(2, q(3, "m"), None, q(1, "m")), "m2"),
    (lambda: Filed(["W1"], [q(3, "m2")]).total("W9"), "m2"),
    (lambda: Filed(["W1"], [q(3, "m2")]).at("w1"), "m2"),
    (lambda: at_issue(0.5, q(3, "m2"), like=q(1, "kN")), "kN"),
    (lambda: fixed(2.0, q(1, "m"), q(1, "m")), "m"),
])  # fmt: skip
def test_a_result_keeps_its_unit_whichever_way_a_choice_falls(act, unit):
    assert units.same_dimension(act(), unit)


@pytest.mark.parametrize("act", [
    lambda: where(q(1, "m") < q(2, "m"), q(3, "m2"), q(3, "m")),
    lambda: where(q(1, "m") > q(2, "m"), q(3, "m2"), q(3, "m")),
    lambda: where(q(1, "m") < q(2, "m"), q(3, "m2"), 5),
    lambda: maximum(q(1, "m"), 5),
    lambda: minimum(q(1, "m"), q(1, "kN")),
    lambda: ratio(q(1, "kN"), q(2, "m"), q(1, "kN")),
    lambda: ratio(q(1, "kN"), q(0, "m"), 1),
    lambda: total([q(1, "m"), q(1, "kN")]),
    lambda: ceil(q(1.2, "m")),
    lambda: q(1, "m") + 0.115,
    lambda: within(q(1, "kN"), q(1, "m")),
])  # fmt: skip
def test_a_branch_of_another_dimension_is_refused_taken_or_not(act):
    with pytest.raises(TypeError, match=r"(?i)cannot convert|cannot compare"):  # pint's DimensionalityError
        act()


# ------------------------------------------------------------------------------------------ what is refused


@pytest.mark.parametrize("act", [
    lambda x: 1 if x > 2 else 0, lambda x: 1 if x else 0, lambda x: x > 2 and 1, lambda x: x > 2 or 1, lambda x: not x,
    lambda x: max(x, 2), lambda x: min(2, x), lambda x: sorted([x, live(1.0)]), lambda x: 0 < x < 5,
    lambda x: x in (1, 2), lambda x: x == 3.0, lambda x: x != 3.0, lambda x: x == live(3.0),
    lambda x: x is not None and x == None,  # noqa: E711
    lambda x: f"{x}", lambda x: f"{x:.2f}", lambda x: str(x), lambda x: "%s" % x, lambda x: f"{x!s} m",  # noqa: UP031
    lambda x: any([x]), lambda x: all([x]), bool, lambda x: [y for y in (1, 2) if x > y],
])  # fmt: skip
def test_a_decision_on_a_traced_number_raises(act):
    with pytest.raises(FrozenBranch):
        act(live(3.0))


@pytest.mark.parametrize("act", [
    lambda t: 1 if t else 0, lambda t: t == "door", lambda t: t != "door", lambda t: t in ("door", "window"),
    lambda t: f"{t}", lambda t: str(t), lambda t: not t, lambda t: where(t, 1, live(2.0)),
    lambda t: both(t, live(2.0) > 1) and 1,
])  # fmt: skip
def test_a_decision_on_a_traced_text_raises(act):
    with pytest.raises(TypeError):
        act(live_text("door"))


def test_a_traced_number_and_text_equal_themselves_so_that_a_record_can_be_found():
    node, text = live(3.0), live_text("door")
    same_node, same_text = node, text
    assert node == same_node
    assert text == same_text
    assert {node: 1}[node] == 1
    assert {text: 1}[text] == 1
    assert node in [node]


@pytest.mark.parametrize("act", [
    abs, round, lambda x: round(x, 2), int, float, math.sqrt, math.ceil, math.floor, math.cos, math.isclose,
    lambda x: math.fsum([x]), lambda x: x % 2, lambda x: x // 2, lambda x: 2**x, lambda x: divmod(x, 2), lambda x: +x,
    lambda x: x**0.5, lambda x: x + "m", lambda x: x * None, lambda x: x < "2", range, lambda x: maximum(x, "2"),
    lambda x: where(x > 2, x, "road"), lambda x: total([x, None]),
])  # fmt: skip
def test_what_would_freeze_or_mistake_a_traced_number_is_a_type_error(act):
    with pytest.raises(TypeError):
        act(live(3.0))


@pytest.mark.parametrize("act", [
    lambda x, m: x + m, lambda x, m: x * m, lambda x, m: x <= m, lambda x, m: maximum(x, m), lambda x, m: minimum(m, x),
    lambda x, m: where(x > 2, m, m), lambda x, m: where(True, x, m), lambda x, m: ratio(x, m, 0),
    lambda x, m: total([x, m]),
    lambda x, m: product(x, m), lambda x, m: at_issue(1.0, x, m), lambda x, m: Filed(["a", "b"], [x, m]).at("b"),
    lambda x, m: Filed(["a", "a"], [x, m]).total("a"), lambda x, m: within(x, m), lambda x, m: x - m,
    lambda x, m: x / m,
])  # fmt: skip
def test_a_traced_number_and_a_quantity_do_not_mix(act):
    with pytest.raises(FrozenBranch, match="one kind of number"):
        act(live(3.0), q(1.0, "m"))


def test_value_of_is_the_door_out_for_every_kind():
    for number in (3, 3.0, live(3.0), q(3.0, "m"), live(4.0) > 1):
        assert type(value_of(number)) is float
    assert value_of(live(3.0) * 2) == 6.0
    assert value_of(q(3.0, "m")) == 3.0


def test_what_the_units_library_swallows_cannot_leave_by_the_door():
    with pytest.raises(TypeError):
        value_of(q(2.0, "m") * live(3.0))


def test_at_issue_refuses_a_traced_value_and_a_text_as_input():
    with pytest.raises(FrozenBranch, match="plain value"):
        at_issue(live(0.5), live(3.0))
    with pytest.raises(FrozenBranch, match="text"):
        at_issue(0.5, live(3.0), live_text("W1"))


def test_at_issue_keeps_its_inputs_but_no_constants():
    a, b = live(3.0), live(6.0)
    node = at_issue(0.5, a, 4, literal(2), b)
    assert node.op == "at issue"
    assert [id(arg) for arg in node.args] == [id(a), id(b)]
    assert at_issue(0.5, 3.0, 6.0) == 0.5


# ------------------------------------------------------------------------------------------ rounding

HARD = [
    # value, places, half up on 15 digits
    (0.5, 0, 1.0), (1.5, 0, 2.0), (2.5, 0, 3.0), (-0.5, 0, -1.0), (-2.5, 0, -3.0), (1.005, 2, 1.01), (2.675, 2, 2.68),
    (-1.005, 2, -1.01), (1.115, 2, 1.12), (0.285, 2, 0.29), (4.015, 2, 4.02), (8.345, 2, 8.35),
    (1.4999999999999998, 0, 2.0),
    (0.1 + 0.2, 9, 0.3), (0.1 * 3 - 0.3, 9, 0.0), (-0.2, 0, 0.0), (0.0, 2, 0.0), (-0.0, 0, 0.0), (1e20, 9, 1e20),
    (123456789.125, 2, 123456789.13), (2.5e15, 0, 2.5e15), (0.000000000499999, 9, 0.0), (0.0000000005, 9, 1e-9),
    (1234.5, -2, 1200.0), (1250.0, -2, 1300.0), (1e-300, 2, 0.0),
]  # fmt: skip
"""Cases where Python's own round, or a rounding of the binary value, goes another way than a spreadsheet. The same
table is recalculated in both engines by test_formulas."""


@pytest.mark.parametrize(("value", "places", "expected"), HARD)
def test_rounding_is_half_up_on_fifteen_digits(value, places, expected):
    assert half_up(value, places) == expected
    assert rounded(value, places) == expected
    assert rounded(live(value), places).value == expected
    assert math.copysign(1, half_up(0.0, places)) == 1


def test_rounding_never_gives_a_minus_zero():
    assert math.copysign(1, half_up(-0.2, 0)) == 1
    assert math.copysign(1, half_up(-0.0, 2)) == 1


def test_rounding_leaves_what_is_no_finite_number():
    assert half_up(math.inf, 2) == math.inf
    assert math.isnan(half_up(math.nan, 2))


@pytest.mark.parametrize(("value", "expected"), [
    ((0.1 + 0.2) * 10, 3.0), (3.0000000001, 3.0), (3.000000001, 4.0), (3.001, 4.0), (-0.17, 0.0), (-1.0, -1.0),
    (0.0, 0.0), (2.0, 2.0), (1e15, 1e15),
])  # fmt: skip
def test_ceil_takes_a_billionth_for_noise(value, expected):
    assert ceil(value) == expected
    assert ceil(live(value)).value == expected
    assert ceil(q(value, "-")).m_as("") == expected


@pytest.mark.parametrize(("value", "step", "expected"), [
    (0.532, 0.05, 0.55), (0.55, 0.05, 0.55), (0.6, 0.2, 0.6), (0.5500001, 0.05, 0.6), (0.0, 0.05, 0.0),
])  # fmt: skip
def test_rounding_up_to_a_step_does_not_take_a_step_too_many(value, step, expected):
    assert rounded_up_to(value, step) == pytest.approx(expected, rel=1e-15)


@given(st.floats(-1e12, 1e12), st.integers(0, 9))
def test_a_rounded_number_is_near_and_stays_when_rounded_again(value, places):
    once = half_up(value, places)
    assert abs(once - value) <= 0.5 * 10.0**-places * (1 + 1e-9) + abs(value) * 1e-14
    assert half_up(once, places) == once


# ------------------------------------------------------------------------------------------ texts and look-up


def test_texts_are_the_same_whatever_their_case():
    assert same("Window", "wINDOW")
    assert not same("window", "door")
    node = same(live_text("Window"), "window")
    assert node.value is True
    assert node.op == "same"


def test_a_choice_of_words_is_live_when_its_condition_or_a_word_is():
    assert word_where(True, "road", "flood") == "road"
    node = word_where(live(1.0) > 2, "road", live_text("flood"))
    assert isinstance(node, TracedText)
    assert node.value == "flood"
    assert word_where(True, live_text("road"), "flood").value == "road"


def test_text_of_gives_the_plain_text_of_any_kind():
    assert text_of(live_text("door")) == "door"
    assert type(text_of(Name("W1"))) is str
    with pytest.raises(FrozenBranch):
        text_of(live(3.0))


def test_names_are_objects_of_their_own():
    assert Name("W1") == Name("W1")
    assert Name("W1") is not Name("W1")


def test_a_filed_column_is_looked_up_by_name_whatever_its_case():
    filed = Filed(["W1", "Hall", "w1"], [1.0, 2.0, 4.0])
    assert filed.at("w1") == 1.0
    assert filed.at("HALL") == 2.0
    assert filed.total("W1") == 5.0
    assert filed.total("W9") == 0.0
    with pytest.raises(KeyError):
        filed.at("W9")


def test_a_look_up_is_live_as_soon_as_value_name_or_key_is():
    assert isinstance(Filed(["W1"], [live(1.0)]).at("w1"), Traced)
    assert isinstance(Filed([live_text("W1")], [1.0]).at("w1"), Traced)
    assert isinstance(Filed(["W1"], [1.0]).at(live_text("W1")), Traced)
    assert isinstance(Filed(["W1"], [1.0]).total(live_text("W1")), Traced)
    assert isinstance(Filed([live_text("W1")], ["door"]).at("w1"), TracedText)
    assert isinstance(Filed(["W1"], [live_text("door")]).at("w1"), TracedText)
    assert Filed(["W1"], ["door"]).at("w1") == "door"


def test_a_live_total_of_none_is_a_node_all_the_same():
    node = Filed([live_text("W1")], [live(1.0)]).total("W9")
    assert node.op == "total by name"
    assert node.value == 0.0


def test_an_empty_column_has_no_value_and_a_total_of_0():
    assert Filed([], []).total("W1") == 0.0
    assert Filed([], []).total(live_text("W1")).value == 0.0
    with pytest.raises(KeyError):
        Filed([], []).at("W1")


def test_a_column_needs_a_name_for_each_value():
    with pytest.raises(ValueError, match="2 names for 1 values"):
        Filed(["W1", "W2"], [1.0])


def test_a_total_of_nothing_is_0():
    assert total([]) == 0.0
    assert total(iter(())) == 0.0


def test_a_total_adds_from_left_to_right_in_every_kind():
    # The builtin sum of newer Pythons gives 1.0 here; a sheet adds one after the other, and so must every kind.
    terms = [0.1] * 10
    one_by_one = 0.0
    for term in terms:
        one_by_one += term
    assert total(terms) == one_by_one
    assert total(map(live, terms)).value == one_by_one
    assert Filed(["a"] * 10, [live(term) for term in terms]).total("a").value == one_by_one


def test_a_product_passes_over_what_is_not_there():
    assert product(2, 3.5, None, 0.5) == 3.5
    node = product(2, live(3.5), None, 0.5)
    assert node.value == 3.5
    assert [getattr(arg, "value", None) for arg in node.args] == [2, 3.5, None, 0.5]


def test_fixed_makes_an_object_of_its_own_in_the_traced_run_only():
    assert fixed("two way", 3.0) == "two way"
    assert fixed("two way", live(3.0)).op == "literal"
    assert fixed(-1, live_text("x")).value == -1


# ------------------------------------------------------------------------------------------ float run = traced run


def test_random_expressions_give_the_same_float_in_the_float_run_and_in_the_traced_run():
    floats, checked = expressions.entries(Floats()), 0
    for made, node, _ in expressions.steady(2026, 1500, expressions.entries(Tracing()), depth=5):
        plain = expressions.Runner(floats)(made)
        assert not hasattr(plain, "args"), "a float run ends in plain floats"
        assert plain == node.value
        assert isinstance(plain, str) == isinstance(node, TracedText)
        checked += 1
    assert checked == 1500
