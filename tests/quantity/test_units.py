"""The table of units against pint and against NIST SP 811."""

from collections.abc import Mapping
from fractions import Fraction
from itertools import product

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.quantity.units import BARE, KIND_WORDS, UNITS, Unit, UnknownUnit, is_unit, unit, units_of

#: Our symbol → pint's name. pint has no gauge pressure, its cfm is a centi-femtometre and its PS a petasiemens.
PINT: Mapping[str, str] = {
    "mm": "millimeter",
    "in": "inch",
    "thou": "thou",
    "um": "micrometer",
    "cm": "centimeter",
    "m": "meter",
    "ft": "foot",
    "km": "kilometer",
    "mi": "mile",
    "cm2": "centimeter**2",
    "sq in": "inch**2",
    "mm2": "millimeter**2",
    "deg mm": "degree*millimeter",
    "deg in": "degree*inch",
    "m2": "meter**2",
    "cc": "cc",
    "cu in": "inch**3",
    "l": "liter",
    "m3": "meter**3",
    "US gal": "gallon",
    "imp gal": "imperial_gallon",
    "g": "gram",
    "kg": "kilogram",
    "lb": "pound",
    "oz": "ounce",
    "h": "hour",
    "min": "minute",
    "s": "second",
    "ms": "millisecond",
    "day": "day",
    "deg": "degree",
    "rpm": "revolution/minute",
    "m/s": "meter/second",
    "ft/min": "foot/minute",
    "ft/s": "foot/second",
    "km/h": "kilometer/hour",
    "mph": "mile/hour",
    "m/s2": "meter/second**2",
    "ft/s2": "foot/second**2",
    "N": "newton",
    "lbf": "force_pound",
    "kN": "kilonewton",
    "kgf": "force_kilogram",
    "N/mm": "newton/millimeter",
    "lbf/in": "force_pound/inch",
    "N m": "newton*meter",
    "lbf ft": "force_pound*foot",
    "lbf in": "force_pound*inch",
    "kgf m": "force_kilogram*meter",
    "J": "joule",
    "kJ": "kilojoule",
    "kW": "kilowatt",
    "hp": "horsepower",
    "PS": "metric_horsepower",
    "W": "watt",
    "bar gauge": "bar",
    "psi gauge": "psi",
    "kPa gauge": "kilopascal",
    "kgf/cm2 gauge": "force_kilogram/centimeter**2",
    "kPa absolute": "kilopascal",
    "bar absolute": "bar",
    "psi absolute": "psi",
    "hPa": "hectopascal",
    "Pa absolute": "pascal",
    "inHg": "inch_Hg",
    "mmHg": "millimeter_Hg",
    "inH2O": "inch_H2O",
    "mmH2O": "inch_H2O*millimeter/inch",
    "kPa": "kilopascal",
    "Pa": "pascal",
    "bar": "bar",
    "psi": "psi",
    "degC": "degree_Celsius",
    "degF": "degree_Fahrenheit",
    "K": "kelvin",
    "K difference": "kelvin",
    "degF difference": "delta_degree_Fahrenheit",
    "N/mm2": "newton/millimeter**2",
    "kN/mm2": "kilonewton/millimeter**2",
    "ksi": "kilopound_force/inch**2",
    "ppm/K": "ppm/kelvin",
    "ppm/degF": "ppm/delta_degree_Fahrenheit",
    "m3/h": "meter**3/hour",
    "cfm": "foot**3/minute",
    "l/s": "liter/second",
    "l/min": "liter/minute",
    "cc/min": "cc/minute",
    "l/h": "liter/hour",
    "m3/s": "meter**3/second",
    "kg/h": "kilogram/hour",
    "lb/h": "pound/hour",
    "g/s": "gram/second",
    "kg/s": "kilogram/second",
    "kg/m3": "kilogram/meter**3",
    "mg/l": "milligram/liter",
    "g/cc": "gram/cc",
    "%": "percent",
    "mg/kg": "milligram/kilogram",
    "mg/kg/h": "milligram/kilogram/hour",
    "cSt": "centistokes",
    "l per 1000 km": "milliliter/kilometer",
    "l per 100 km": "centiliter/kilometer",
    "kW/l": "kilowatt/liter",
    "hp/cu in": "horsepower/inch**3",
    "g/kWh": "gram/(kilowatt*hour)",
    "lb/hp h": "pound/(horsepower*hour)",
    "MJ/kg": "megajoule/kilogram",
    "kJ/kg": "kilojoule/kilogram",
    "Btu/lb": "Btu_it/pound",
}

