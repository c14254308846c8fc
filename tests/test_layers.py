"""What keeps the two layers apart and every number with its unit: read from the source, not run."""

import ast
import dataclasses
import importlib
import re
import sys
import types
import typing
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
CALC = sorted(path.stem for path in (ROOT / "calc").glob("*.py") if path.stem != "__init__")
ADDIN = sorted(path.stem for path in (ROOT / "addin").glob("*.py") if path.stem != "__init__")


def tree(package: str, module: str) -> ast.Module:
    return ast.parse((ROOT / package / f"{module}.py").read_text(encoding="utf-8"))


def imported(package: str, module: str) -> Iterator[str]:
    """The packages a module imports, inside functions too."""
    for node in ast.walk(tree(package, module)):
        if isinstance(node, ast.Import):
            yield from (alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{package}.{module} has a relative import"
            yield (node.module or "").partition(".")[0]


NUMPY = {
    "beam_loads": "moments of the load of every span at once",
    "beam_on_jacks": "one set of equations, as many right hand sides as jacks",
    "beam_cases": "updates of that solution",
    "complementarity": "pivots on a matrix",
    "beam_batch": "thousands of layouts at once; number by number a search would take minutes",
    "placing_rules": "which places of a grid may follow one another",
    "placing_paths": "ways through the grid, counted and drawn in whole columns",
    "placing_search": "layouts by the hundred",
    "placing_reasons": "what was left of the grid",
    "placing": "the figures of one layout",
    "jack_walls": "sums of what neighbouring jacks add to each other",
    "jack_columns": "the nearest rigid movement of a collar",
}
"""The solvers that may use numpy, and for what. No formula may: a traced number cannot pass through an array."""


@pytest.mark.parametrize("module", CALC)
def test_calc_imports_only_itself_and_the_standard_library(module):
    allowed = {"calc", "numpy"} if module in NUMPY else {"calc"}
    assert set(imported("calc", module)) - allowed - set(sys.stdlib_module_names) == set()


@pytest.mark.parametrize("module", NUMPY)
def test_only_solvers_use_numpy_and_no_leave_has_outlived_its_use(module):
    assert module in SOLVERS
    assert "numpy" in set(imported("calc", module))


@pytest.mark.parametrize("module", CALC)
def test_calc_opens_no_files_and_prints_nothing(module):
    called = {node.func.id for node in ast.walk(tree("calc", module))
              if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)}  # fmt: skip
    assert called & {"open", "print", "input", "eval", "exec", "__import__"} == set()
    outside = {"pathlib", "os", "io", "sys", "time", "datetime", "random", "json", "csv"}
    assert set(imported("calc", module)) & outside == set()


@pytest.mark.parametrize("module", ADDIN)
def test_addin_never_imports_tests(module):
    assert "tests" not in set(imported("addin", module))


# ------------------------------------------------------------------------------------------ units

UNIT_ELSEWHERE = {
    ("number", "literal"): "the unit is that of the formula it stands in",
    ("number", "entry"): "the unit is that of its column",
    ("number", "half_up"): "any number; it keeps its unit",
    ("number", "at_issue"): "any number; it has the unit of `like`",
    ("errors", "require"): "the unit is an argument of its own",
    ("checks", "check"): "the unit is an argument of its own",
    ("skeletons", "levels"): "any numbers; they keep their unit",
    ("measure", "bulked"): "any amount, in the unit it was dug in",
    ("criteria", "criterion"): "the unit is an argument of its own",
}
"""Public functions whose numbers have no unit of their own, and why."""


def arguments_without_unit(module: str) -> Iterator[str]:
    """Number arguments of public functions whose docstring line states no [unit]."""
    for node in tree("calc", module).body:
        if not isinstance(node, ast.FunctionDef) or node.name.startswith("_") or (module, node.name) in UNIT_ELSEWHERE:
            continue
        text = ast.get_docstring(node) or ""
        for arg in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs):
            kind = ast.unparse(arg.annotation) if arg.annotation else ""
            line = re.search(rf"^ *{arg.arg}: (?:.|\n(?! *\w+: ))*", text, re.MULTILINE)
            if re.search(r"\b(?:Number|float)\b", kind) and not (line and re.search(r"\[[^\]]+\]", line[0])):
                yield f"{node.name}({arg.arg})"


