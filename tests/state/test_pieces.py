"""One piece of a set exchanged: what stands where, which figures sleep and wake, how far each piece ran."""

from __future__ import annotations

import pytest
from lives import Life

from logbook.state.states import piece_name


def short_motor(cylinders: int = 4, arrangement: str = "inline") -> Life:
    """Pistons of a set with a spare one, and two single ones from elsewhere."""
    life = Life(cylinders, arrangement).part("block", "block")
    life.part("crank", "crankshaft").part("rods", "connecting_rods")
    life.part("pistons-2", "pistons", f"pieces: {cylinders + 1}\n", compression_height="33.00 ± 0.02 mm")
    life.part("piston-7", "pistons", "pieces: 1\n", compression_height="33.20 ± 0.02 mm", dish_volume="4 cc")
    life.part("piston-8", "pistons", "pieces: 1\n", dish_volume="3 cc")
    life.measure("2023-12-01", "pistons-2", dish_volume=" / ".join(f"5.{n + 1}" for n in range(cylinders + 1)) + " cc")
    return life.work("2024-01-01", *(f"fit: {part}" for part in ("block", "crank", "rods", "pistons-2")), at="1000 km")


def exchanged() -> Life:
    """Piston 7 in cylinder 4 from 2024-03-01 to 2024-05-01, piston 8 there until 2024-06-01."""
    life = short_motor()
    life.measure("2024-02-01", deck_clearance="0.60 / 0.61 / 0.62 / 0.63 ± 0.03 mm below")
    life.work("2024-03-01", "fit: piston-7, at: cylinder 4", at="1400 km")
    life.work("2024-05-01", "fit: piston-8, at: cylinder 4", at="2000 km")
    life.work("2024-06-01", "fit: pistons-2, at: cylinder 4", at="2700 km")
    return life.work("2024-07-01", "service: oil", at="3000 km")


def test_the_others_stay_where_they_are() -> None:
    life = exchanged()
    assert life.book.findings == ()
    pistons = [[part for part in life.parts(day) if part.startswith("piston")] for day in ("2024-03-01", "2024-05-01")]
    assert pistons == [["pistons-2", "piston-7"], ["pistons-2", "piston-8"]]
    assert life.parts("2024-06-01") == life.parts("2024-01-01")


