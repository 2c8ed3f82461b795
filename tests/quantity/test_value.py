"""What a person writes for a quantity, and what comes of it."""

from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from logbook.quantity import value
from logbook.quantity.catalogue import Quantity, catalogue, quantity
from logbook.quantity.units import unit, units_of
from logbook.quantity.value import Line, Stated, ValueProblem, outside_range, parse_line, parse_measure, print_line

BORE, DECK, RATIO = quantity("bore"), quantity("deck_clearance"), quantity("compression_ratio")
CHAMBER, PRESSURE, OPENS = quantity("chamber_volume"), quantity("cranking_pressure"), quantity("inlet_opens")


def one(text: str, row: Quantity) -> Stated:
    """The only figure of a line."""
    (position,) = parse_line(text, row).positions
    assert position is not None
    (figure,) = position
    return figure


# a plain line is read in a short way; it must be the one way to read it

_NEAR_PLAIN = st.lists(
    st.sampled_from(
        ("0", "0.0", "0.00", "0.05", "38.1", "012", "7.", "86.004", "12345678901234567", "-1", "x", "12(1)", " / ",
         " / ", ", ", " ± 0.1", " mm", " cc", " in", " bar gauge", " degC", " deg", " k", " to", " below",
         " before TDC", " BTDC", " thrust side", "  ", " ", ":1", "unknown")
    ),
    max_size=9,
)  # fmt: skip


@given(_NEAR_PLAIN.map("".join), st.sampled_from([*catalogue().values()]))
@example("0.30 / 0 / 0.28 mm above", DECK)
@example("0.3 mm", DECK)
@example("0 / 0.0 mm", DECK)
@example("9.2 cc", RATIO)
@example("20.5 / 21 degC", quantity("air_temperature"))
def test_a_plain_line_is_read_as_any_other(text: str, row: Quantity) -> None:
    short = value._plain_line(text, row)
    if short:
        assert repr(short) == repr(value._line(text, value._wanted(row)))


@given(st.data(), st.sampled_from([row for row in catalogue().values() if row.has_unit]))
def test_what_is_plain_is_read_in_the_short_way(data: st.DataObject, row: Quantity) -> None:
    numbers = data.draw(st.lists(st.decimals(0, 10**9, places=3), min_size=1, max_size=8))
    side = f" {data.draw(st.sampled_from(row.sides))}" if row.sides else ""
    text = f"{' / '.join(map(str, numbers))} {row.unit}{side}"
    short = value._plain_line(text, row)
    assert (short is not None) == row.unit.replace(" ", "").isalpha()
    assert short is None or repr(short) == repr(value._line(text, value._wanted(row)))


# one figure: nominal, standard uncertainty, last digit, all in base units