@pytest.mark.parametrize("module", CALC)
def test_every_number_argument_of_a_public_function_states_its_unit(module):
    assert list(arguments_without_unit(module)) == []


def test_no_exemption_from_units_has_outlived_its_function():
    functions = {(module, node.name) for module in CALC for node in tree("calc", module).body
                 if isinstance(node, ast.FunctionDef)}  # fmt: skip
    assert set(UNIT_ELSEWHERE) - functions == set()


def records() -> list[type]:
    """Every dataclass of calc."""
    return [
        item
        for module in CALC
        for item in vars(importlib.import_module(f"calc.{module}")).values()
        if isinstance(item, type) and dataclasses.is_dataclass(item) and item.__module__ == f"calc.{module}"
    ]


MUTABLE = {"LineLoad": "collects loads while the solver passes them down"}
POSITIONAL = {
    "Ramp": "four numbers of a solver, in the order of the axis",
    "GridPoint": "read as it is written: letter, number",
}
"""Records of solvers that are not as the others, and why. Names with an underscore are nobody else's business."""

UNITS = {"1/m", "m", "m2", "m3", "m4", "m/kN", "kN", "kN/m", "kN/m2", "kN/m3", "kN m", "kN m2", "kN m3", "kN m4",
         "kN/m2/deg", "deg", "day", "kg", "kg/m", "kg/m3", "No", "No/m2", "No/day", "m3/day", "m/s", "kN s2/m4", "-",
         "money", "money/m2"}  # fmt: skip
"""The units of calc; mm, % and kPa are units of columns only."""

WITHOUT_UNIT = {
    "MovementRow.alarm": "in the unit its row states",
    "MovementRow.stop": "in the unit its row states",
    "CheckRow.demand": "in the unit its row states",
    "CheckRow.capacity": "in the unit its row states",
    "Criterion.demand": "in the unit its row states",
    "Criterion.capacity": "in the unit its row states",
    "MeasuredLine.quantity": "in the unit of its item",
    "WorkItem.quantity": "in the unit its row states",
    "BillItem.quantity": "in the unit its row states",
    **dict.fromkeys(
        ("ItemThen.quantity", "ItemChange.quantity_then", "ItemChange.quantity"), "in the unit its row states"
    ),
    "Entered.value": "in the unit of the Job field that holds it",
    **dict.fromkeys(("Member.half", "Stand.start", "Stand.end", "Rest.at"), "m, as the head of plan says"),
    **dict.fromkeys(
        (f"{name}.{load}" for name in ("Passed", "Drawn") for load in ("dead", "imposed", "lifted")),
        "a fraction or kN handed between solvers, never shown",
    ),
    **dict.fromkeys(
        (f"Ramp.{name}" for name in ("start", "end", "first", "last")), "m and kN/m as the head of line_loads says"
    ),
}
"""Numbers of records without a unit in their field, and why."""


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_records_are_frozen_and_take_their_fields_by_name(record):
    if record.__name__.startswith("_"):
        return
    params = record.__dataclass_params__
    assert params.frozen or record.__name__ in MUTABLE
    assert "__slots__" in vars(record)
    keywords = all(field.kw_only for field in dataclasses.fields(record))
    assert keywords or record.__name__ in MUTABLE | POSITIONAL


def number_fields(record: type) -> Iterator[dataclasses.Field[object]]:
    """Fields that hold one number, or one and nothing."""
    hints = typing.get_type_hints(record)
    for field in dataclasses.fields(record):
        kind = hints[field.name]
        kinds = typing.get_args(kind) if isinstance(kind, types.UnionType) else (kind,)
        if any(getattr(k, "__name__", "") in ("Number", "float") for k in kinds):
            yield field


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_every_number_of_a_record_has_a_unit_and_a_meaning(record):
    if record.__name__.startswith("_") or record.__name__ in MUTABLE:
        return
    lacking = [f.name for f in number_fields(record) if not (f.metadata.get("doc") and f.metadata.get("unit") in UNITS)]
    assert [name for name in lacking if f"{record.__name__}.{name}" not in WITHOUT_UNIT] == []


