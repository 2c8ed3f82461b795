"""What is worked out once and kept: it never comes out stale, nor as what belongs to something else."""

from __future__ import annotations

import gc
from dataclasses import replace

import pytest
from lives import Life

from logbook.quantity.catalogue import quantity
from logbook.quantity.uncertain import Uncertain, exact, propagate
from logbook.specs import configuration as configurations
from logbook.specs import node as nodes
from logbook.specs.compression import compression_ratio
from logbook.specs.configuration import configuration, configuration_after
from logbook.specs.graph import Graph
from logbook.specs.index import formula
from logbook.specs.node import Node, of_fact, worked_out
from logbook.state.fold import live
from logbook.state.holding import Held, Holding


def two_bores(many: int = 2) -> Life:
    """A block that is measured again and again, each time a millimetre wider, bored in between."""
    life = Life(1, "single").part("block", "block").part("crank", "crankshaft", stroke="80 mm")
    life.work("2024-01-01", "fit: block", "fit: crank")
    for number in range(many):
        life.work(f"2024-02-{number % 28 + 1:02}", "rework: block, operation: bored")
        life.measure(
            f"2024-02-{number % 28 + 1:02}", "block", bore=f"{80 + number} mm", more=f"after: {life.last[8:]}\n"
        )
    return life


def bore(holding: Holding) -> float | None:
    held = holding.best(quantity("bore"), "1")
    return held.value.nominal if held else None


# of a record


def test_a_record_keeps_what_was_worked_out_of_it_and_a_changed_one_starts_anew() -> None:
    record = two_bores().book.record
    made = record.once("asked", lambda: [1])
    assert record.once("asked", lambda: [2]) is made
    assert replace(record, plans={}).once("asked", lambda: [2]) == [2]


def test_what_could_not_be_worked_out_is_asked_for_again() -> None:
    record = two_bores().book.record
    with pytest.raises(ZeroDivisionError):
        record.once("asked", lambda: 1 / 0)
    assert record.once("asked", lambda: 2.0) == 2.0


def test_a_changed_record_gives_its_own_figures_although_the_old_one_was_asked_first() -> None:
    life = two_bores(1).fold
    assert bore(configuration(life).holding) == pytest.approx(0.080)
    fact = life.record.facts["bore"][0]
    wider = fact._replace(positions=two_bores().book.record.facts["bore"][1].positions)
    changed = life._replace(record=replace(life.record, facts={**life.record.facts, "bore": (wider,)}))
    assert bore(configuration(changed).holding) == pytest.approx(0.081)
    assert bore(configuration(life).holding) == pytest.approx(0.080)


def test_figures_of_facts_that_come_and_go_are_each_their_own() -> None:
    """A fact that is let go of makes room for the next one, which must not be taken for it."""
    at = configuration(two_bores(1).fold)
    fact = at.life.record.facts["bore"][0]
    for number in range(200):
        ((stated,),) = fact.positions
        other = fact._replace(positions=((replace(stated, nominal=float(number)),),))
        sure = at.holding._sure(other, 0)
        assert sure is not None
        assert sure.value.nominal == number


# of a life


def test_a_figure_for_all_is_the_very_same_at_each_position_and_others_are_not() -> None:
    """So that a formula is worked out once for all of them; what was written of each stays its own."""
    life = Life().part("block", "block", bore="{all: 80.0 mm}").part("other", "block", bore="80.0 / 80.0 mm")
    values = {}
    for block in ("block", "other"):
        life.work("2024-01-01", f"fit: {block}")
        holding = life.at("now").holding
        values[block] = [held.value for position in "12" if (held := holding.best(quantity("bore"), position))]
    assert values["block"][0] is values["block"][1]
    assert values["other"][0].nominal == values["other"][1].nominal
    assert values["other"][0].terms.keys().isdisjoint(values["other"][1].terms)


def test_two_lives_of_one_record_do_not_answer_for_each_other() -> None:
    record = two_bores().book.record
    whole = live(record)
    shorter = whole._replace(reworks=())
    before, unbored = configuration_after(whole, 0), configuration_after(shorter, 0)
    assert bore(before.holding) is None, "it was bored before it was first measured"
    assert bore(unbored.holding) == pytest.approx(0.080)