@pytest.mark.parametrize(
    ("text", "name", "expected"),
    [
        ("86.0 mm", "bore", (0.086, None, 1e-4)),
        ("86mm", "bore", (0.086, None, 1e-3)),
        ("3.386 in", "bore", (0.0860044, None, 2.54e-5)),
        ("86.0 ± 0.1 mm", "bore", (0.086, 5e-5, 1e-4)),
        ("86.0 +/- 0.1 mm", "bore", (0.086, 5e-5, 1e-4)),
        ("86.0±0.1mm", "bore", (0.086, 5e-5, 1e-4)),
        ("86.0(1) mm", "bore", (0.086, 1e-4, 1e-4)),
        ("86.004(12) mm", "bore", (0.086004, 1.2e-5, 1e-6)),
        ("86.0\u00a0mm", "bore", (0.086, None, 1e-4)),
        ("38.0 ± 0.2 cc", "chamber_volume", (38e-6, 1e-7, 1e-7)),
        ("38.0 ml", "chamber_volume", (38e-6, None, 1e-7)),
        ("1600 cc", "displacement", (1.6e-3, None, 1e-6)),
        ("32 ± 1 deg before TDC", "inlet_opens", (32, 0.5, 1)),
        ("32 deg BTDC", "inlet_opens", (32, None, 1)),
        ("8° after TDC", "inlet_opens", (-8, None, 1)),
        ("0.30 ± 0.02 mm below", "deck_clearance", (3e-4, 1e-5, 1e-5)),
        ("0.30 mm above", "deck_clearance", (-3e-4, None, 1e-5)),
        ("0 mm", "deck_clearance", (0, None, 1e-3)),
        ("0.00 mm above", "deck_clearance", (0, None, 1e-5)),
        ("9.2", "compression_ratio", (9.2, None, 0.1)),
        ("9.2:1", "compression_ratio", (9.2, None, 0.1)),
        ("9.2:1 ± 0.1", "compression_ratio", (9.2, 0.05, 0.1)),
        ("12.0 bar gauge", "cranking_pressure", (1.2e6, None, 1e4)),
        ("6500 rpm", "engine_speed_limit", (6500 / 60, None, 1 / 60)),
        ("8 ± 2 %", "leak_down", (0.08, 0.01, 0.01)),
        ("40 ± 2 kgf m", "torque", (392.266, 9.80665, 9.80665)),
    ],
)
def test_one_figure(text: str, name: str, expected: tuple[float, float | None, float]) -> None:
    figure = one(text, quantity(name))
    assert (figure.nominal, figure.standard, figure.last_digit) == expected


# lines: the nominal values of each position in the unit of the line


@pytest.mark.parametrize(
    ("text", "row", "positions", "canonical"),
    [
        ("0.30 / 0.32 / 0.31 / x / 0.29 / 0.30 mm below", DECK, [[0.30], [0.32], [0.31], None, [0.29], [0.30]], None),
        ("0.02 mm below / 0.01 mm above", DECK, [[0.02], [-0.01]], None),
        ("0.02 below / 0.01 mm above", DECK, [[0.02], [-0.01]], "0.02 mm below / 0.01 mm above"),
        ("0.02 mm below / 0 mm / 0.01 mm above", DECK, [[0.02], [0], [-0.01]], None),
        ("0 / 0.02 mm above", DECK, [[0], [-0.02]], None),
        ("0.02 / 0 mm above", DECK, [[-0.02], [0]], None),
        ("0.02 mm BELOW", DECK, [[0.02]], "0.02 mm below"),
        ("38.1 / 38.3 / 38.0 cc", CHAMBER, [[38.1], [38.3], [38.0]], None),
        ("38.1 ml / 38.3 cm3", CHAMBER, [[38.1], [38.3]], "38.1 / 38.3 cc"),
        ("38.1 / 38.3 cc / x", CHAMBER, [[38.1], [38.3], None], "38.1 / 38.3 / x cc"),
        ("38.1 / 38.3 ± 0.2 cc / x", CHAMBER, [[38.1], [38.3], None], "38.1 / 38.3 / x ± 0.2 cc"),
        ("38.1 ± 0.2 / 38.3 ± 0.2 cc", CHAMBER, [[38.1], [38.3]], "38.1 / 38.3 ± 0.2 cc"),
        ("38.1 ± 0.1 / 38.3 ± 0.2 cc", CHAMBER, [[38.1], [38.3]], None),
        ("38.1 ± 0.1 cc / 38.3 ± 0.2 cc", CHAMBER, [[38.1], [38.3]], "38.1 ± 0.1 / 38.3 ± 0.2 cc"),
        ("38.1(1) / 38.3(1) cc", CHAMBER, [[38.1], [38.3]], None),
        ("38.1(1) / x cc", CHAMBER, [[38.1], None], None),
        ("34.0, 34.1 / 34.2, 34.0 mm", BORE, [[34.0, 34.1], [34.2, 34.0]], None),
        ("11.9  /  12.0 bar gauge", PRESSURE, [[11.9], [12.0]], "11.9 / 12.0 bar gauge"),
        ("9.1 / 9.2 / 9.2:1", RATIO, [[9.1], [9.2], [9.2]], "9.1 / 9.2 / 9.2"),
        ("9.1 / 9.2 ± 0.1", RATIO, [[9.1], [9.2]], None),
    ],
)
def test_lines(text: str, row: Quantity, positions: list[list[float] | None], canonical: str | None) -> None:
    line = parse_line(text, row)
    scale = unit(line.unit).size if line.unit else float
    assert [None if position is None else [figure.nominal for figure in position] for position in line.positions] == [
        None if numbers is None else [pytest.approx(scale(number), rel=1e-15) for number in numbers]
        for numbers in positions
    ]
    assert print_line(line, row) == (canonical or text)


