"""The wrappers: committed text equals what the declarations give, names will do, limits of the host are kept."""

import inspect
import re

import pytest

from addin.excel import udfs
from addin.functions import FUNCTIONS
from addin.macros import wrappers
from addin.macros.wrappers import argument_faults, functions_module, name_faults
from addin.worksheet import Argument, Function
from tests.addin.macro_readers import committed, procedure


def declared(name: str = "PLINTH_TRY", text: str = "help", arguments: tuple[Argument, ...] = ()) -> Function:
    return Function(name=name, category="Plinth loads", help=text, arguments=arguments, gives="m", act=float)


def argument(name: str, doc: str = "what it is", default: float | None = None) -> Argument:
    return Argument(name=name, unit="m", doc=doc, default=default)


def test_the_committed_wrappers_are_those_the_declarations_give():
    assert committed(wrappers.MODULE) == functions_module(), "run: python -m addin.macros.wrappers"


@pytest.mark.parametrize("function", FUNCTIONS.values(), ids=lambda function: function.name)
def test_a_wrapper_declares_and_passes_every_argument_in_order(function):
    text = procedure(committed(wrappers.MODULE), function.name).replace(" _\n", " ")
    first, *body = [re.sub(r"\s+", " ", line).strip() for line in text.splitlines()]
    names = [argument.name for argument in function.arguments]
    assert re.findall(r"(?:Optional )?(\w+)[,)]", first) == names
    assert f'PlinthCall("{function.name}", ' in body[1]
    assert re.findall(r"PlinthPlain\((\w+)\)", body[1]) == names
    assert body[0] == "On Error GoTo failed"
    assert body[2:] == ["Exit Function", "failed:", f"{function.name} = CVErr(2015)", "End Function"]


def test_arguments_at_the_end_that_have_a_default_are_optional_and_none_before_them():
    some = declared(arguments=(argument("one", default=1.5), argument("two"), argument("three", default=2.5)))
    assert "Function PLINTH_TRY(one, two, Optional three)" in functions_module([some])


def test_a_wrapper_asks_for_what_the_function_of_python_asks_for():
    text = functions_module()
    for name in FUNCTIONS:
        first = procedure(text, name).replace(" _\n", " ").splitlines()[0]
        optional = re.findall(r"Optional (\w+)", first)
        parameters = inspect.signature(getattr(udfs, name)).parameters.values()
        assert optional == [p.name for p in parameters if p.default is not inspect.Parameter.empty], name


def test_every_error_python_may_answer_becomes_a_true_one():
    cases = dict(re.findall(r'Case "(#[^"]+)": PlinthShown = CVErr\((\d+)\)', committed("PlinthCalls")))
    assert {text: int(number) for text, number in cases.items()} == udfs.ERROR_NUMBERS


def test_every_function_is_described_with_each_argument():
    text = procedure(committed(wrappers.MODULE), "PlinthDescribeAll").replace(" _\n", " ")
    calls = [line.strip() for line in text.splitlines()[1:-1]]
    for function, line in zip(FUNCTIONS.values(), calls, strict=True):
        said = [part.replace('""', '"') for part in re.findall(r'"((?:[^"]|"")*)"', line)]
        assert said[:3] == [function.name, function.help, function.category]
        assert said[3:] == [argument.help for argument in function.arguments]


def test_the_names_of_all_functions_and_arguments_will_do():
    assert name_faults(FUNCTIONS) == []
    assert [fault for function in FUNCTIONS.values() for fault in argument_faults(function)] == []


@pytest.mark.parametrize(
    ("name", "fault"),
    [
        ("WALL_WEIGHT", "does not begin with PLINTH_"),
        ("plinth_jacks", "does not begin with PLINTH_"),
        ("LVL2", "looks like a cell"),
        ("xfd1048576", "looks like a cell"),
        ("R1C1", "looks like a cell"),
        ("RC", "looks like a cell"),
        ("Nothing", "is a word of VBA"),
        ("ReDim", "is a word of VBA"),
        ("PLINTH_WALL-WEIGHT", "is not made of letters, digits and _"),
        ("PLINTH_" + "X" * 25, "is longer than 31 characters"),
    ],
)
def test_a_name_that_will_not_do_is_found(name, fault):
    assert f"{name} {fault}" in name_faults([name])


def test_a_name_that_is_there_twice_is_found_whatever_its_capitals():
    assert name_faults(["PLINTH_FILL", "PLINTH_fill"]) == ["PLINTH_fill is there twice"]


@pytest.mark.parametrize(
    ("names", "fault"),
    [
        (["type"], "type is a word of VBA"),
        (["Load", "LOAD"], "LOAD of PLINTH_TRY is there twice"),
        (["failed"], "is a word of the wrapper"),
        (["PlinthCall"], "is a word of the wrapper"),
        (["plinth_try"], "is there twice"),
        (["load kN"], "is not made of letters"),
    ],
)
def test_an_argument_that_will_not_do_stops_the_writing(names, fault):
    bad = declared(arguments=tuple(map(argument, names)))
    assert any(fault in found for found in argument_faults(bad))
    with pytest.raises(ValueError, match=re.escape(fault)):
        functions_module([bad])


@pytest.mark.parametrize(
    "bad",
    [
        declared(text="x" * 256),
        declared(arguments=(argument("one", "x" * 254),)),
        declared(text="10\u00b0"),
        declared(arguments=tuple(argument(f"an_argument_with_a_long_name_{n}") for n in range(60))),
    ],
    ids=["long help", "long help of an argument", "not ASCII", "many lines"],
)
def test_what_the_host_does_not_take_stops_the_writing(bad):
    with pytest.raises(ValueError, match=r"longer than|ASCII|continued lines"):
        functions_module([bad])


def test_help_at_the_limit_is_taken_whole():
    assert f'"{"x" * 255}"' in functions_module([declared(text="x" * 255)])


def test_lines_and_continuations_stay_within_the_limits_of_the_host():
    lines = committed(wrappers.MODULE).splitlines()
    assert max(map(len, lines)) < 1024
    continued = "".join("c" if line.endswith(" _") else "." for line in lines)
    assert max(map(len, re.findall("c+", continued))) <= 24
