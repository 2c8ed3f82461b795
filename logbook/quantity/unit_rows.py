"""The table of units, and what people write instead.

Every factor is exact and follows from a defining constant that stands by name. Sources: the international yard and
pound of 1959 and NIST SP 811 (2008), appendix B, for the units of the United States; conventional columns of mercury
(13595.1 kg/m3) and water (1000 kg/m3) under standard gravity for the pressures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: base = number x factor + offset, exact. The offset is not 0 for degC and degF only."""

    symbol: str
    kind: str
    factor: Fraction
    offset: Fraction = Fraction(0)
    aliases: tuple[str, ...] = ()
    remark: str = ""
    _up: float = field(init=False, repr=False, compare=False)
    _down: float = field(init=False, repr=False, compare=False)
    _zero: float = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        # Numerator and denominator apart: 86 x 1 / 1000 is nearer to 0.086 than 86 x 0.001 is.
        object.__setattr__(self, "_up", float(self.factor.numerator))
        object.__setattr__(self, "_down", float(self.factor.denominator))
        object.__setattr__(self, "_zero", float(self.offset))

    def to_base(self, number: float) -> float:
        """A number in this unit as base units."""
        return number * self._up / self._down + self._zero

    def from_base(self, base: float) -> float:
        """Base units as a number in this unit."""
        return (base - self._zero) * self._down / self._up

    def size(self, number: float) -> float:
        """A difference in this unit, an uncertainty for instance, in base units: the factor only."""
        return number * self._up / self._down

    def from_size(self, size: float) -> float:
        """A difference in base units as a number in this unit."""
        return size * self._down / self._up


#: The unit of ratios and counts.
BARE = Unit("", "ratio", Fraction(1))

_INCH = Fraction("0.0254")  # m, by definition since 1959
_FOOT = 12 * _INCH
_MILE = 5280 * _FOOT
_POUND = Fraction("0.45359237")  # kg, by definition since 1959
_GRAVITY = Fraction("9.80665")  # m/s2, 3rd CGPM 1901
_POUND_FORCE = _POUND * _GRAVITY
_PSI = _POUND_FORCE / _INCH**2
_US_GALLON = 231 * _INCH**3
_IMPERIAL_GALLON = Fraction("0.00454609")  # m3, Weights and Measures Act 1985
_MERCURY, _WATER = Fraction("13595.1"), Fraction(1000)  # kg/m3, conventional
_LITRE = Fraction(1, 1000)
_HOUR, _MINUTE = 3600, 60
_ICE = Fraction("273.15")  # K
_FAHRENHEIT = Fraction(5, 9)


def _row(
    symbol: str,
    kind: str,
    factor: Fraction | int | str,
    *aliases: str,
    offset: Fraction = Fraction(0),
    remark: str = "",
) -> Unit:
    return Unit(symbol, kind, Fraction(factor), offset, aliases, remark)