def test_uncertainty_once_at_the_end_holds_for_all() -> None:
    line = parse_line("38.1 / x / 38.3 ± 0.2 cc", CHAMBER)
    assert [figure.standard for figure in line.figures] == [1e-7, 1e-7]


def test_units_may_differ_if_each_figure_has_one() -> None:
    line = parse_line("3.386 in / 86.0 mm", BORE)
    assert [figure.nominal for figure in line.figures] == [0.0860044, 0.086]
    assert line.unit == "mm"
    assert print_line(line, BORE) == "3.386 in / 86.0 mm"


def test_unknown_is_a_value() -> None:
    for row in catalogue().values():
        line = parse_line(" unknown ", row)
        assert line == Line((), row.unit, unknown=True), row.name
        assert print_line(line, row) == "unknown", row.name


# what has no one reading: the column, what is wrong, what to write


@pytest.mark.parametrize(
    ("text", "row", "offset", "says", "mend"),
    [
        # numbers
        ("86,5 mm", BORE, 0, "a number has a decimal point, not a comma", "write 86.5 mm"),
        ("86.5 / 86,6 mm", BORE, 7, "a number has a decimal point, not a comma", "write 86.6 mm"),
        ("86.5 ± 0,2 mm", BORE, 0, "a number has a decimal point, not a comma", "write 86.5 ± 0.2 mm"),
        ("1.234,5 mm", BORE, 0, "a number has a decimal point, not a comma", "write 1234.5 mm"),
        ("0,125 in", BORE, 0, "a number has a decimal point, not a comma", "write 0.125 in"),
        (
            "1,000 mm",
            BORE,
            0,
            "a comma inside a number can be a decimal one or one between thousands",
            "write 1000 mm, or 1.000 mm if the comma is a decimal one",
        ),
        (
            "1,000.5 mm",
            BORE,
            0,
            "a comma inside a number can be a decimal one or one between thousands",
            "write 1000.5 mm",
        ),
        ("1 000 mm", BORE, 0, "a number is written without gaps", "write 1000 mm"),
        ("1'000 mm", BORE, 0, "a number is written without gaps", "write 1000 mm"),
        ("1_000 mm", BORE, 0, "a number is written without gaps", "write 1000 mm"),
        ("61k mm", BORE, 0, "k is not a number", "write 61000 mm"),
        (
            "1/2 in",
            BORE,
            0,
            "fractions are written as decimal numbers",
            "write 0.5 in, or 1 / 2 in if they are two positions",
        ),
        (
            "80/81/82.0 mm",
            BORE,
            0,
            "positions are separated by ' / ', with a blank on both sides",
            "write 80 / 81 / 82.0 mm",
        ),
        ("1 3/8 in", BORE, 0, "fractions are written as decimal numbers", "write 1.375 in"),
        ("3½ in", BORE, 0, "fractions are written as decimal numbers", "write 3.5 in"),
        ("1/0 in", BORE, 0, "'1/0 in' divides by 0", "write a decimal number"),
        ("1e-3 m", BORE, 0, "numbers are written out, without exponent", "write 0.001 m"),
        (
            "1e400",
            BORE,
            0,
            "numbers are written out, without exponent",
            "write it in digits, in a unit that keeps it short",
        ),
        ("nan", BORE, 0, "'nan' is not a number", "write x where no reading was taken"),
        ("inf mm", BORE, 0, "'inf' is not a number", "write x where no reading was taken"),
        ("0123 mm", BORE, 0, "a number does not begin with 0 before other digits", "write 123 mm"),
        (".5 mm", BORE, 0, "a number does not begin with a point", "write 0.5 mm"),
        ("5. mm", BORE, 0, "a number does not end with a point", "write 5 mm"),
        ("+5 mm", BORE, 0, "a figure has no plus sign", "write 5 mm"),
        (
            "12345678901234567 mm",
            BORE,
            0,
            "'12345678901234567 mm' has more digits than any gauge shows",
            "write at most 15",
        ),
        (
            "86.0.1 mm",
            BORE,
            0,
            "'86.0.1 mm' cannot be read as a figure",
            "write number, ± if known, unit, such as 86.0 ± 0.1 mm",
        ),
        (
            "٨٦ mm",
            BORE,
            0,
            "'٨٦ mm' cannot be read as a figure",
            "write number, ± if known, unit, such as 86.0 ± 0.1 mm",
        ),
        ("12:30", RATIO, 0, "'12:30' cannot be read as a figure", "write the number alone, such as 9.2"),
        (
            "9**9**9 mm",
            BORE,
            0,
            "'9**9**9 mm' cannot be read as a figure",
            "write number, ± if known, unit, such as 86.0 ± 0.1 mm",
        ),
        ("", BORE, 0, "a position is empty", "write x where no reading was taken"),
        ("mm", BORE, 0, "'mm' cannot be read as a figure", "write number, ± if known, unit, such as 86.0 ± 0.1 mm"),
        ("mm 86", BORE, 0, "the number comes first", "write 86 mm"),
        ("30-32 mm", BORE, 0, "a range is written as its middle and ±", "write 31 ± 1 mm"),
        (
            "about 86 mm",
            BORE,
            0,
            "'about' does not say how sure the figure is",
            "leave out 'about' and write ± behind the number",
        ),
        # units
        ("86", BORE, 0, "'86' has no unit", "write 86 mm or 86 in"),
        ("86 / 87", BORE, 0, "'86' has no unit", "write 86 mm or 86 in"),
        ("86 mm / 87", BORE, 8, "'87' has no unit", "write 87 mm or 87 in"),
        ("0.3 below", DECK, 0, "'0.3 below' has no unit", "write 0.3 mm below or 0.3 in below"),
        ("98", OPENS, 0, "'98' has no unit", "write 98 deg"),
        ("86 kg", BORE, 3, "'kg' is the unit of a mass, bore is a length", "write mm or in"),
        ("86 km", BORE, 3, "'km' is the unit of a distance, bore is a length", "write mm or in"),
        ("100 J", quantity("torque"), 4, "'J' is the unit of an energy, torque is a torque", "write N m or lbf ft"),
        ("100 Nm", quantity("torque"), 4, "'Nm' is not a unit that is known here", "write N m"),
        ("100 lb ft", quantity("torque"), 4, "'lb ft' is not a unit that is known here", "write lbf ft"),
        (
            "12.0 / 11.8 bar",
            PRESSURE,
            12,
            "'bar' alone does not say gauge or absolute",
            "write bar gauge or bar absolute",
        ),
        ("175 psi", PRESSURE, 4, "'psi' alone does not say gauge or absolute", "write psi gauge or psi absolute"),
        (
            "12 bar absolute",
            PRESSURE,
            3,
            "'bar absolute' is the unit of an absolute pressure, cranking pressure is a gauge pressure",
            "write bar gauge or psi gauge",
        ),
        ("9.2 cc", RATIO, 4, "compression ratio has no unit", "leave out 'cc'"),
        ("9.2:1", BORE, 0, "'9.2:1' is a ratio, bore is not", "write mm or in"),
        ("9.2 :1", RATIO, 0, "a ratio has no gaps", "write 9.2:1"),
        ("10 in 5", BORE, 3, "'in 5' is not a unit that is known here", "write in if that is meant"),
        # uncertainty
        (
            "86 ± 0.1 ± 0.2 mm",
            BORE,
            0,
            "two uncertainties on one figure",
            "write ± for an expanded one (k = 2), or its last digits in brackets for a standard one",
        ),
        (
            "86.0(1) ± 0.1 mm",
            BORE,
            0,
            "two uncertainties on one figure",
            "write ± for an expanded one (k = 2), or its last digits in brackets for a standard one",
        ),
        ("86 ± -0.1 mm", BORE, 0, "± is never negative", "write 86 ± 0.1 mm"),
        (
            "86 ± 0 mm",
            BORE,
            0,
            "an uncertainty of 0 says that the figure is exact, and no measured figure is",
            "leave it out, or write the least that you believe",
        ),
        (
            "86(0) mm",
            BORE,
            0,
            "an uncertainty of 0 says that the figure is exact, and no measured figure is",
            "leave it out, or write the least that you believe",
        ),
        ("86 ± mm", BORE, 0, "± stands without a number behind it", "write the number, or leave ± out"),
        ("± 0.1 mm", BORE, 0, "± stands without a number before it", "write the figure, then ±"),
        ("86 +- 0.1 mm", BORE, 0, "the uncertainty is written with ± or +/-", "write 86 ± 0.1 mm"),
        ("86 mm ± 0.1 mm", BORE, 0, "the unit stands once, behind ±", "write 86 ± 0.1 mm"),
        ("86.0 (1) mm", BORE, 0, "the digits in brackets stand close behind the number", "write 86.0(1) mm"),
        (
            "86.0(1.2) mm",
            BORE,
            0,
            "'(1.2)' is not a whole number of last digits",
            "write the standard uncertainty in the last digits: 38.0(1) for 38.0 with 0.1",
        ),
        ("40 ± 1 %", BORE, 0, "± of a figure is in the unit of the figure, not in per cent", "write 40 ± 0.4 mm"),
        (
            "38 cc ± 1 %",
            CHAMBER,
            0,
            "± of a figure is in the unit of the figure, not in per cent",
            "write 38 ± 0.38 cc",
        ),
        # sides
        (
            "0.02 mm",
            DECK,
            0,
            "'0.02 mm' does not say which way deck clearance goes",
            "write 0.02 mm below or 0.02 mm above",
        ),
        (
            "0.02 mm / 0.01 mm below",
            DECK,
            0,
            "'0.02 mm' does not say which way deck clearance goes",
            "write 0.02 mm below or 0.02 mm above",
        ),
        ("-0.02 mm below", DECK, 0, "a minus sign and 'below' together", "write 0.02 mm above"),
        ("\N{MINUS SIGN}0.02 mm above", DECK, 0, "a minus sign and 'above' together", "write 0.02 mm below"),
        (
            "-0.02 mm",
            DECK,
            0,
            "a minus sign does not say which way deck clearance goes",
            "write 0.02 mm below or 0.02 mm above",
        ),
        ("86 mm below", BORE, 3, "bore has no sides", "leave out 'below'"),
        ("32 deg after BDC", OPENS, 3, "inlet opens is not 'after BDC'", "write before TDC or after TDC"),
        # positions
        ("x", BORE, 0, "no reading was taken at all", "write unknown, or leave the quantity out"),
        ("x / x mm", BORE, 0, "no reading was taken at all", "write unknown, or leave the quantity out"),
        ("86 / / 87 mm", BORE, 5, "a position is empty", "write x where no reading was taken"),
        ("86 / X / 87 mm", BORE, 5, "'X' is not a figure", "write x where no reading was taken"),
        ("86 / n/a / 87 mm", BORE, 5, "'n/a' is not a figure", "write x where no reading was taken"),
        ("86 / - / 87 mm", BORE, 5, "'-' is not a figure", "write x where no reading was taken"),
        (
            "86 / unknown mm",
            BORE,
            5,
            "'unknown' stands alone, in small letters",
            "write unknown for the whole line, or x where no reading was taken",
        ),
        ("86, x mm", BORE, 4, "x among the several of one position", "write x for the whole position"),
        ("x mm / 86 mm", BORE, 0, "x, not taken, stands alone", "write x"),
        ("38.1 cc / x cc", CHAMBER, 10, "x, not taken, stands alone", "write x"),
        ("38.1 ± 0.1 / x ± 0.2 cc", CHAMBER, 13, "x, not taken, stands alone", "write x"),
        ("86 / x(1) mm", BORE, 5, "x, not taken, stands alone", "write x"),
        (
            "38.1/38.3 cc",
            CHAMBER,
            0,
            "positions are separated by ' / ', with a blank on both sides",
            "write 38.1 / 38.3 cc",
        ),
        (
            "38.1 cc,38.3 cc",
            CHAMBER,
            0,
            "the several of one position are separated by ', ', with a blank behind the comma",
            "write 38.1 cc, 38.3 cc",
        ),
        (
            "86 mm; 5",
            BORE,
            0,
            "'; 5' does not belong in a figure",
            "leave it out; ' / ' separates positions, ', ' the several of one position",
        ),
        (
            "38.1 ± 0.1 / 38.3 / 38.2 ± 0.1 cc",
            CHAMBER,
            13,
            "'38.3' has no uncertainty and others have one",
            "write it behind each figure, or ± and the unit once at the end",
        ),
        (
            "38.1 cc / 38.3 ± 0.2 cc",
            CHAMBER,
            0,
            "'38.1 cc' has no uncertainty and others have one",
            "write it behind each figure, or ± and the unit once at the end",
        ),
        (
            "38.1 / 38.3(1) cc",
            CHAMBER,
            0,
            "'38.1' has no uncertainty and others have one",
            "write it behind each figure",
        ),
        ("9" * 4001, BORE, 0, "a value of 4001 characters", "write at most 4000"),
    ],
)
def test_problems(text: str, row: Quantity, offset: int, says: str, mend: str) -> None:
    with pytest.raises(ValueProblem) as caught:
        parse_line(text, row)
    assert (caught.value.says, caught.value.mend, caught.value.offset) == (says, mend, offset)
    assert str(caught.value) == f"{says}: {mend}"


