"""What each entry did: work as known now, figures as a change in belief, the rest as nothing."""

from __future__ import annotations

from lives import Life

from logbook.judge.timeline import BELIEF, NOTHING, WORK, Happening, timeline


def told(life: Life) -> list[Happening]:
    return list(timeline(life.fold))


def swept(life: Life) -> list[tuple[str, float | None, float | None]]:
    """How each entry is told, and displacement before and after it in cc, where it changed."""
    found = []
    for each in told(life):
        if "displacement" in each.effect:
            before, after = (
                side[0] for side in (each.effect["displacement"].before, each.effect["displacement"].after)
            )
            found.append((each.told_as, before and round(before.nominal * 1e6), after and round(after.nominal * 1e6)))
        else:
            found.append((each.told_as, None, None))
    return found


def single() -> Life:
    life = Life(1, "single").part("block", "block", bore="80 mm").part("crank", "crankshaft", stroke="79 mm")
    return life.work("2024-01-01", "fit: block", "fit: crank")


def test_work_is_told_as_known_now() -> None:
    """The bore was measured only after it was bored; the work is told with that figure all the same."""
    life = single().work("2024-02-01", "rework: block, operation: bored").measure("2024-03-01", "block", bore="81 mm")
    assert swept(life) == [(WORK, None, 397), (WORK, 397, 407), (BELIEF, 397, 407)]


def test_a_measurement_is_told_as_what_it_changed_in_belief() -> None:
    life = single().measure("2024-02-01", "block", bore="80.5 mm").measure("2024-03-01", "block", bore="80.4 mm")
    assert swept(life) == [(WORK, None, 402), (BELIEF, 397, 402), (BELIEF, 402, 401)]


def test_a_correction_is_told_as_what_it_changed_in_belief() -> None:
    life = single().measure("2024-02-01", "block", bore="85 mm")
    life.work("2024-03-01", f"correct: {{entry: {life.last}, quantity: bore, why: slip}}")
    assert swept(life) == [(WORK, None, 397), (BELIEF, 397, 448), (BELIEF, 448, 397)]


def test_an_adoption_is_told_as_what_it_changed_in_belief() -> None:
    life = single().measure("2024-02-01", "crank", stroke="79.5 mm")
    first = life.last
    life.measure("2024-03-01", "crank", stroke="78.500 mm")
    life.work("2024-04-01", f"adopt: {{quantity: stroke, from: {first}, why: the second was read at the wrong pin}}")
    assert swept(life)[-1] == (BELIEF, 395, 400)


def test_a_figure_of_a_part_on_the_shelf_changes_nothing_yet() -> None:
    life = (
        single()
        .part("block-2", "block")
        .measure("2024-02-01", "block-2", bore="82 mm")
        .work("2024-03-01", "fit: block-2")
    )
    assert swept(life) == [(WORK, None, 397), (BELIEF, None, None), (WORK, 397, 417)]


def test_what_changes_no_figure_is_nothing() -> None:
    life = single().work("2024-02-01", "service: oil", "set: {main_jet: 140}", "tune: one, state: in use")
    life.texts["tests/2024-02-02-compression.yaml"] = (
        "date: 2024-02-02\nkind: compression test\noil: dry\nvalues: {cranking_pressure: {all: 12 bar gauge}}\n"
    )
    life.texts["notes/2024-02-03-said.yaml"] = (
        "date: 2024-02-03\ntitle: said\nfacts:\n  - {basis: hearsay, values: {displacement: 500 cc}}\n"
    )
    assert [each.told_as for each in told(life)] == [WORK, NOTHING, NOTHING, NOTHING]


def test_what_is_measured_between_two_pieces_of_work_is_not_told_as_the_work() -> None:
    """A bore wears: the figure nearest in time holds. What lies between the works is not the second work's doing."""
    life = single().measure("2024-02-01", "block", bore="80.0 mm").work("2024-02-02", "fit: crank")
    life.work("2024-05-01", "service: oil").measure("2024-06-01", "block", bore="80.2 mm")
    life.part("head", "cylinder_head").work("2024-06-02", "fit: head")
    assert swept(life)[-1] == (WORK, None, None)


def test_each_happening_has_the_state_after_its_entry() -> None:
    life = single().work("2024-02-01", "service: oil", at="100 km", build="ready")
    assert [each.state.build for each in told(life)] == [None, "ready"]
    assert [each.number for each in told(life)] == [0, 1]