#: Every unit; of each kind the usual one first.
UNITS: tuple[Unit, ...] = (
    _row("mm", "length", "0.001", "millimetre", "millimetres", "millimeter", "millimeters"),
    _row("in", "length", _INCH, "inch", "inches"),
    _row("thou", "length", _INCH / 1000),
    _row("um", "length", "0.000001", "µm", "μm", "micron", "microns"),
    _row("cm", "length", "0.01"),
    _row("m", "length", 1, "metre", "metres", "meter", "meters"),
    _row("ft", "length", _FOOT, "foot", "feet"),
    _row("km", "distance", 1000, "kilometre", "kilometres", "kilometer", "kilometers"),
    _row("mi", "distance", _MILE, "mile", "miles"),
    _row("cm2", "area", "0.0001", "cm²", "cm^2"),
    _row("sq in", "area", _INCH**2, "in2", "in²", "in^2", "square inch", "square inches"),
    _row("mm2", "area", "0.000001", "mm²", "mm^2"),
    _row("m2", "area", 1, "m²", "m^2"),
    _row("deg mm", "lift_area", "0.001", "deg·mm", "mm deg"),
    _row("deg in", "lift_area", _INCH, "deg·in"),
    _row("cc", "volume", "0.000001", "ml", "mL", "cm3", "cm³", "cm^3", "ccm"),
    _row("cu in", "volume", _INCH**3, "in3", "in³", "in^3", "ci", "cubic inch", "cubic inches"),
    _row("l", "volume", _LITRE, "L", "dm3", "dm³", "litre", "litres", "liter", "liters"),
    _row("m3", "volume", 1, "m³", "m^3"),
    _row("US gal", "volume", _US_GALLON),
    _row("imp gal", "volume", _IMPERIAL_GALLON, "imperial gal"),
    _row("g", "mass", "0.001", "gram", "grams", "gramme", "grammes"),
    _row("kg", "mass", 1),
    _row("lb", "mass", _POUND, "lbs", "pound", "pounds"),
    _row("oz", "mass", _POUND / 16, "ounce", "ounces", remark="avoirdupois"),
    _row("h", "time", _HOUR, "hr", "hrs", "hour", "hours"),
    _row("min", "time", _MINUTE, "minute", "minutes"),
    _row("s", "time", 1, "sec", "second", "seconds"),
    _row("ms", "time", "0.001"),
    _row("day", "time", 24 * _HOUR, "days"),
    _row("deg", "angle", 1, "°", "degree", "degrees", remark="of the crankshaft unless the name says otherwise"),
    _row("rpm", "engine_speed", Fraction(1, 60), "rev/min", "r/min"),
    _row("m/s", "speed", 1),
    _row("ft/min", "speed", _FOOT / _MINUTE),
    _row("ft/s", "speed", _FOOT),
    _row("km/h", "speed", Fraction(1000, _HOUR)),
    _row("mph", "speed", _MILE / _HOUR, "mi/h"),
    _row("m/s2", "acceleration", 1, "m/s²", "m/s^2"),
    _row("ft/s2", "acceleration", _FOOT, "ft/s²", "ft/s^2"),
    _row("N", "force", 1),
    _row("lbf", "force", _POUND_FORCE),
    _row("kN", "force", 1000),
    _row("kgf", "force", _GRAVITY, "kp"),
    _row("N/mm", "spring_rate", 1000),
    _row("lbf/in", "spring_rate", _POUND_FORCE / _INCH),
    _row("N m", "torque", 1, "N·m", "N⋅m"),
    _row("lbf ft", "torque", _POUND_FORCE * _FOOT, "lbf·ft", "lbf⋅ft"),
    _row("lbf in", "torque", _POUND_FORCE * _INCH, "lbf·in", "lbf⋅in"),
    _row("kgf m", "torque", _GRAVITY, "kgf·m", "kgf⋅m"),
    _row("J", "energy", 1),
    _row("kJ", "energy", 1000),
    _row("kW", "power", 1000),
    _row("hp", "power", 550 * _POUND_FORCE * _FOOT, remark="mechanical horsepower, 550 lbf ft in a second"),
    _row("PS", "power", 75 * _GRAVITY, remark="metric horsepower, 75 kgf m in a second"),
    _row("W", "power", 1),
    _row("bar gauge", "pressure_gauge", 100_000, "barg", "bar(g)", "bar g"),
    _row("psi gauge", "pressure_gauge", _PSI, "psig", "psi(g)", "psi g"),
    _row("kPa gauge", "pressure_gauge", 1000, "kPag", "kPa(g)", "kPa g"),
    _row("kgf/cm2 gauge", "pressure_gauge", _GRAVITY * 10_000, "kgf/cm² gauge", "kgf/cm^2 gauge"),
    _row("kPa absolute", "pressure_absolute", 1000, "kPa(a)", "kPa a"),
    _row("bar absolute", "pressure_absolute", 100_000, "bara", "bar(a)", "bar a"),
    _row("psi absolute", "pressure_absolute", _PSI, "psia", "psi(a)", "psi a"),
    _row("hPa", "pressure_absolute", 100, "hPa absolute", "mbar", "mbar absolute"),
    _row("Pa absolute", "pressure_absolute", 1),
    _row(
        "inHg", "pressure_absolute", _INCH * _MERCURY * _GRAVITY, "inHg absolute", remark="conventional inch of mercury"
    ),
    _row(
        "mmHg",
        "pressure_absolute",
        _MERCURY * _GRAVITY / 1000,
        "mmHg absolute",
        remark="conventional millimetre of mercury",
    ),
    _row(
        "inH2O",
        "pressure_difference",
        _INCH * _WATER * _GRAVITY,
        "inH₂O",
        remark="conventional inch of water, 1000 kg/m3 (4 °C)",
    ),
    _row(
        "mmH2O",
        "pressure_difference",
        _WATER * _GRAVITY / 1000,
        "mmH₂O",
        remark="conventional millimetre of water, 1000 kg/m3 (4 °C)",
    ),
    _row("kPa", "pressure_difference", 1000),
    _row("Pa", "pressure_difference", 1),
    _row("bar", "pressure_difference", 100_000),
    _row("psi", "pressure_difference", _PSI),
    _row("degC", "temperature", 1, "°C", offset=_ICE),
    _row("degF", "temperature", _FAHRENHEIT, "°F", offset=Fraction("459.67") * _FAHRENHEIT),
    _row("K", "temperature", 1),
    _row("K difference", "temperature_difference", 1, "degC difference", "°C difference"),
    _row("degF difference", "temperature_difference", _FAHRENHEIT, "°F difference"),
    _row("N/mm2", "stress", 1_000_000, "N/mm²", "N/mm^2", "MPa"),
    _row("kN/mm2", "stress", 1_000_000_000, "kN/mm²", "kN/mm^2", "GPa"),
    _row("ksi", "stress", 1000 * _PSI, remark="1000 pounds-force on a square inch"),
    _row("ppm/K", "expansion", "0.000001", "ppm/degC", "ppm/°C", remark="thousandths of a millimetre on a metre"),
    _row("ppm/degF", "expansion", Fraction("0.000001") / _FAHRENHEIT, "ppm/°F"),
    _row("m3/h", "volume_flow", Fraction(1, _HOUR), "m³/h"),
    _row("cfm", "volume_flow", _FOOT**3 / _MINUTE, "ft3/min", "ft³/min", remark="cubic feet in a minute, as measured"),
    _row("l/s", "volume_flow", _LITRE, "L/s"),
    _row("l/min", "volume_flow", _LITRE / _MINUTE, "L/min"),
    _row("cc/min", "volume_flow", _LITRE / 1000 / _MINUTE, "ml/min", "mL/min", "cm3/min", "cm³/min"),
    _row("l/h", "volume_flow", _LITRE / _HOUR, "L/h"),
    _row("m3/s", "volume_flow", 1, "m³/s"),
    _row("kg/h", "mass_flow", Fraction(1, _HOUR)),
    _row("lb/h", "mass_flow", _POUND / _HOUR),
    _row("g/s", "mass_flow", "0.001"),
    _row("kg/s", "mass_flow", 1),
    _row("kg/m3", "density", 1, "kg/m³"),
    _row("mg/l", "density", "0.001", "mg/L"),
    _row("g/cc", "density", 1000, "g/cm3", "g/cm³", "g/ml", "g/mL", "kg/l", "kg/L"),
    _row("%", "share", Fraction(1, 100), "percent"),
    _row("mg/kg", "share", "0.000001", "ppm", remark="of mass, as laboratories tell metal in oil"),
    _row("mg/kg/h", "share_rate", Fraction("0.000001") / _HOUR, "ppm/h"),
    _row("cSt", "viscosity", "0.000001", "mm2/s", "mm²/s"),
    _row("l per 1000 km", "consumption", _LITRE / 1_000_000, "l/1000 km"),
    _row("l per 100 km", "consumption", _LITRE / 100_000, "l/100 km"),
    _row("kW/l", "specific_output", 1_000_000, "kW/L"),
    _row("hp/cu in", "specific_output", 550 * _POUND_FORCE * _FOOT / _INCH**3, "hp/in3"),
    _row("g/kWh", "specific_consumption", Fraction(1, 1_000_000 * _HOUR), "g/kW h"),
    _row("lb/hp h", "specific_consumption", _POUND / (550 * _POUND_FORCE * _FOOT * _HOUR)),
    _row("MJ/kg", "specific_energy", 1_000_000),
    _row("kJ/kg", "specific_energy", 1000),
    _row("Btu/lb", "specific_energy", 2326, "BTU/lb", remark="of the international table: 2326 J/kg, exactly"),
)