def test_figures_at_that_cylinder_are_those_of_the_single_piece() -> None:
    life = exchanged()
    crowns = {day: [life.holds(day, "dish_volume", each) for each in "1234"] for day in ("2024-03-01", "2024-05-01")}
    assert crowns == {"2024-03-01": ["5.1", "5.2", "5.3", "4"], "2024-05-01": ["5.1", "5.2", "5.3", "3"]}
    assert [life.holds("now", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", "5.3", "5.4"]


def test_a_figure_of_the_assembled_engine_sleeps_there_and_wakes_with_its_own_piece() -> None:
    """With another height it is predicted, 0.63 − 0.20 mm; of piston 8 no height is known."""
    life = exchanged()
    days = ["2024-02-01", "2024-03-01", "2024-05-01", "2024-06-01"]
    assert [life.holds(day, "deck_clearance", "4") for day in days] == ["0.63", "0.43", None, "0.63"]
    assert {life.holds(day, "deck_clearance", "3") for day in days} == {"0.62"}


def test_every_piece_has_its_own_distance() -> None:
    life = exchanged()
    ran = {part: life.distance("now", part) for part in ("pistons-2", "piston-7", "piston-8")}
    assert ran == {"pistons-2": 2000, "piston-7": 600, "piston-8": 700}
    assert life.distance("now", piece_name("pistons-2", 2)) == 2000
    assert life.distance("now", piece_name("pistons-2", 3)) == 400 + 300
    assert life.distance("now", piece_name("pistons-2", 4)) is None  # the spare one
    assert life.distance("2024-05-01", piece_name("pistons-2", 3)) == 400


def test_the_spare_piece_of_the_set_itself() -> None:
    life = short_motor().work("2024-03-01", "fit: pistons-2, at: cylinder 2, order: E", at="1400 km")
    life.work("2024-04-01", "service: oil", at="1500 km")
    assert life.book.findings == ()
    assert [life.holds("now", "dish_volume", each) for each in "1234"] == ["5.1", "5.5", "5.3", "5.4"]
    assert [life.distance("now", piece_name("pistons-2", piece)) for piece in (1, 4)] == [400, 100]


def test_another_set_takes_the_place_of_both() -> None:
    life = exchanged().part("pistons-3", "pistons").work("2024-08-01", "fit: piston-7, at: cylinder 1")
    life.work("2024-09-01", "fit: pistons-3", at="3500 km")
    assert [part for part in life.parts("now") if part.startswith("piston")] == ["pistons-3"]


def test_a_set_of_which_every_piece_has_gone_is_off() -> None:
    life = short_motor()
    for number in range(1, 5):
        life.part(f"single-{number}", "pistons", "pieces: 1\n")
        life.work(f"2024-03-0{number}", f"fit: single-{number}, at: cylinder {number}", at=f"{1000 + number} km")
    assert "pistons-2" in life.parts("2024-03-03")
    assert "pistons-2" not in life.parts("2024-03-04")
    assert life.distance("now", "pistons-2") == 4


def test_a_piece_taken_off_leaves_the_cylinder_without_figures() -> None:
    life = short_motor().work("2024-03-01", "remove: pistons-2, at: cylinder 3", at="1400 km")
    assert [life.holds("now", "dish_volume", each) for each in "1234"] == ["5.1", "5.2", None, "5.4"]
    life.work("2024-04-01", "remove: pistons-2")
    assert not any(part.startswith("piston") for part in life.parts("now"))


def test_a_piece_in_one_bank_leaves_the_other_bank_alone() -> None:
    life = short_motor(6, "vee").work("2024-03-01", "fit: piston-7, at: cylinder 4")
    assert [life.holds("now", "dish_volume", each) for each in "123456"] == ["5.1", "5.2", "5.3", "4", "5.5", "5.6"]


def test_a_big_end_shell_of_a_vee_is_that_of_its_crankpin() -> None:
    """Cylinders 3 and 4 are the second of their banks, and share the second crankpin."""
    life = short_motor(6, "vee").part("shells", "rod_bearings").part("shell", "rod_bearings", "pieces: 1\n")
    life.work("2024-01-02", "fit: shells")
    life.measure("2024-02-01", rod_bearing_bore="50.01 / 50.02 / 50.03 mm")
    life.work("2024-03-01", "fit: shell, at: cylinder 4")
    assert [life.holds("now", "rod_bearing_bore", each) for each in "123"] == ["50.01", None, "50.03"]


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("fit: pistons-2, at: cylinder 4", "the piece of `pistons-2` is already at cylinder 4"),
        ("fit: pistons-2, at: cylinder 4, order: B", "pistons-2, piece B is already in another cylinder"),
        ("fit: pistons-2, at: cylinder 4, order: G", "`G` does not name one piece for each cylinder"),
        ("fit: pistons-9, at: cylinder 4", "`pistons-9` has 5 pieces, and one goes to cylinder 4"),
        ("fit: piston-7", "`piston-7` has 1 piece, and there are 4 cylinders"),
        ("fit: crank-2, at: cylinder 4", "the crankshaft serves the whole engine, not cylinder 4"),
        ("fit: piston-7, at: cylinder 9", "`cylinder 9` is no place on this engine"),
        ("remove: pistons-2, at: cylinder 9", "`pistons-2` is not at cylinder 9 at this moment"),
        ("remove: piston-7", "`piston-7` is not fitted at this moment"),
    ],
)
def test_exchanges_that_cannot_be(step: str, says: str) -> None:
    life = short_motor().part("crank-2", "crankshaft").part("pistons-9", "pistons", "pieces: 5\n")
    before = life.parts("now")
    (finding,) = life.work("2024-03-01", step).book.findings
    assert (finding.file, finding.level, finding.says) == (f"{life.last}.yaml", "wrong", says)
    if "order: G" not in step and "pistons-9" not in step:
        assert life.parts("now") == before


def test_a_single_piece_that_stands_in_another_cylinder_is_removed_first() -> None:
    life = short_motor().work("2024-03-01", "fit: piston-7, at: cylinder 4", "fit: piston-7, at: cylinder 3")
    (finding,) = life.book.findings
    assert finding.says == "`piston-7` is already fitted at cylinder 4"