def test_no_exemption_of_a_field_has_outlived_it():
    fields = {f"{record.__name__}.{f.name}" for record in records() for f in number_fields(record)}
    assert set(WITHOUT_UNIT) - fields == set()


@pytest.mark.parametrize("record", records(), ids=lambda record: record.__name__)
def test_a_record_with_live_numbers_is_never_compared(record):
    # Comparing two of them would ask traced numbers for a decision; they are told apart by identity.
    hints = typing.get_type_hints(record).values()
    live = any(re.search(r"\bNumber\b|\bTraced", str(hint)) for hint in hints)
    assert not (live and record.__dataclass_params__.eq)


# ------------------------------------------------------------------------------------------ decisions

SOLVERS = {
    "outlines": "plane geometry, worked out at issue",
    "skeletons": "plane geometry, worked out at issue",
    "nearby": "what lies near what on plan, worked out at issue",
    "plan": "who meets and carries whom, worked out at issue",
    "plan_rows": "who meets and carries whom, worked out at issue",
    "plan_slabs": "who carries each side of a slab, worked out at issue",
    "plan_bearings": "who stands on whom, worked out at issue",
    "line_loads": "loads along a member, worked out at issue",
    "sharing": "who gets how much, worked out at issue",
    "beam_choice": "the choice out of a list, worked out at issue",
    "base_strips": "which bases run together, worked out at issue",
    "base_overlaps": "which bases run together, worked out at issue",
    "circuits": "a search among groupings, worked out at issue",
    "circuit_search": "a search among groupings, worked out at issue",
    "circuit_balance": "plane geometry and balance for that search, worked out at issue",
    "reseating": "which jacks are released together, worked out at issue",
    "lifting_stations": "where jacks stand until a plan places them, worked out at issue",
    "levelling": "a least plane and an order of strokes, worked out at issue",
    "stations": "which readings are stations, planes and strokes, worked out at issue",
    "beam_loads": "load on a carrier beam, worked out at issue",
    "beam_on_jacks": "reactions of a carrier beam, worked out at issue",
    "beam_cases": "jacks lost, uneven, let go; worked out at issue",
    "complementarity": "which supports touch, worked out at issue",
    "beam_batch": "many layouts at once, worked out at issue",
    "placing": "where jacks go, worked out at issue",
    "placing_rules": "where jacks may stand, worked out at issue",
    "placing_paths": "ways along a wall, worked out at issue",
    "placing_search": "where jacks go, worked out at issue",
    "placing_reasons": "why there is no layout, worked out at issue",
    "jack_lines": "walls as lines for jacks, worked out at issue",
    "jack_supports": "supports of a jack plan, worked out at issue",
    "jack_walls": "jacks under one wall, worked out at issue",
    "jack_columns": "jacks at one column, worked out at issue",
    "jack_on_bases": "bases of a jack plan, worked out at issue",
    "jack_sections": "the choice of carrier beams, worked out at issue",
    "jack_plan_walls": "walls of a jack plan, worked out at issue",
    "jack_steering": "circuits of a jack plan, worked out at issue",
    "circuit_bands": "bands of like load, worked out at issue",
    "jack_plan": "where every jack stands, worked out at issue",
    "jack_plan_rows": "the records of a jack plan, worked out at issue",
    "log_stations": "who is next to whom among the jacks, worked out at issue",
    "quantities_outline": "the outside of the house on plan, worked out at issue",
    "number": "the verbs themselves",
    "errors": "what raises",
    "fields": "field helpers; no number passes through",
}
"""Modules that decide on plain floats; every other module of calc is formulas."""

PLAN = "names of the plan, fixed and guarded"
SHAPE = "how many or which rows there are: fixed at issue, and guarded"
FROZEN = "worked out at issue on floats"
WORDS = "a list of names or codes, no number"
KIND = "which kind of number the run has, not which number"
ISSUE = "a demand on the survey at issue: it raises or reports, and no figure rests on it"
PLACED = "what the jack plan says, worked out at issue and guarded"
SHOWN = "which rows of a list are told; the figures are the same either way"

