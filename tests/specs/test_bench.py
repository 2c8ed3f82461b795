"""The flow of the head that is fitted, in the graph: which test holds, what stands for none, how sure it is."""

from __future__ import annotations

import pytest
from lives import EXAMPLE, Life

from logbook.logbook import Logbook
from logbook.record.facts import ASSUMED
from logbook.specs.curves import curve_values
from logbook.specs.graph import Missing, Node
from logbook.specs.validity import outside_validity

TABLE = "valve_lift mm,inlet_flow cfm,exhaust_flow cfm\n2,40,32\n4,75,57\n6,98,72\n8,110,79\n10,115,81\n"
BETTER = TABLE.replace("115", "130").replace("110", "122").replace("98", "104")


def life(valves: str = "valves_per_cylinder: 1+1\n") -> Life:
    engine = Life(more=valves)
    engine.part("block-1", "block", bore="80.27 mm")
    engine.part("crank-1", "crankshaft", stroke="79 mm")
    engine.part("head-a", "cylinder_head", inlet_valve_diameter="38.5 mm")
    engine.part("head-b", "cylinder_head", inlet_valve_diameter="38.5 mm")
    engine.part("cam", "camshaft", inlet_valve_lift="10 mm", exhaust_valve_lift="9 mm")
    fits = [f"fit: {part}" for part in ("block-1", "crank-1", "head-a", "cam")]
    engine.work("2020-01-01", *fits, "set: {engine_speed_limit: 6500 rpm}", build="first")
    return engine


def bench(engine: Life, date: str, head: str, table: str, at: str = "28 inH2O") -> None:
    said = f"date: {date}\nkind: flow bench\npart: {head}\nat_depression: {at}\ndata: {date}-flow.csv\n"
    engine.texts |= {f"tests/{date}-flow.yaml": said, f"tests/{date}-flow.csv": table}
    engine.__dict__.pop("book", None)  # as it was read before


def coefficient(engine: Life, point: str = "now") -> Node:
    node = engine.at(point).graph.at("inlet_flow_coefficient", "1")
    assert isinstance(node, Node), node
    return node


def test_without_a_test_the_coefficient_is_assumed_and_says_so() -> None:
    node = coefficient(life())
    assert node.basis == ASSUMED
    assert node.value.nominal == 0.35
    assert node.value.expanded == pytest.approx(0.10)
    index = life().at("now").specs["inlet_mach_index"]
    assert index.basis == ASSUMED
    assert index.shares["assumed"] > 0.9


def test_the_test_of_the_head_that_is_fitted() -> None:
    engine = life()
    bench(engine, "2020-02-01", "head-a", TABLE)
    bench(engine, "2020-02-02", "head-b", BETTER)
    engine.work("2020-03-01", "fit: head-b", build="second")
    first, second = coefficient(engine, "first"), coefficient(engine, "second")
    assert first.value.nominal < second.value.nominal
    assert {held.fact.stated.file for held in second.facts.values()} >= {"tests/2020-02-02-flow.yaml"}
    assert first.basis == "published", "the lift is the card's"


def test_porting_puts_a_flow_out_of_date() -> None:
    engine = life()
    bench(engine, "2020-02-01", "head-a", TABLE)
    engine.work("2020-03-01", "rework: head-a, operation: ported", build="ported")
    assert not coefficient(engine, "2020-02-15").out_of_date
    assert coefficient(engine, "ported").out_of_date
    bench(engine, "2020-03-02", "head-a", BETTER)
    assert not coefficient(engine, "ported").out_of_date


def test_a_test_at_another_pressure_gives_the_same_coefficient() -> None:
    one, other = life(), life()
    bench(one, "2020-02-01", "head-a", TABLE)
    factor = (10 / 28) ** 0.5
    lines = [line.split(",") for line in TABLE.splitlines()[1:]]
    low = "\n".join(f"{lift},{float(a) * factor:.6f},{float(b) * factor:.6f}" for lift, a, b in lines)
    bench(other, "2020-02-01", "head-a", f"{TABLE.splitlines()[0]}\n{low}\n", at="10 inH2O")
    assert coefficient(one).value.nominal == pytest.approx(coefficient(other).value.nominal, rel=1e-6)
    full = [each.at("now").specs["inlet_flow_at_full_lift"].values[0] for each in (one, other)]
    assert full[0]
    assert full[1]
    assert full[0].nominal == pytest.approx(full[1].nominal, rel=1e-6)