@pytest.mark.parametrize(
    ("text", "row"),
    [
        ("86,5 mm", BORE),
        ("1.234,5 mm", BORE),
        ("1 000 mm", BORE),
        ("61k mm", BORE),
        ("1 3/8 in", BORE),
        ("3½ in", BORE),
        ("1e-3 m", BORE),
        ("0123 mm", BORE),
        (".5 mm", BORE),
        ("5. mm", BORE),
        ("+5 mm", BORE),
        ("30-32 mm", BORE),
        ("mm 86", BORE),
        ("86 ± -0.1 mm", BORE),
        ("86 +- 0.1 mm", BORE),
        ("86 mm ± 0.1", BORE),
        ("86 mm ± 1 %", BORE),
        ("86.0 (1) mm", BORE),
        ("38.1/38.3 cc", CHAMBER),
        ("38.1 cc,38.3 cc", CHAMBER),
        ("9.2 :1", RATIO),
        ("9,2:1", RATIO),
        ("-0.30 mm above", DECK),
        ("98 to 102 deg before TDC", OPENS),
    ],
)
def test_what_is_proposed_can_be_read(text: str, row: Quantity) -> None:
    with pytest.raises(ValueProblem) as caught:
        parse_line(text, row)
    assert parse_line(caught.value.mend.removeprefix("write "), row)


