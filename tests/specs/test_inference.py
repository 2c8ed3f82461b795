"""What a claimed ratio tells of the rest volume: where it serves, where it does not, and what it rests on."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.specs.configuration import Configuration, configuration
from logbook.specs.graph import Node


def short_motor(**gasket: str) -> Life:
    """500 cc a cylinder; nothing known of the deck, and of the gasket what is given."""
    return (
        Life(1, "single")
        .part("block-1", "block", bore="86.0 mm")
        .part("crank-1", "crankshaft", stroke="86.07 mm")
        .part("rods-1", "connecting_rods")
        .part("pistons-1", "pistons", dish_volume="11.0 cc")
        .part("head-a", "cylinder_head", chamber_volume="46.0 cc")
        .part("head-b", "cylinder_head", chamber_volume="42.0 cc")
        .part("gasket-1", "head_gasket", **gasket)
        .part("gasket-2", "head_gasket")
        .work(
            "2024-01-01",
            *(f"fit: {part}" for part in ("block-1", "crank-1", "rods-1", "pistons-1", "head-a", "gasket-1")),
        )
    )


def said(life: Life, ratio: str = "9.0", stated_for: str = "", basis: str = "published") -> Life:
    meant = f"stated_for: {{{stated_for}}}, " if stated_for else ""
    block = f"{{basis: {basis}, source: the book, {meant}values: {{compression_ratio: {ratio}}}}}"
    file = f"notes/2024-01-02-{len(life.texts)}.yaml"
    return life._write(file, f"date: 2024-01-02\ntitle: quoted\nfacts:\n  - {block}\n")


def value(at: Configuration, name: str, position: str = "1") -> float | None:
    found = at.graph.at(name, position)
    return found.value.nominal if isinstance(found, Node) else None


def rest(at: Configuration) -> float | None:
    found = value(at, "rest_volume")
    return None if found is None else round(found * 1e6, 1)


def test_a_claim_serves_another_head_over_the_same_short_motor() -> None:
    """500/8 less 46 and 11 cc leave 5.5; with a chamber of 42 cc that is 500/58.5 and one more: 9.55."""
    at = said(short_motor()).work("2024-02-01", "remove: head-a", "fit: head-b").at("now")
    assert rest(at) == 5.5
    found = at.graph.at("compression_ratio", "1")
    assert isinstance(found, Node)
    assert found.value.nominal == pytest.approx(9.55, abs=0.005)
    assert found.basis == "inferred"
    assert {held.fact.name for held in found.facts.values()} >= {"compression_ratio", "chamber_volume", "dish_volume"}
    assert sum("chamber_volume" in key for key in found.value.terms) == 2  # that of the claim and that of now


def test_the_combination_that_was_claimed_keeps_no_value_and_the_claim_beside_it() -> None:
    spec = said(short_motor()).at("now").specs["compression_ratio"]
    assert spec.known == ()
    assert [claim.value for claim in spec.claims] == [9.0]


def test_what_is_claimed_of_a_combination_never_fitted_serves_the_one_that_is() -> None:
    """9.7 with head-b: 500/8.7 less 53 leave 4.5 for head-a."""
    life = said(short_motor(), "9.7", "cylinder_head: head-b, pistons: pistons-1, head_gasket: gasket-1")
    assert rest(life.at("now")) == 4.5
    assert life.work("2024-02-01", "remove: head-a", "fit: head-b").at("now").specs["compression_ratio"].known == ()


@pytest.mark.parametrize(
    "step",
    [
        "rework: block-1, operation: decked",
        "rework: gasket-1, operation: gasket changed",
        "rework: pistons-1, operation: crown machined",
        "remove: gasket-1",
    ],
)
def test_another_deck_or_gasket_is_not_the_one_that_was_claimed(step: str) -> None:
    life = said(short_motor()).work("2024-02-01", "remove: head-a", "fit: head-b")
    assert rest(life.at("now")) == 5.5
    more = ["fit: gasket-2"] if step.startswith("remove") else []
    assert rest(life.work("2024-03-01", step, *more).at("now")) is None


def test_a_head_that_was_milled_since_is_another_chamber_and_no_circle() -> None:
    life = said(short_motor()).work("2024-02-01", "rework: head-a, operation: surface milled")
    life.measure("2024-02-02", "head-a", using="fine", chamber_volume="44.0 cc")
    assert rest(life.at("now")) == 5.5
    assert value(life.at("now"), "compression_ratio") == pytest.approx(1 + 500 / 60.5, abs=0.005)


def test_other_pistons_want_both_compression_heights() -> None:
    """0.20 mm less stand lower by 58.09 cm2 times that: 1.16 cc more."""

    def with_pistons(**height: str) -> Configuration:
        life = said(short_motor()).part("pistons-2", "pistons", dish_volume="14.5 cc", compression_height="32.80 mm")
        life.part("pistons-1", "pistons", dish_volume="11.0 cc", **height)
        return life.work("2024-02-01", "remove: pistons-1", "fit: pistons-2").at("now")

    assert rest(with_pistons()) is None
    assert rest(with_pistons(compression_height="33.00 mm")) == pytest.approx(5.5 + 1.2, abs=0.05)


def test_what_is_measured_takes_its_place() -> None:
    life = said(short_motor(gasket_bore="88.0 mm", gasket_thickness="1.20 mm"))
    life.work("2024-02-01", "remove: head-a", "fit: head-b")
    assert rest(life.at("now")) == 5.5
    life.measure("2024-02-02", using="fine", deck_clearance="0.10 mm below")
    found = life.at("now").graph.at("rest_volume", "1")
    assert isinstance(found, Node)
    assert found.value.nominal * 1e6 == pytest.approx(7.30 + 0.58, abs=0.01)
    assert "compression_ratio" not in {held.fact.name for held in found.facts.values()}


def test_of_several_claims_the_better_founded_serves() -> None:
    life = said(said(short_motor(), "8.8", basis="hearsay"), "9.0", basis="published")
    assert rest(life.work("2024-02-01", "remove: head-a", "fit: head-b").at("now")) == 5.5


def test_what_comes_from_a_claim_counts_as_inferred_whoever_said_it() -> None:
    at = said(short_motor(), basis="hearsay").work("2024-02-01", "remove: head-a", "fit: head-b").at("now")
    spec = at.specs["compression_ratio"]
    assert spec.basis == "inferred"
    assert set(spec.shares) == {"published", "inferred"}
    assert spec.shares["inferred"] > 0.5


def test_between_two_heads_the_claim_and_its_chamber_cancel() -> None:
    """Only the two chambers differ: 1.0 cc each way (k = 2) and little else."""
    life = said(short_motor()).part("head-c", "cylinder_head", chamber_volume="44.0 cc")
    one = life.work("2024-02-01", "remove: head-a", "fit: head-b").at("now").graph.at("clearance_volume", "1")
    other = life.work("2024-03-01", "remove: head-b", "fit: head-c").at("now").graph.at("clearance_volume", "1")
    assert isinstance(one, Node)
    assert isinstance(other, Node)
    assert (other.value - one.value).expanded * 1e6 == pytest.approx(2**0.5, abs=0.001)
    assert one.value.expanded * 1e6 > 2


# two banks


def vee(more: str = "") -> Life:
    """Two cylinders, one to a bank, 500 cc each; on bank 1 head-l of 46 cc, on bank 2 head-r of 44 cc."""
    life = Life(2, "vee", more)
    life.part("block-1", "block", bore="86.0 mm").part("crank-1", "crankshaft", stroke="86.07 mm")
    life.part("rods-1", "connecting_rods").part("pistons-1", "pistons", dish_volume="11.0 cc")
    for name, chamber in (("head-l", "46.0 cc"), ("head-r", "44.0 cc"), ("head-x", "42.0 cc")):
        life.part(name, "cylinder_head", chamber_volume=chamber)
    life.part("gasket-l", "head_gasket").part("gasket-r", "head_gasket")
    at_bank = [f"fit: {part}-{side}, at: bank {bank}" for part in ("head", "gasket")
               for side, bank in (("l", 1), ("r", 2))]  # fmt: skip
    return life.work(
        "2024-01-01", *(f"fit: {part}" for part in ("block-1", "crank-1", "rods-1", "pistons-1")), *at_bank
    )


def rests(at: Configuration) -> list[float | None]:
    found = [value(at, "rest_volume", position) for position in ("1", "2")]
    return [None if each is None else round(each * 1e6, 1) for each in found]


def test_in_a_vee_a_claim_for_one_head_speaks_of_its_bank_alone() -> None:
    """500/8 less 46 and 11 cc leave 5.5 on bank 1, once another head stands there; nothing is said of bank 2."""
    life = said(vee(), stated_for="cylinder_head: head-l")
    now = life.at("now").specs["compression_ratio"]
    assert [len(life.at("now").holding.all(now.row, position)) for position in ("1", "2")] == [1, 0]
    after = life.work("2024-02-01", "fit: head-x, at: bank 1").at("now")
    assert rests(after) == [5.5, None]


def test_in_a_vee_a_claim_for_a_head_on_the_shelf_serves_whichever_bank() -> None:
    """500/8 less 42 and 11 cc leave 9.5 over either bank's short motor and gasket."""
    assert rests(said(vee(), stated_for="cylinder_head: head-x").at("now")) == [9.5, 9.5]