#: The usual slips, in small letters without blanks, points and hyphens, and what to write: always of the same size, so
#: that the number stays what it is.
SLIPS: Mapping[str, str] = {
    **dict.fromkeys(("nm", "newtonmetre", "newtonmetres", "newtonmeter", "newtonmeters"), "N m"),
    **dict.fromkeys(
        ("lbft", "lbsft", "ftlb", "ftlbs", "ftlbf", "lbfft", "poundfoot", "footpound", "footpounds"), "lbf ft"
    ),
    **dict.fromkeys(("lbin", "lbsin", "inlb", "inlbs", "inlbf", "lbfin", "inchpound", "inchpounds"), "lbf in"),
    **dict.fromkeys(("kgm", "mkg", "kpm", "mkp", "kgfm", "mkgf"), "kgf m"),
    **dict.fromkeys(("lb/in", "lbs/in", "lb/inch", "lbs/inch"), "lbf/in"),
    **dict.fromkeys(("kg/cm2", "kg/cm^2", "kp/cm2", "kgf/cm2"), "kgf/cm2 gauge"),
    **dict.fromkeys(("hp", "bhp", "horsepower"), "hp for mechanical or PS for metric horsepower"),
    **dict.fromkeys(("cv", "ch", "pk", "metrichp"), "PS"),
    **dict.fromkeys(("gal", "gals", "gallon", "gallons"), "US gal or imp gal"),
    **dict.fromkeys(("mil", "mils"), "thou"),
    **dict.fromkeys(('"', "″", "''"), "in"),
    **dict.fromkeys(("'", "′"), "ft"),
    **dict.fromkeys(("gm", "gms", "gr", "grm"), "g"),
    **dict.fromkeys(("kph", "kmh", "kmph", "km/hr"), "km/h"),
    **dict.fromkeys(("c", "celsius", "degcelsius", "centigrade"), "degC"),
    **dict.fromkeys(("f", "fahrenheit", "degfahrenheit"), "degF"),
    **dict.fromkeys(("degca", "cad", "crankdegrees", "degcrank", "crankdeg", "degreescrank"), "deg"),
    **dict.fromkeys(("revs/min", "tr/min", "u/min"), "rpm"),
    **dict.fromkeys(("inwater", "inh20", "inchesofwater", "inwg", "inwc"), "inH2O"),
    **dict.fromkeys(("inmercury", "inchesofmercury", "inofmercury"), "inHg"),
    **dict.fromkeys(("microm", "mu", "µ", "μ"), "um"),
}