# properties

_ROWS = st.sampled_from([row for row in catalogue().values() if not row.derived_only])
_NUMBERS = st.from_regex(r"\A(0|[1-9][0-9]{0,5})(\.[0-9]{1,5})?\Z", fullmatch=True)


@st.composite
def lines(draw: st.DrawFn) -> tuple[str, Quantity]:
    """Texts as people write them, units and ± at the end or behind each."""
    row = draw(_ROWS)
    symbols = [name for scale in units_of(row.kind) for name in (scale.symbol, *scale.aliases)] or [""]
    each_unit, each_spread = draw(st.booleans()), draw(st.booleans())
    shared = (draw(_spreads(once=True)), draw(st.sampled_from(symbols)), draw(st.sampled_from(row.sides or ("",))))

    def figure() -> str:
        spread = draw(_spreads(once=False)) or " ± 0.5" if each_spread or each_unit else ""
        own = f" {draw(st.sampled_from(symbols))} {draw(st.sampled_from(row.sides or ('',)))}" if each_unit else ""
        return (draw(_NUMBERS) + spread + own).strip()

    taken = st.lists(st.builds(figure), min_size=1, max_size=2).map(", ".join)
    positions = [draw(taken), *draw(st.lists(st.just("x") | taken, max_size=5))]
    end = "" if each_unit else ("" if each_spread else shared[0]) + f" {shared[1]} {shared[2]}".rstrip()
    return " / ".join(positions) + end, row