def test_two_claims_for_the_heads_of_two_banks_do_not_contradict_each_other() -> None:
    """Each bank has its own gasket, so that 9.0 left and 7.0 right may both be true."""
    life = said(said(vee(), stated_for="cylinder_head: head-l"), "7.0", stated_for="cylinder_head: head-r")
    assert not [each for each in life.book.findings if "cannot be true" in each.says]


# said before the engine was entered


def test_a_claim_written_down_before_the_engine_was_is_about_the_engine_as_it_was_first_put_together() -> None:
    life = short_motor()
    block = "{basis: hearsay, values: {compression_ratio: 9.0}}"
    life._write("notes/2023-12-24-said.yaml", f"date: 2023-12-24\ntitle: Said\nfacts:\n  - {block}\n")
    claims = life.at("2024-01-01").specs["compression_ratio"].claims
    assert [claim.value for claim in claims] == [9.0]
    assert rest(life.work("2024-02-01", "fit: head-b").at("now")) == 5.5
    assert life.at("now").specs["compression_ratio"].claims == ()


def test_with_hindsight_a_claim_leaves_aside_what_is_found_to_be_a_mistake_later() -> None:
    """The chamber of head-a was read 2 cc too small: 500/8 less 44 and 11 cc leave 7.5, without that slip 5.5."""
    life = said(short_motor()).measure("2024-01-03", "head-a", chamber_volume="44.0 cc")
    wrong, known = life.last, len(life.book.record.entries)
    life.texts["plans/b.yaml"] = "title: a\ndate: 2024-01-04\nwork:\n  - {fit: head-b}\n"
    life.work("2024-03-01", f"correct: {{entry: {wrong}, part: head-a, quantity: chamber_volume, why: a slip}}")
    found = [rest(configuration(life.fold, "plan:b", known=known, hindsight=late)) for late in (False, True)]
    assert found == [7.5, 5.5]