#: Kind → pint's name of our base unit.
BASE: Mapping[str, str] = {
    "length": "meter",
    "distance": "meter",
    "area": "meter**2",
    "lift_area": "degree*meter",
    "volume": "meter**3",
    "mass": "kilogram",
    "time": "second",
    "angle": "degree",
    "engine_speed": "revolution/second",
    "speed": "meter/second",
    "acceleration": "meter/second**2",
    "force": "newton",
    "stress": "pascal",
    "expansion": "1/kelvin",
    "spring_rate": "newton/meter",
    "torque": "newton*meter",
    "energy": "joule",
    "power": "watt",
    "pressure_gauge": "pascal",
    "pressure_absolute": "pascal",
    "pressure_difference": "pascal",
    "temperature": "kelvin",
    "temperature_difference": "kelvin",
    "volume_flow": "meter**3/second",
    "mass_flow": "kilogram/second",
    "density": "kilogram/meter**3",
    "share": "dimensionless",
    "share_rate": "1/second",
    "viscosity": "meter**2/second",
    "consumption": "meter**2",
    "specific_output": "watt/meter**3",
    "specific_consumption": "kilogram/joule",
    "specific_energy": "joule/kilogram",
}

#: NIST SP 811 (2008), appendix B.8: factors as printed there, to seven digits where they are rounded. From memory.
SP_811: tuple[tuple[str, float], ...] = (
    ("in", 0.0254),
    ("ft", 0.3048),
    ("mi", 1609.344),
    ("thou", 2.54e-5),
    ("sq in", 6.4516e-4),
    ("cu in", 1.638706e-5),
    ("US gal", 3.785412e-3),
    ("imp gal", 4.54609e-3),
    ("lb", 0.4535924),
    ("oz", 2.834952e-2),
    ("lbf", 4.448222),
    ("kgf", 9.80665),
    ("lbf ft", 1.355818),
    ("lbf in", 0.1129848),
    ("kgf m", 9.80665),
    ("lbf/in", 175.1268),
    ("psi", 6894.757),
    ("kgf/cm2 gauge", 98066.5),
    ("hp", 745.6999),
    ("PS", 735.4988),
    ("cfm", 4.719474e-4),
    ("lb/h", 1.259979e-4),
    ("mph", 0.44704),
    ("ft/min", 5.08e-3),
    ("ft/s", 0.3048),
    ("ft/s2", 0.3048),
    ("ksi", 6.894757e6),
    ("km/h", 0.2777778),
    ("inHg", 3386.389),
    ("mmHg", 133.3224),
    ("inH2O", 249.0889),
    ("mmH2O", 9.80665),
    ("degF difference", 0.5555556),
)


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def test_every_unit_is_checked_against_pint() -> None:
    assert set(PINT) == {row.symbol for row in UNITS}


def test_conversion_agrees_with_pint(registry: pint.UnitRegistry) -> None:
    for row, number in product(UNITS, (1.0, -40.0, 86.5)):
        theirs = registry.Quantity(number, PINT[row.symbol]).to(BASE[row.kind]).magnitude
        assert row.to_base(number) == pytest.approx(theirs, rel=1e-11), row.symbol


@pytest.mark.parametrize(("symbol", "factor"), SP_811)
def test_factor_agrees_with_sp_811(symbol: str, factor: float) -> None:
    assert unit(symbol).size(1) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(
    ("symbol", "factor"),
    [
        # the defining constants themselves, multiplied out by hand; exact
        ("lbf", "4.4482216152605"),
        ("PS", "735.49875"),
        ("cu in", "0.000016387064"),
        ("US gal", "0.003785411784"),
        ("inH2O", "249.08891"),
        ("mmHg", "133.322387415"),
        ("inHg", "3386.388640341"),
        ("cfm", "0.0004719474432"),
        ("lbf ft", "1.3558179483314004"),
        ("mi", "1609.344"),
    ],
)
def test_factor_is_exact(symbol: str, factor: str) -> None:
    assert unit(symbol).factor == Fraction(factor)