@st.composite
def _spreads(draw: st.DrawFn, once: bool) -> str:
    """±, digits in brackets (which only stand at their number), or nothing."""
    digits = str(draw(st.integers(1, 99)))
    here = ["", f" ± {digits}", f" +/- 0.{digits}"] if once else [f"({digits})", f" ± 0.0{digits}"]
    return draw(st.sampled_from(here))


@given(lines())
def test_what_is_printed_reads_as_the_same_line(case: tuple[str, Quantity]) -> None:
    text, row = case
    line = parse_line(text, row)
    again = print_line(line, row)
    assert parse_line(again, row) == line
    assert print_line(parse_line(again, row), row) == again


@given(_NUMBERS, st.sampled_from(["mm", "in", "thou", "ft"]))
def test_conversion_is_rounded_once(number: str, symbol: str) -> None:
    assert one(f"{number} {symbol}", BORE).nominal == float(Fraction(number) * unit(symbol).factor)


_SOUP = st.lists(
    st.sampled_from(
        [
            *"0123456789.,/±()x-+:;ek½ ",
            " / ",
            ", ",
            " ± ",
            "86.0",
            " mm",
            " in",
            " below",
            " above",
            "+/-",
            "unknown",
            " deg",
            " bar gauge",
        ]
    ),
    max_size=14,
).map("".join)