def test_nothing_is_guessed_of_the_number_of_valves() -> None:
    spec = life(valves="").at("now").specs["inlet_mach_index"]
    assert spec.known == ()
    assert "inlet_valves" in spec.missing


def test_two_valves_halve_the_index_of_one() -> None:
    one = life().at("now").specs["inlet_mach_index"].values[0]
    two = life(valves="valves_per_cylinder: 2+2\n").at("now").specs["inlet_mach_index"].values[0]
    assert one
    assert two
    assert two.nominal == pytest.approx(one.nominal / 2)


def test_the_example_breathes_as_it_was_invented() -> None:
    """Speeds of the band of the donor and the third head, there by straight lines through the lift tables."""
    book = Logbook.open(EXAMPLE)
    for build, low, high in (("donor-head", 4799, 5758), ("third-head", 4880, 5856)):
        specs = book.at(build).specs
        begins, fast = specs["filling_falls_from"].values[0], specs["filling_falls_by"].values[0]
        assert begins
        assert fast
        assert (begins.nominal * 60, fast.nominal * 60) == pytest.approx((low, high), rel=3e-3)


def test_the_mach_index_over_the_speed_passes_the_band_where_it_stands() -> None:
    at = life().at("now")
    points = curve_values(at, "inlet_mach_index", "1")
    assert not isinstance(points, Missing)
    low, high = at.specs["filling_falls_from"].values[0], at.specs["filling_falls_by"].values[0]
    assert low
    assert high
    assert all((point.value.nominal >= 0.5) is (point.at >= low.nominal) for point in points)
    assert all((point.value.nominal >= 0.6) is (point.at >= high.nominal) for point in points)


@pytest.mark.parametrize(
    ("spec", "figures"),
    [
        ("inlet_port_velocity", {"result": 180.0}),
        ("volumetric_efficiency", {"result": 1.5}),
        ("inlet_discharge_coefficient", {"result": 1.1}),
        ("inlet_flow_at_full_lift", {"inlet_test_pressure": 15e3}),
        ("injector_duty", {"result": 0.95}),
    ],
)
def test_outside_of_what_a_formula_holds_for(spec: str, figures: dict[str, float]) -> None:
    assert outside_validity(spec, figures)
    assert not outside_validity(spec, {name: figure / 2 for name, figure in figures.items()})


def test_a_card_read_at_this_very_lift_comes_before_its_own_lift_table() -> None:
    """Near the seat a few hundredths of lift are many degrees; at another lift only the table says anything."""
    book = Logbook.open(EXAMPLE)
    at = book.at("start")
    opens = at.graph.at("inlet_opens", "")
    assert isinstance(opens, Node)
    assert (opens.basis, opens.value.nominal, opens.formula) == ("published", 14.0, None)
    assert at.specs["inlet_duration"].known[0].expanded == pytest.approx(4 * 2**0.5)
    higher = book.at("start", ["checking_lift=1.27 mm"]).graph.at("inlet_opens", "")
    assert isinstance(higher, Node)
    assert higher.formula is not None
    assert higher.value.nominal < 0  # after TDC


def test_the_lift_tables_of_the_example_end_where_its_cards_say() -> None:
    """Half the duration from the lobe centre the valve stands at the checking lift, on both sides."""
    book = Logbook.open(EXAMPLE)
    for build, half in (("start", 122.0), ("now", 138.0)):
        fact = book.at(build).graph.at("inlet_lift", "")
        assert isinstance(fact, Node)
        assert fact.held is not None
        curve = fact.held.fact.curve
        assert curve is not None
        assert (curve.at[0], curve.at[-1]) == (-half, half)
        assert (curve.values[0], curve.values[-1]) == pytest.approx((1e-4, 1e-4))


def test_a_greatest_flow_alone_takes_the_place_of_no_table() -> None:
    engine = life()
    figures = "inlet_flow: {all: 115 cfm}, exhaust_flow: {all: 81 cfm}"
    engine.texts["parts/head-a.yaml"] += f"  - {{basis: hearsay, at_depression: 28 inH2O, values: {{{figures}}}}}\n"
    engine.__dict__.pop("book", None)
    assert coefficient(engine).basis == ASSUMED
    specs = engine.at("now").specs
    assert specs["exhaust_flow_at_full_lift"].missing == ("exhaust_flow",)
    assert specs["inlet_flow_at_full_lift"].missing == ("inlet_flow",)
    bench(engine, "2020-02-01", "head-a", TABLE)
    assert coefficient(engine).basis == "published"
    assert engine.at("now").specs["exhaust_flow_at_full_lift"].known