@pytest.mark.parametrize(("celsius", "fahrenheit"), [("0", 32), ("100", 212), ("-40", -40), ("25", 77)])
def test_fahrenheit_meets_celsius(celsius: str, fahrenheit: int) -> None:
    """The fixed points of the two scales."""
    degc, degf = unit("degC"), unit("degF")
    assert Fraction(celsius) * degc.factor + degc.offset == fahrenheit * degf.factor + degf.offset


def test_temperature_difference_has_no_offset() -> None:
    assert unit("degF").size(9) == pytest.approx(5)
    assert unit("degC difference").to_base(5) == 5


@given(st.sampled_from(UNITS), st.floats(-1e6, 1e6))
def test_there_and_back(row: Unit, number: float) -> None:
    assert row.from_base(row.to_base(number)) == pytest.approx(number, rel=1e-12, abs=1e-9)
    assert row.from_size(row.size(number)) == pytest.approx(number, rel=1e-12)


def test_names_are_unique() -> None:
    names = [name for row in UNITS for name in (row.symbol, *row.aliases)]
    assert len(names) == len(set(names))


def test_every_kind_has_words_and_the_bare_ones_no_unit() -> None:
    assert {row.kind for row in UNITS} | {"ratio", "count"} == set(KIND_WORDS)
    assert units_of("ratio") == ()
    assert BARE.to_base(9.2) == 9.2


def test_of_each_kind_the_usual_unit_comes_first() -> None:
    assert [units_of(kind)[0].symbol for kind in ("length", "volume", "torque", "pressure_gauge")] == [
        "mm",
        "cc",
        "N m",
        "bar gauge",
    ]


@pytest.mark.parametrize(
    ("alias", "symbol"),
    [
        ("ml", "cc"),
        ("mL", "cc"),
        ("cm3", "cc"),
        ("cm³", "cc"),
        ("ci", "cu in"),
        ("in^3", "cu in"),
        ("°", "deg"),
        ("rev/min", "rpm"),
        ("µm", "um"),
        ("μm", "um"),
        ("L", "l"),
        ("psig", "psi gauge"),
        ("bara", "bar absolute"),
        ("°C", "degC"),
        ("N·m", "N m"),
        ("bar  gauge", "bar gauge"),
        (" mm ", "mm"),
        ("mbar", "hPa"),
    ],
)
def test_aliases(alias: str, symbol: str) -> None:
    assert unit(alias).symbol == symbol


@pytest.mark.parametrize(
    ("slip", "mend"),
    [
        # usual slips
        ("Nm", "write N m"),
        ("nm", "write N m"),
        ("lb ft", "write lbf ft"),
        ("ft lb", "write lbf ft"),
        ("lb-ft", "write lbf ft"),
        ("ft.lbs", "write lbf ft"),
        ("in-lb", "write lbf in"),
        ("mkg", "write kgf m"),
        ("mil", "write thou"),
        ("gal", "write US gal or imp gal"),
        ("lb/in", "write lbf/in"),
        ("HP", "write hp for mechanical or PS for metric horsepower"),
        ("cv", "write PS"),
        ('"', "write in"),
        ("kg/cm2", "write kgf/cm2 gauge"),
        ("kph", "write km/h"),
        ("C", "write degC"),
        # another case
        ("CC", "write cc"),
        ("PSI", "write psi"),
        ("RPM", "write rpm"),
        ("MM", "write mm"),
        ("KW", "write kW"),
        ("CFM", "write cfm"),
        ("Bar Gauge", "write bar gauge"),
        # something near, or nothing
        ("milimetre", "write mm if that is meant"),
        ("furlong", "write one that is, such as mm, cc or deg"),
        ("", "write one that is, such as mm, cc or deg"),
    ],
)
def test_what_is_no_unit_says_what_to_write(slip: str, mend: str) -> None:
    with pytest.raises(UnknownUnit) as caught:
        unit(slip)
    assert str(caught.value) == f"'{slip}' is not a unit that is known here: {mend}"
    assert not is_unit(slip)


def test_torque_is_not_energy_and_bar_says_no_zero_point() -> None:
    assert unit("N m").kind != unit("J").kind
    assert {unit(symbol).kind for symbol in ("bar", "bar gauge", "bar absolute")} == {
        "pressure_difference",
        "pressure_gauge",
        "pressure_absolute",
    }


@given(st.text(max_size=60))
def test_any_text_is_a_unit_or_an_unknown_one(text: str) -> None:
    try:
        found = unit(text)
    except UnknownUnit:
        return
    assert found in UNITS