def line_or_problem(text: str, row: Quantity) -> Line | ValueProblem:
    try:
        return parse_line(text, row)
    except ValueProblem as problem:
        return problem


@given(st.text() | _SOUP, st.sampled_from([BORE, DECK, RATIO, OPENS, PRESSURE]))
@example("9" * 3000 + " mm", BORE)
@example(" " * 3999, BORE)
@example("1 " * 2000, BORE)
@example("(" * 4000, BORE)
@example("86 " + "a " * 1900, BORE)
@example("\ud800 mm", BORE)
@example("86 mm\x00", BORE)
def test_any_text_is_a_line_or_a_problem(text: str, row: Quantity) -> None:
    read = line_or_problem(text, row)
    if isinstance(read, Line):
        assert parse_line(print_line(read, row), row) == read
    else:
        assert read.says
        assert read.mend
        assert 0 <= read.offset <= len(text)


# a figure that was not read from text


@pytest.mark.parametrize(
    ("figure", "row", "text"),
    [
        (Stated(0.0860044, None, 1e-5), BORE, "86.00 mm"),
        (Stated(0.0860044, 2.5e-5, 1e-5), BORE, "86.00 ± 0.050 mm"),
        (Stated(-3.04e-4, None, 1e-5), DECK, "0.30 mm above"),
        (Stated(0.0, None, 1e-5), DECK, "0.00 mm"),
        (Stated(0.0860044, None, 0.0), BORE, "86.004400 mm"),
        (Stated(0.0860044, 0.0, 1e-3), BORE, "86 mm"),
    ],
)
def test_a_made_figure_prints_to_its_last_digit(figure: Stated, row: Quantity, text: str) -> None:
    assert print_line(Line(((figure,),), row.unit), row) == text


