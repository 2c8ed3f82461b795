"""The catalogue keeps its own rules."""

import pytest

from logbook.quantity.air_rows import AIR_ROWS
from logbook.quantity.catalogue import PART_KINDS, QUALIFIERS, catalogue, did_you_mean, nearest, own_name
from logbook.quantity.clearance_rows import CLEARANCE_ROWS
from logbook.quantity.condition_rows import CONDITION_ROWS
from logbook.quantity.curve_rows import CURVE_ROWS
from logbook.quantity.geometry_rows import GEOMETRY_ROWS
from logbook.quantity.running_rows import RUNNING_ROWS
from logbook.quantity.units import BARE_KINDS, KIND_WORDS, unit
from logbook.quantity.value import SIDES, parse_line
from logbook.quantity.valve_rows import VALVE_ROWS

ROWS = (*GEOMETRY_ROWS, *RUNNING_ROWS, *VALVE_ROWS, *AIR_ROWS, *CLEARANCE_ROWS, *CONDITION_ROWS, *CURVE_ROWS)


def test_names_are_unique() -> None:
    assert len(catalogue()) == len(ROWS)
    assert len({row.uk for row in ROWS}) == len(ROWS)


def test_units_exist_and_are_of_the_kind() -> None:
    for row in ROWS:
        assert row.kind in KIND_WORDS, row.name
        assert row.has_unit == (row.kind not in BARE_KINDS), row.name
        assert {unit(symbol).kind for symbol in (row.unit, row.imperial) if symbol} <= {row.kind}, row.name


def test_units_stand_as_their_canonical_symbol() -> None:
    for row in ROWS:
        assert [unit(symbol).symbol for symbol in (row.unit, row.imperial) if symbol] == [
            symbol for symbol in (row.unit, row.imperial) if symbol
        ], row.name


def test_range_and_spread_are_sizes() -> None:
    for row in ROWS:
        assert row.low is not None, row.name
        assert row.high is not None, row.name
        assert row.low < row.high, row.name
        assert row.spread is None or 0 < row.spread < row.high - row.low, row.name


def test_qualifiers_sides_and_owners_are_known() -> None:
    for row in ROWS:
        assert set(row.qualifiers) <= set(QUALIFIERS), row.name
        assert set(row.sides or ()) <= set(SIDES), row.name
        assert {kind for owner in row.owner for kind in owner.split("|")} <= set(PART_KINDS), row.name


def test_what_can_be_negative_has_sides_or_is_never_written() -> None:
    """Signs are never left to guess; only a temperature on an everyday scale has its minus written by everybody."""
    for row in ROWS:
        assert row.low is not None, row.name
        assert row.low >= 0 or row.sides or row.derived_only or row.kind == "temperature", row.name


def test_its_own_range_can_be_written() -> None:
    for row in ROWS:
        text = " ".join(word for word in (f"{row.high:.6f}", row.unit, (row.sides or ("",))[0]) if word)
        assert parse_line(text, row).unit == row.unit, row.name


@pytest.mark.parametrize("qualifier", QUALIFIERS.values(), ids=lambda row: row.name)
def test_qualifiers_have_a_unit_of_their_kind_or_words(qualifier) -> None:  # type: ignore[no-untyped-def]
    assert qualifier.words if qualifier.kind == "words" else unit(qualifier.unit).kind == qualifier.kind


def test_nearest() -> None:
    assert nearest("chamber_volum", list(catalogue())) == "chamber_volume"
    assert nearest("Bore", list(catalogue())) == "bore"
    assert nearest("colour", list(catalogue())) is None


def test_every_name_of_either_usage_is_understood_unless_two_share_it() -> None:
    for row in catalogue().values():
        for spoken in (row.name, row.uk, row.us, row.us.replace(" ", "_")):
            assert own_name(spoken) == row.name
    for kind, usages in PART_KINDS.items():
        assert {own_name(words.capitalize()) for words in usages} == {kind}


def test_words_of_the_other_usage_inside_a_name() -> None:
    assert own_name("intake_lobe_center") == "inlet_lobe_centre"
    assert own_name("quench_clearance_running") == "squish_clearance_running"
    assert own_name("intake valve lash") == "valve_lash_inlet"
    assert own_name("intake") == "intake"  # several begin so


def test_of_several_that_have_the_word_all_are_named() -> None:
    assert did_you_mean("lash", list(catalogue())) == "; there is valve_lash_inlet, valve_lash_exhaust"
    assert did_you_mean("boar", ["bore", "stroke"]) == "; did you mean bore?"
    assert did_you_mean("quench clearance", list(catalogue())) == "; did you mean squish_clearance?"
    assert did_you_mean("zzz", ["bore"], "there is bore") == "; there is bore"
    assert did_you_mean("zzz", ["bore"]) == did_you_mean("", ["bore"]) == ""