ALLOWED: dict[tuple[str, str], str] = {
    ("centre", "piece.outside"): PLAN,
    ("changes", "math.isclose(value_of(one), value_of(other), rel_tol=1e-12)"): SHOWN,
    ("changes", "_differ(row.quantity, row.quantity_then)"): SHOWN,
    ("changes", "_differ(row.rate, row.rate_then)"): SHOWN,
    ("checks", "pad.name in spacings"): PLAN,
    ("checks", "row.name not in found.laid_out"): PLACED,
    ("checks", "pad.name not in found.laid_out"): PLACED,
    ("carrier_rows", "section.name in used"): PLACED,
    ("carrier_rows", "int(state.state in ACCIDENTAL)"): WORDS,
    ("carrier_rows", "member.states"): PLACED,
    ("estimate", "prepared.jacks"): PLACED,
    ("estimate", "prepared.basis"): PLACED,
    ("estimate", "int(planned is not None and planned.kit is not None)"): PLACED,
    ("estimate", "member.states"): PLACED,
    ("estimate", "member.section in masses"): PLACED,
    ("estimate", "float(sum((not member.states for member in prepared.jacks.members)))"): PLACED,
    ("estimate", "sum((not member.states for member in prepared.jacks.members))"): PLACED,
    ("base_checks", "thing.kind in VOIDS"): WORDS,
    ("lift_kit", "rows"): SHAPE,
    ("lift_kit", "TYPES.get(item.kind) == kind"): WORDS,
    ("planned", "depths"): SHAPE,
    ("planned", "name in {order.section for order in orders}"): PLACED,
    ("jack_state_rows", "int(state.state in PASSING)"): WORDS,
    ("jacks", "usual"): PLACED,
    ("jacks", "plan"): PLACED,
    ("jacks", "inputs"): PLACED,
    ("jacks", "planned"): PLACED,
    ("jacks", "{}"): PLACED,
    ("plan_checks", "max((circuit.deviation for circuit in planned.plan.steering.circuits))"): PLACED,
    ("plan_checks", "member.states"): PLACED,
    ("plan_checks", "member.why_not"): PLACED,
    ("planned", "beam"): PLAN,
    ("planned", "member.why_not"): PLACED,
    ("planned", "sum((not jack.circuit for jack in self.found.jacks))"): PLACED,
    ("planned", "steering"): PLACED,
    ("planned", "lost.stands"): PLACED,
    ("planned", "lost.bare"): PLACED,
    ("planned", "member.states"): PLACED,
    ("planned", "member.section in self.sections"): PLACED,
    (
        "planned",
        "max((value_of(load_factor(s.state, self.basis.rules.steel)) * s.moment for s in member.states))",
    ): PLACED,
    ("planned", "jack.circuit"): PLACED,
    ("planned", "member.proven"): PLACED,
    ("planned", "self.found.kind"): PLACED,
    ("estimate", "item.code in FOLLOW_UP"): WORDS,
    ("lifting", "stations"): SHAPE,
    ("lifting_push", "len(stations) < 2"): SHAPE,
    ("levels", "len(levels) > 1"): PLAN,
    ("levels", "levels"): PLAN,
    ("levels", "rows"): PLAN,
    ("centre", "share.panel in panels"): PLAN,
    ("ground", "side.panel not in floors"): PLAN,
    ("own_loads", "piece.carrier"): PLAN,
    ("own_loads", "panel.closed"): PLAN,
    ("own_loads", "on in straight"): PLAN,
    ("own_loads", "piece.edge in bearing_edges(panel.outline, panel.span)"): PLAN,
    ("own_loads", "rows"): SHAPE,
    ("own_loads", "len(heights) > 1"): SHAPE,
    ("own_loads", "len(slabs) > 1"): SHAPE,
    ("own_loads", "worked_out"): PLAN,
    ("own_loads", "row.panel in carried"): PLAN,
    ("own_loads", "over"): SHAPE,
    ("own_loads", "row.kind in ('wall', 'beam')"): PLAN,
    ("own_loads", "heights"): SHAPE,
    ("own_loads", "slabs"): SHAPE,
    ("own_loads", "p.wall_on_line"): PLAN,
    ("own_loads", "int(piece.outside)"): PLAN,
    ("plan_view", "sorted(there, key=lambda row: value_of(row.from_start))"): PLAN,
    ("plan_view", "flat"): SHOWN,
    ("plan_view", "jack.circuit != circuit"): PLAN,
    ("prices", "(missing := [str(item.code) for item in items if item.code.casefold() not in known])"): ISSUE,
    ("prices", "value_of(item.quantity) != 0"): ISSUE,
    ("prices", "rate > 0"): ISSUE,
    ("prices", "hasattr(measured, 'm_as')"): KIND,
    ("prices", "amounts"): SHAPE,
    ("prices", "item.code.casefold() not in known"): WORDS,
    ("quantities", "(strange := sorted({line.code for line in lines} - known))"): WORDS,
    ("quantities", "sorted({line.code for line in lines} - known)"): WORDS,
    ("quantities_lines", "value_of(room.slab)"): PLAN,
    ("quantities_lines", "pillar.place in places"): PLAN,
    ("quantities_openings", "leads_out"): FROZEN,
    ("quantities_workings", "beside(self._at(e, 'start'), self._at(e, 'end'), point, near)"): FROZEN,
    ("quantities_workings", "value_of(faces) <= 4 * member.half + TOLERANCE"): FROZEN,
    ("settlement", "value_of(house.settled) == 0"): FROZEN,
    ("settlement", "isinstance(work, str)"): FROZEN,
    ("settlement", "len(counts) == 0"): SHAPE,
    ("quantities_workings", "ground_wall"): FROZEN,
    ("quantities_workings", "beside(member.start, member.end, point, near + member.half)"): FROZEN,
    ("quantities_workings", "contains(outline, point)"): FROZEN,
    ("quantities_workings", "text_of(wall.name) not in known"): PLAN,
    ("quantities_workings", "int(room.above == 'slab')"): PLAN,
    ("quantities_workings", "contains(outline, middle)"): FROZEN,
    ("quantities_workings", "edge.wall == wall"): PLAN,
    ("quantities_workings", "beside(self._at(edge, 'start'), self._at(edge, 'end'), place, TOLERANCE)"): FROZEN,
    ("quantities_workings", "piece.wall"): PLAN,
    ("quantities_workings", "int(name == FREE)"): PLAN,
    ("quantities_workings", "max(value_of(breadth), value_of(depth))"): FROZEN,
    ("release", "float(sum((base.footing == NOT_SURVEYED for base in bases)))"): PLAN,
    ("release", "sum((base.footing == NOT_SURVEYED for base in bases))"): PLAN,
    ("take_down", "drawn.even"): FROZEN,
    ("take_down", "what in ('slabs and roofs', 'attached things')"): WORDS,
    ("take_down", "row.on in self.plan.members"): PLAN,
    ("take_down", "row.on in self.plan.columns"): PLAN,
    ("take_down", "sorted(self.plan.storeys, reverse=True)"): PLAN,
    ("take_down", "sorted({self.plan.beam_ranks[text_of(row.name)] for row in beams})"): PLAN,
    ("take_down", "passed.full"): PLAN,
    ("take_down", "passed.upper not in known"): PLAN,
    ("take_down", "name not in known"): PLAN,
    ("take_down", "rest.point"): PLAN,
    ("take_down", "order == 0"): SHAPE,
    ("take_down", "rows"): SHAPE,
    ("take_down", "share.panel == row.on"): PLAN,
    ("take_down", "self.plan.beam_ranks[text_of(row.name)] == rank"): PLAN,
    ("take_down", "order"): SHAPE,
    ("take_down", "order + 1 < len(group)"): SHAPE,
    ("take_down", "sum(block.beams, ())"): PLAN,
}
"""Decisions in formula modules that are neither on texts nor on a storey: module and source of each, and why."""

