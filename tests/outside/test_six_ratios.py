"""Six ratios that the trade quotes for a two-litre four, 500 cc a cylinder. Common practice, no source.

On pistons with a dish of about 11 cc, heads with 42, 46 and 48 cc are quoted as 9.7, 9.0 and 8.7; on pistons with 14 to
15 cc as 9.0, 8.3 and 8.1. Each leaves a rest volume for gasket and deck, 500 / (ratio - 1) less chamber and dish:

                 42 cc            46 cc            48 cc
    11 cc        9.7: 4.5 cc      9.0: 5.5 cc      8.7: 5.9 cc
    14.5 cc      9.0: 6.0 cc      8.3: 8.0 cc      8.1: 7.9 cc

How sure each of them is, decides which cannot all be true. A ratio quoted to one decimal is taken at its rounding
(± 0.05, rectangular: 0.4 to 0.6 cc, k = 2), not at the usual ± 0.3 of a quoted ratio: that is how far an engine is from
its papers, in the gasket and deck that these six have in common. A chamber quoted in whole cc is as sure as castings
are (the catalogue's 1.0 cc), a dish as the range in which it is quoted (0.5 cc); in two claims over the same head, or
on the same pistons, these cancel. The two sets of pistons are given the same compression height, each within 0.10 mm.

So the first row agrees with itself (1.5 cc with ± 1.5); in the second 9.0 cannot be true together with 8.3 and 8.1,
by 2 cc; and the second set leaves 1.5 to 2.5 cc more than the first under the same head.
"""

from __future__ import annotations

import pytest
from lives import Life
from sources import checks

from logbook.judge.claims import between, conflicts
from logbook.judge.reconcile import reconcile
from logbook.specs.graph import Node
from logbook.specs.inference import rest_of

HEADS = {"head-42": 42, "head-46": 46, "head-48": 48}
DISHES = {"pistons-11": "11.0 ± 0.5 cc", "pistons-14": "14.5 ± 0.5 cc"}
QUOTED = (
    ("head-42", "pistons-11", 9.7),
    ("head-46", "pistons-11", 9.0),
    ("head-48", "pistons-11", 8.7),
    ("head-42", "pistons-14", 9.0),
    ("head-46", "pistons-14", 8.3),
    ("head-48", "pistons-14", 8.1),
)


def two_litre(*quoted: tuple[str, str, float], height: str | None = "40.00 mm", fitted: str = "head-46") -> Life:
    """The engine with head-46 and pistons-11 fitted, and what is quoted of its heads and pistons."""
    life = Life().part("block", "block", bore="86.00 mm").part("crank", "crankshaft", stroke="86.07 mm")
    life.part("rods", "connecting_rods").part("gasket", "head_gasket", gasket_bore="88.0 mm")
    for head, chamber in HEADS.items():
        life.part(head, "cylinder_head", chamber_volume=f"{chamber} cc")
    for pistons, dish in DISHES.items():
        more = {"compression_height": height} if height else {}
        life.part(pistons, "pistons", dish_volume=dish, **more)
    parts = ("block", "crank", "rods", "pistons-11", fitted, "gasket")
    life.work("2024-01-01", *(f"fit: {part}" for part in parts))
    for number, (head, pistons, ratio) in enumerate(quoted):
        life._write(
            f"notes/2024-02-0{number + 1}-quoted.yaml",
            f"date: 2024-02-0{number + 1}\ntitle: quoted\nfacts:\n  - {{basis: hearsay, source: trade, stated_for: "
            f"{{cylinder_head: {head}, pistons: {pistons}}}, values: {{compression_ratio: '{ratio}'}}}}\n",
        )
    return life


def pairs(life: Life) -> set[tuple[float, float]]:
    """The ratios that cannot be true together, the earlier first."""
    return {(float(gap.other.text), float(each.claim.text)) for each in conflicts(life.at("now")) for gap in each.gaps}


def said(life: Life) -> list[str]:
    return [finding.says for finding in life.book.findings]


@checks("rest_volume", source="by hand, 500 cc over a quoted ratio less one, less chamber and dish",
        kind="independent computation")  # fmt: skip
@pytest.mark.parametrize(("number", "rest"), [*enumerate([4.5, 5.5, 5.9, 6.0, 8.0, 7.9])])
def test_what_each_leaves_for_gasket_and_deck(number: int, rest: float) -> None:
    claim = two_litre(*QUOTED).at("now").graph.claimed[number]
    found = rest_of(claim, "1")
    assert found is not None
    assert round(found.value.nominal * 1e6, 1) == rest


