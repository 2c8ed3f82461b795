"""Three lives that no shortcut survives: what two heads share cancels, parts keep what is theirs, one cc goes all the
way."""

from __future__ import annotations

from math import hypot

import pytest
from lives import EXAMPLE, Life

from logbook.judge.compare import REAL
from logbook.judge.timeline import BELIEF, timeline
from logbook.logbook import Logbook
from logbook.specs.specs_file import specs_file

TEXTS = dict(Logbook.open(EXAMPLE).record.texts)


def with_changes(*changes: tuple[str, str, str]) -> Logbook:
    """The example with (file, text, other text) exchanged in memory."""
    texts = dict(TEXTS)
    for file, old, new in changes:
        assert texts[file].decode().count(old) == 1, (file, old)
        texts[file] = texts[file].decode().replace(old, new).encode()
    return Logbook.of_texts(texts)


# 1. Correlation


def test_what_two_heads_share_cancels_from_their_difference() -> None:
    """Chambers ± 0.2 cc each (0.1 cc of the mean of four), opening ± 0.5 cm2, gasket ± 0.05 mm, deck ± 0.15 mm,
    crown ± 0.5 cc, all k = 2: only the chambers differ between the two heads."""
    crowns = "measurements/2018-03-24-head-a-off.yaml"
    book = with_changes(
        (crowns, "dome_volume: 2.2 / 2.2 / 2.2 / 2.2 / x cc", "dome_volume: {all: 2.2 ± 0.5 cc}"),
        ("measurements/2017-05-01-spare-piston.yaml", "dome_volume: x / x / x / x / 2.2 cc", "dome_volume: unknown"),
        (
            "measurements/2017-04-02-assembly-sheet.yaml",
            "deck_clearance: 0.05 / 0.05 / 0.05 / 0.05 mm below",
            "deck_clearance: {all: 0.05 ± 0.15 mm below}",
        ),
        ("parts/gasket-2.yaml", "gasket_thickness: 0.90 mm", "gasket_thickness: 0.90 ± 0.05 mm"),
        (
            "measurements/2018-03-17-head-b-after-milling.yaml",
            "chamber_volume: 36.5 / 37.0 / 36.6 / 36.8 cc",
            "chamber_volume: 36.5 / 37.0 / 36.6 / 36.8 ± 0.2 cc",
        ),
        (
            "measurements/2019-02-09-head-c.yaml",
            "chamber_volume: 37.8 / 37.7 / 37.9 / 37.8 cc",
            "chamber_volume: 37.8 / 37.7 / 37.9 / 37.8 ± 0.2 cc",
        ),
    )
    ratio = book.compare("donor-head", "third-head").specs["mean_compression_ratio"]
    (delta,), (before,), (after,) = ratio.differences, ratio.before, ratio.after
    assert delta is not None
    assert before is not None
    assert after is not None
    assert delta.nominal == pytest.approx(-0.27, abs=0.005)
    assert delta.expanded == pytest.approx(0.04, abs=0.005)
    assert ratio.verdicts == (REAL,)
    assert hypot(before.expanded, after.expanded) == pytest.approx(0.34, abs=0.02)  # as if the sides shared nothing


def test_the_same_point_differs_from_itself_by_nothing_at_all() -> None:
    same = Logbook.open(EXAMPLE).compare("third-head", "now").specs["mean_compression_ratio"]
    assert same.verdicts == ("the same",)
    assert same.differences[0] is not None
    assert same.differences[0].expanded == 0


# 2. Identity