_DECIDING = {"max", "min", "sorted", "round", "abs", "int", "float", "bool", "any", "all", "sum"}


def decisions(module: str) -> Iterator[tuple[int, str]]:
    """Every decision of a module but those on texts: line and source of each single test."""
    for node in ast.walk(tree("calc", module)):
        tests: list[ast.expr] = []
        if isinstance(node, (ast.If, ast.IfExp, ast.While, ast.Assert)):
            tests = [node.test]
        elif isinstance(node, ast.comprehension):
            tests = node.ifs
        elif isinstance(node, ast.Match):
            tests = [node.subject]
        elif isinstance(node, ast.expr) and _decides(node):
            tests = [node]
        for test in tests:
            yield from ((part.lineno, ast.unparse(part)) for part in _parts(test) if not _on_a_text(part))


def _decides(node: ast.expr) -> bool:
    """Whether an expression decides by itself: and, or, not, max() and their like."""
    if isinstance(node, ast.Call):
        return isinstance(node.func, ast.Name) and node.func.id in _DECIDING
    return isinstance(node, ast.BoolOp) or (isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not))


def _parts(test: ast.expr) -> Iterator[ast.expr]:
    """The single tests of `and`, `or`, `not`, and of any() and all() over a generator."""
    if isinstance(test, ast.BoolOp):
        for value in test.values:
            yield from _parts(value)
    elif isinstance(test, ast.UnaryOp) and isinstance(test.op, ast.Not):
        yield from _parts(test.operand)
    elif isinstance(test, ast.Call) and ast.unparse(test.func) in ("any", "all") and _generates(test.args[0]):
        yield from _parts(test.args[0].elt)  # type: ignore[attr-defined]  # a generator, as just asked
    else:
        yield test