def test_lives_that_come_and_go_do_not_answer_for_each_other() -> None:
    record = two_bores().book.record
    for _ in range(20):
        life = live(record)
        assert configuration_after(life, 2).life is life
        del life
        gc.collect(1)


def test_a_name_is_its_own_where_the_figures_are_shared() -> None:
    life = two_bores().fold
    now, day = configuration(life, "now"), configuration(life, "2024-03-01")
    assert (now.point.text, day.point.text) == ("now", "2024-03-01")
    assert now.graph is day.graph
    assert configuration_after(life, now.point.number).point.text == life.record.entries[-1].id


def test_what_is_known_is_not_mixed_up_with_what_was_known_then() -> None:
    life = two_bores().fold
    assert bore(configuration_after(life, 4).holding) == pytest.approx(0.081)
    assert bore(configuration_after(life, 4, known=3).holding) == pytest.approx(0.080)
    assert bore(configuration_after(life, 4).holding) == pytest.approx(0.081)


def test_the_latest_that_were_asked_for_are_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(configurations, "_MOST_KEPT", 2)
    life = two_bores().fold
    first, second = configuration_after(life, 0), configuration_after(life, 1)
    assert configuration_after(life, 0).graph is first.graph
    configuration_after(life, 2)
    assert configuration_after(life, 0).graph is first.graph, "it was asked for later than the second"
    assert configuration_after(life, 1).graph is not second.graph


# of a formula


def ratio_of(swept: Uncertain, clearance: Uncertain) -> float:
    """The ratio by the formula of the index, at arguments that nobody else holds on to."""
    fact = two_bores_fact
    of = {"swept_volume": swept, "clearance_volume": clearance}
    its = {name: (of_fact(name, "1", Held(fact, value)),) for name, value in of.items()}
    found = worked_out(formula("compression_ratio", compression_ratio), "1", its)
    assert isinstance(found, Node)
    return found.value.nominal


two_bores_fact = two_bores(1).book.record.facts["bore"][0]


def test_arguments_that_come_and_go_each_give_their_own_value() -> None:
    for number in range(1, 400):
        swept, clearance = Uncertain(5e-4, {"a": 1e-6}), Uncertain(number * 1e-6, {"b": 1e-8})
        assert ratio_of(swept, clearance) == pytest.approx(1 + 500 / number)


def test_the_very_same_arguments_are_worked_out_once_and_others_of_the_same_size_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[object] = []
    monkeypatch.setattr(nodes, "propagate", lambda *given: asked.append(given) or propagate(*given))
    nodes.forget()
    swept, clearance = Uncertain(5e-4, {"a": 1e-6}), Uncertain(5e-5, {"b": 1e-8})
    assert ratio_of(swept, clearance) == ratio_of(swept, clearance)
    assert len(asked) == 1
    ratio_of(swept, Uncertain(5e-5, {"b": 1e-8}))
    assert len(asked) == 2
    nodes.forget()
    ratio_of(swept, clearance)
    assert len(asked) == 3


def test_when_too_many_are_kept_the_values_stay_right(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(nodes, "_MOST_REMEMBERED", 3)
    nodes.forget()
    swept = exact(5e-4)
    for number in (1, 2, 3, 4, 5, 1, 2, 3, 4, 5):
        assert ratio_of(swept, exact(number * 1e-6)) == pytest.approx(1 + 500 / number)
    assert len(nodes._done) <= 3


def test_what_is_kept_tells_nothing_of_another_engine() -> None:
    small, large = (Life(1, "single").part("block", "block", bore=f"{size} mm") for size in (80, 90))
    found = []
    for life in (small, large, small):
        life.part("crank", "crankshaft", stroke="80 mm").work("2024-01-01", "fit: block", "fit: crank")
        at = configuration(live(life.book.record))
        node = Graph(at.life.arrangement, at.holding).at("swept_volume", "1")
        assert isinstance(node, Node)
        found.append(node.value.nominal * 1e6)
    assert found == pytest.approx([402.12, 508.94, 402.12], abs=0.01)