# range


@pytest.mark.parametrize(
    ("text", "row", "sentence"),
    [
        ("86.0 / 8.6 mm", BORE, "bore of 8.6 mm is outside the usual 25 to 1000 mm"),
        ("86.0 in", BORE, "bore of 2184.4 mm is outside the usual 25 to 1000 mm"),
        ("14 mm above", DECK, "deck clearance of -14 mm is outside the usual -10 to 50 mm"),
        ("38", RATIO, "compression ratio of 38 is outside the usual 4 to 25"),
        ("25 / 1000 mm", BORE, None),
        ("1.000 m", BORE, None),
        ("unknown", BORE, None),
    ],
)
def test_range(text: str, row: Quantity, sentence: str | None) -> None:
    assert outside_range(parse_line(text, row), row) == sentence


# amounts outside the catalogue


@pytest.mark.parametrize(
    ("text", "kinds", "base", "symbol"),
    [
        ("0.30 mm", ("length",), 3e-4, "mm"),
        ("16000 km", ("distance", "time"), 1.6e7, "km"),
        ("30 h", ("distance", "time"), 108000, "h"),
        ("99.0 kPa absolute", ("pressure_absolute",), 99000, "kPa absolute"),
        ("1 %", ("share",), 0.01, "%"),
        ("-5 degC", ("temperature",), 268.15, "degC"),
        ("68 °F", ("temperature",), 293.15, "degF"),
        ("3", ("count",), 3, ""),
    ],
)
def test_amounts(text: str, kinds: tuple[str, ...], base: float, symbol: str) -> None:
    number, scale = parse_measure(text, *kinds)
    assert (number, scale.symbol) == (base, symbol)


@pytest.mark.parametrize(
    ("text", "kind", "message"),
    [
        ("61204", "distance", "'61204' has no unit: write 61204 km or 61204 mi"),
        ("5 ± 1 mm", "length", "'5 ± 1 mm' is not one amount: write one number and its unit, without ±"),
        ("5 / 6 mm", "length", "'5 / 6 mm' is not one amount: write one number and its unit, without ±"),
        ("unknown", "length", "'unknown' is not one amount: write one number and its unit, without ±"),
        ("99 kPa", "pressure_absolute", "'kPa' alone does not say gauge or absolute: write kPa gauge or kPa absolute"),
        (
            "1,000 km",
            "distance",
            "a comma inside a number can be a decimal one or one between thousands: "
            "write 1000 km, or 1.000 km if the comma is a decimal one",
        ),
        ("61k km", "distance", "k is not a number: write 61000 km"),
        ("3 pieces", "count", "the amount has no unit: leave out 'pieces'"),
    ],
)
def test_what_is_no_amount(text: str, kind: str, message: str) -> None:
    with pytest.raises(ValueProblem) as caught:
        parse_measure(text, kind)
    assert str(caught.value) == message


@given(st.text(), st.sampled_from(["length", "share", "count", "temperature"]))
def test_any_text_is_an_amount_or_a_problem(text: str, kind: str) -> None:
    try:
        number, _ = parse_measure(text, kind)
    except ValueProblem:
        return
    assert number == number