def test_parts_keep_what_is_theirs_and_a_vee_keeps_its_banks_apart() -> None:
    life = Life().part("block", "block").part("crank", "crankshaft").part("rods", "connecting_rods")
    life.part("pistons", "pistons").part("head-a", "cylinder_head").part("head-b", "cylinder_head")
    short = [f"fit: {part}" for part in ("block", "crank", "rods", "pistons")]
    life.work("2024-01-01", *short, "fit: head-a", at="1000 km")
    life.measure("2024-01-02", "head-a", chamber_volume="36.1 / 36.2 / 36.3 / 36.4 cc")
    life.measure("2024-01-03", deck_clearance="0.30 / 0.31 / 0.32 / 0.33 mm below")
    life.work("2024-02-01", "fit: head-b", at="1500 km")
    life.work("2024-03-01", "fit: head-a", at="1700 km")
    life.work("2024-04-01", "service: oil", at="2000 km")
    chambers = [life.holds("2024-03-01", "chamber_volume", each) for each in "1234"]
    assert chambers == ["36.1", "36.2", "36.3", "36.4"]
    assert [life.holds("2024-02-01", "chamber_volume", each) for each in "1234"] == [None] * 4
    assert life.holds("2024-03-01", "deck_clearance", "3") == "0.32"
    assert [life.distance(day, "head-a") for day in ("2024-02-01", "2024-03-01", "2024-04-01")] == [500, 500, 800]
    assert [life.distance(day, "head-b") for day in ("2024-02-01", "2024-03-01", "2024-04-01")] == [0, 200, 200]

    vee = Life(6, "vee", "banks: {left: 1-3-5, right: 2-4-6}\n").part("block", "block", bore="90 mm")
    vee.part("crank", "crankshaft", stroke="80 mm").part("pistons", "pistons", dish_volume="5 cc")
    vee.part("head-1", "cylinder_head").part("head-2", "cylinder_head")
    vee.part("gasket-1", "head_gasket", gasket_bore="91 mm").part("gasket-2", "head_gasket", gasket_bore="91 mm")
    vee.work(
        "2024-01-01", "fit: block", "fit: crank", "fit: pistons", "fit: head-1, at: bank left",
        "fit: gasket-1, at: bank left", "fit: head-2, at: bank right", "fit: gasket-2, at: bank right",
    )  # fmt: skip
    vee.measure("2024-01-02", "head-1", chamber_volume="41 / 43 / 45 cc")
    vee.measure("2024-01-03", "head-2", chamber_volume="42 / 44 / 46 cc")
    vee.measure("2024-01-04", "gasket-1", gasket_thickness="1.0 mm")
    vee.measure("2024-01-05", "gasket-2", gasket_thickness="1.2 mm")
    vee.measure("2024-01-06", deck_clearance="0.1 / 0.2 / 0.3 / 0.4 / 0.5 / 0.6 mm below")
    assert [vee.holds("now", "chamber_volume", each) for each in "123456"] == ["41", "42", "43", "44", "45", "46"]
    assert [vee.holds("now", "gasket_thickness", bank) for bank in ("left", "right")] == ["1", "1.2"]
    squish = [round(value.nominal * 1e3, 6) for value in vee.at("now").specs["squish_clearance"].known]
    assert squish == [1.1, 1.4, 1.3, 1.6, 1.5, 1.8]
    assert len(vee.at("now").specs["compression_ratio"].known) == 6
    assert [finding.level for finding in vee.book.findings] == ["note"]  # that its chambers are uneven

    # the heads change sides: each takes its chambers along, in its own order
    vee.work("2024-02-01", "remove: head-1", "remove: head-2")
    vee.work("2024-02-02", "fit: head-1, at: bank right", "fit: head-2, at: bank left")
    assert [vee.holds("now", "chamber_volume", each) for each in "123456"] == ["42", "41", "44", "43", "46", "45"]
    assert vee.holds("now", "deck_clearance", "4") == "0.4"


# 3. Life


def test_one_cubic_centimetre_more_in_one_chamber_goes_all_the_way() -> None:
    more = {
        "measurements/2020-02-01-head-c-again.yaml": "date: 2020-02-01\npart: head-c\nwith: burette-50\n"
        "values: {chamber_volume: x / 38.7 / x / x cc}\n"
    }
    before = Logbook.of_texts(TEXTS)
    after = Logbook.of_texts({**TEXTS, **{file: text.encode() for file, text in more.items()}})
    was, now = before.at("now").specs["compression_ratio"], after.at("now").specs["compression_ratio"]
    assert [value.nominal for number, value in enumerate(now.known) if number != 1] == [
        value.nominal for number, value in enumerate(was.known) if number != 1
    ]
    swept, clearance = (before.at("now").specs[name].known[1].nominal for name in ("swept_volume", "clearance_volume"))
    assert now.known[1].nominal == pytest.approx(1 + swept / (clearance + 1.0e-6))

    told = {each.entry.id: each for each in timeline(after.life)}
    happening = told["measurements/2020-02-01-head-c-again"]
    assert happening.told_as == BELIEF
    ratio = happening.effect["compression_ratio"]
    assert ratio.before[1] is not None
    assert ratio.after[1] is not None
    assert (ratio.before[1].nominal, ratio.after[1].nominal) == (was.known[1].nominal, now.known[1].nominal)
    assert {"mean_compression_ratio", "effective_compression_ratio", "clearance_volume"} <= set(happening.effect)
    assert "displacement" not in happening.effect

    files = [specs_file(book.at("now"), "0", "f").decode().splitlines() for book in (before, after)]
    changed = [line.strip() for line in files[1] if line not in files[0]]
    assert f"2: {now.known[1].nominal:.3f} ± 0.093" in changed
    assert not any(line.startswith(("1: 10.", "3: 10.", "4: 10.")) for line in changed)
