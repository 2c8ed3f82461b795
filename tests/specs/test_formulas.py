"""What every formula owes its reader: a page that fits its signature, an example that runs, dimensions that agree."""

from __future__ import annotations

import doctest
import re
from collections.abc import Callable
from inspect import Parameter, signature
from math import isfinite
from types import ModuleType
from typing import Any, get_type_hints

import pytest
from formulas import BASE_UNITS, FORMULAS, MODULES, SOUND, WITH_UNITS_OF_THEIR_OWN, kind_of, quantity_given
from hypothesis import given, settings
from hypothesis import strategies as st
from sound_valves import LIFTS

from logbook.quantity.curve import Curve
from logbook.specs.every import Every

Formula = Callable[..., float]

DOCUMENTED = re.compile(r"^    ([a-z]\w*) \[(.+?)\]: \S", re.MULTILINE)
RETURNS = re.compile(r"^    Returns \[(.+?)\][.:]", re.MULTILINE)

#: Powers of length, mass, time and temperature in each kind of unit; angles, ratios, counts and shares have none.
POWERS = {
    "length": (1, 0, 0, 0), "area": (2, 0, 0, 0), "volume": (3, 0, 0, 0), "engine_speed": (0, 0, -1, 0),
    "speed": (1, 0, -1, 0), "pressure_gauge": (-1, 1, -2, 0), "pressure_absolute": (-1, 1, -2, 0),
    "pressure_difference": (-1, 1, -2, 0), "temperature": (0, 0, 0, 1), "density": (-3, 1, 0, 0),
    "volume_flow": (3, 0, -1, 0), "mass_flow": (0, 1, -1, 0), "time": (0, 0, 1, 0), "angle": (0, 0, 0, 0),
    "ratio": (0, 0, 0, 0), "count": (0, 0, 0, 0), "share": (0, 0, 0, 0), "force": (1, 1, -2, 0),
    "spring_rate": (0, 1, -2, 0), "lift_area": (1, 0, 0, 0),
    "torque": (2, 1, -2, 0), "power": (2, 1, -3, 0), "distance": (1, 0, 0, 0), "consumption": (2, 0, 0, 0),
    "share_rate": (0, 0, -1, 0), "viscosity": (2, 0, -1, 0), "specific_output": (-1, 1, -3, 0),
    "specific_consumption": (-2, 0, 2, 0), "specific_energy": (2, 0, -2, 0),
    "acceleration": (1, 0, -2, 0), "mass": (0, 1, 0, 0), "stress": (-1, 1, -2, 0), "expansion": (0, 0, 0, -1),
    "temperature_difference": (0, 0, 0, 1),
}  # fmt: skip


def test_all_formulas_are_found() -> None:
    one_of_each_module = {
        "swept_volume",
        "compression_ratio",
        "piston_travel",
        "valve_overlap",
        "cranking_pressure_least",
    }
    assert one_of_each_module <= {formula.__name__ for formula in FORMULAS}


def test_arguments_are_by_keyword_and_one_figure_or_every() -> None:
    for formula in FORMULAS:
        parameters = signature(formula).parameters.values()
        hints = get_type_hints(formula)
        assert all(each.kind is Parameter.KEYWORD_ONLY and each.default is Parameter.empty for each in parameters), (
            formula.__name__
        )
        assert all(hints[each.name] in (float, Every, Curve) for each in parameters), formula.__name__
        assert hints["return"] is float, formula.__name__


def test_the_page_names_each_argument_with_its_base_unit() -> None:
    for formula in FORMULAS:
        expected = [(name, BASE_UNITS[kind_of(name)]) for name in signature(formula).parameters]
        assert DOCUMENTED.findall(formula.__doc__ or "") == expected, formula.__name__


def test_the_page_says_what_is_returned_where_it_holds_and_where_it_is_from() -> None:
    for formula in FORMULAS:
        page = formula.__doc__ or ""
        assert RETURNS.findall(page) == [BASE_UNITS[kind_of(quantity_given(formula))]], formula.__name__
        assert "    Validity: " in page, formula.__name__
        assert "    Source: [1] " in page, formula.__name__
        assert ">>> " in page, formula.__name__


@pytest.mark.parametrize("module", MODULES, ids=lambda each: each.__name__)
def test_examples_run(module: ModuleType) -> None:
    failed, tried = doctest.testmod(module)
    assert tried > 0
    assert failed == 0


@pytest.mark.parametrize("module", MODULES, ids=lambda each: each.__name__)
def test_the_module_begins_with_an_index_of_its_formulas(module: ModuleType) -> None:
    own = {formula.__name__ for formula in FORMULAS if formula.__module__ == module.__name__}
    assert own <= set(re.findall(r"\w+", module.__doc__ or ""))


Scales = tuple[float, float, float, float]


def scaled(name: str, figure: float, by: Scales) -> float:
    length, mass, time, temperature = POWERS[kind_of(name)]
    return float(figure * by[0] ** length * by[1] ** mass * by[2] ** time * by[3] ** temperature)


def test_what_has_units_of_its_own_is_there() -> None:
    assert {formula.__name__ for formula in FORMULAS} >= WITH_UNITS_OF_THEIR_OWN


@pytest.mark.parametrize(
    "formula",
    [formula for formula in FORMULAS if formula.__name__ not in WITH_UNITS_OF_THEIR_OWN],
    ids=lambda each: each.__name__,
)
@settings(max_examples=10)  # a wrong dimension shows at almost every one
@given(data=st.data(), by=st.tuples(*[st.floats(0.01, 100)] * 4))
def test_the_choice_of_units_changes_nothing(formula: Formula, data: st.DataObject, by: Scales) -> None:
    hints = get_type_hints(formula)
    sound: dict[str, Any] = {}
    in_other_units: dict[str, Any] = {}
    for name in signature(formula).parameters:
        if hints[name] is float:
            sound[name] = data.draw(SOUND[name], label=name)
            in_other_units[name] = scaled(name, sound[name], by)
        elif hints[name] is Curve:
            curve = sound[name] = data.draw(LIFTS[name], label=name)
            in_other_units[name] = Curve.through(curve.at, tuple(scaled(name, each, by) for each in curve.values))
        else:
            sound[name] = data.draw(st.lists(SOUND[name], min_size=1, max_size=16), label=name)
            in_other_units[name] = [scaled(name, each, by) for each in sound[name]]
    result = formula(**sound)
    assert isfinite(result)
    rounding = 1e-12 * abs(scaled(quantity_given(formula), 1.0, by))  # where nearly equal lengths are subtracted
    assert formula(**in_other_units) == pytest.approx(
        scaled(quantity_given(formula), result, by), rel=1e-9, abs=rounding
    )