def test_on_the_first_pistons_all_three_agree_and_nothing_is_said() -> None:
    life = two_litre(*QUOTED[:3])
    assert said(life) == []
    lowest, _, highest = life.at("now").graph.claimed
    gap = between(highest, lowest)
    assert gap is not None
    assert (gap.more.nominal * 1e6, gap.more.expanded * 1e6) == pytest.approx((1.46, 1.54), abs=0.01)


def test_on_the_second_pistons_the_first_ratio_stands_against_the_two_others() -> None:
    assert said(two_litre(*QUOTED[3:])) == [
        "the quoted 8.3 (trade; head-46, pistons-14) leaves 8.0 cc for gasket and deck, 2.0 ± 1.6 cc more than "
        "9.0 (trade; head-42, pistons-14), and cannot be true together with it; "
        "2.0 cc would be 0.33 mm of gasket or 0.34 mm of deck",
        "the quoted 8.1 (trade; head-48, pistons-14) leaves 7.9 cc for gasket and deck, 1.9 ± 1.6 cc more than "
        "9.0 (trade; head-42, pistons-14), and cannot be true together with it; "
        "1.9 cc would be 0.32 mm of gasket or 0.33 mm of deck",
    ]


def test_over_all_six_the_second_pistons_leave_too_much_under_every_head() -> None:
    """The three of the first row agree with each other; so do 8.3 and 8.1; so do 9.0 of the second row and the two
    lower ratios of the first.
    """
    life = two_litre(*QUOTED)
    assert said(life) == [
        "the quoted 9.0 (trade; head-42, pistons-14) leaves 6.0 cc for gasket and deck, 1.5 ± 1.2 cc more than "
        "9.7 (trade; head-42, pistons-11), and cannot be true together with it; "
        "1.5 cc would be 0.25 mm of gasket or 0.26 mm of deck",
        "the quoted 8.3 (trade; head-46, pistons-14) leaves 8.0 cc for gasket and deck, 3.5 ± 1.9 cc more than "
        "9.7 (trade; head-42, pistons-11), 2.5 ± 1.3 cc more than 9.0 (trade; head-46, pistons-11), "
        "2.1 ± 1.9 cc more than 8.7 (trade; head-48, pistons-11), 2.0 ± 1.6 cc more than "
        "9.0 (trade; head-42, pistons-14), and cannot be true together with any of these; "
        "3.5 cc would be 0.58 mm of gasket or 0.61 mm of deck",
        "the quoted 8.1 (trade; head-48, pistons-14) leaves 7.9 cc for gasket and deck, 3.5 ± 1.9 cc more than "
        "9.7 (trade; head-42, pistons-11), 2.4 ± 1.9 cc more than 9.0 (trade; head-46, pistons-11), "
        "2.0 ± 1.3 cc more than 8.7 (trade; head-48, pistons-11), 1.9 ± 1.6 cc more than "
        "9.0 (trade; head-42, pistons-14), and cannot be true together with any of these; "
        "3.5 cc would be 0.57 mm of gasket or 0.59 mm of deck",
    ]


def test_pistons_of_unknown_height_are_not_compared_with_the_others() -> None:
    assert pairs(two_litre(*QUOTED, height=None)) == {(9.0, 8.3), (9.0, 8.1)}


def test_a_lower_piston_explains_the_second_row() -> None:
    """Pistons 0.30 mm lower leave 1.7 cc more, and then only the two within the second row are left."""
    life = two_litre(*QUOTED)
    life.part("pistons-14", "pistons", dish_volume=DISHES["pistons-14"], compression_height="39.70 mm")
    assert pairs(life) == {(9.0, 8.3), (9.0, 8.1)}


def test_each_is_worked_out_from_another_and_none_from_itself() -> None:
    """With only 9.0 quoted for the head that is fitted there is no value; 9.7, quoted for another head, gives 9.16."""
    alone = two_litre(QUOTED[1]).at("now").specs["compression_ratio"]
    assert (alone.known, [claim.value for claim in alone.claims]) == ((), [9.0])
    found = two_litre(QUOTED[0]).at("now").graph.at("compression_ratio", "1")
    assert isinstance(found, Node)
    assert found.value.nominal == pytest.approx(1 + 500 / (46 + 11 + 4.47), abs=0.005)
    assert found.basis == "inferred"


def test_what_rests_on_a_claim_is_set_beside_the_claim_and_marked() -> None:
    at = two_litre(*QUOTED[:2]).at("now")
    (told,) = reconcile(at, at.specs["compression_ratio"])
    assert told.on_claim
    assert told.agrees