def _generates(arg: ast.expr) -> bool:
    return isinstance(arg, ast.GeneratorExp)


def _on_a_text(test: ast.expr) -> bool:
    """Whether a test compares texts or storeys or asks for None. A traced text that strays in raises when it runs."""
    if not isinstance(test, ast.Compare):
        return _is_a_word(test)
    if not all(isinstance(op, (ast.Eq, ast.NotEq, ast.Is, ast.IsNot)) for op in test.ops):
        return False
    return any(
        _is_a_word(side)
        or (isinstance(side, ast.Constant) and side.value is None)
        or (isinstance(side, ast.Attribute) and side.attr in ("storey", "name", "stage"))
        or (isinstance(side, ast.Call) and ast.unparse(side.func) == "text_of")
        for side in (test.left, *test.comparators)
    )


def _is_a_word(part: ast.expr) -> bool:
    """A text written out, or the name of a constant."""
    written = isinstance(part, ast.Constant) and isinstance(part.value, str)
    return written or (isinstance(part, ast.Name) and part.id.isupper())


FORMULAS = [module for module in CALC if module not in SOLVERS]


@pytest.mark.parametrize("module", FORMULAS)
def test_a_formula_takes_no_decision_on_a_number(module):
    strange = [f"calc/{module}.py:{line}: {text}" for line, text in decisions(module) if (module, text) not in ALLOWED]
    assert strange == [], "use where(), both(), either(), maximum() ..., or list it in ALLOWED with the reason"


def test_no_allowed_decision_has_outlived_its_line():
    there = {(module, source) for module in FORMULAS for _, source in decisions(module)}
    assert set(ALLOWED) - there == set()


@pytest.mark.parametrize(("source", "found"), [
    ("x = 1 if load > usable else 2", ["load > usable"]),
    ("x = load or 2", ["load", "2"]),
    ("x = not load", ["load"]),
    ("x = max(load, 2)", ["max(load, 2)"]),
    ("x = [a for a in b if a > 0]", ["a > 0"]),
    ("while load: pass", ["load"]),
    ("x = any(a > 0 for a in b)", ["a > 0"]),
    ("x = 1 if kind == 'wall' else 2", []),
    ("x = 1 if side is None else 2", []),
    ("x = 1 if load in (1, 2) else 2", ["load in (1, 2)"]),
    ("x = round(load)", ["round(load)"]),
    ("assert load", ["load"]),
    ("match load:\n  case 1: pass", ["load"]),
    ("x = 1 if a == 'b' and load > 2 else 3", ["load > 2"]),
])  # fmt: skip
def test_the_search_for_decisions_finds_them(source, found, monkeypatch):
    monkeypatch.setattr(sys.modules[__name__], "tree", lambda *_: ast.parse(source))
    assert {text for _, text in decisions("any")} == set(found)
