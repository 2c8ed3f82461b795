"""Every key that any file may hold, misspelt: told at its line and column, by its name, with what was meant."""

from __future__ import annotations

import re
from collections.abc import Iterator

from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.record import entries, models
from logbook.record.read import read_record
from logbook.record.strict import Strict

#: One file of each kind with every key that it may hold, each on a line of its own.
FULL = {
    "engine.yaml": """\
format: 1
name: Quarry six
engine_number: Q6-0117
made: about 1971
cylinders: 6
arrangement: vee
bank_angle: 60 deg
banks: {1: 1-3-5, 2: 2-4-6}
numbering: 1 at the front
firing_order: 1-2-3-4-5-6
firing_intervals: even
valves_per_cylinder: 1+1
main_bearings: 4
camshafts: overhead
cycle: four-stroke
ignition: spark
counters:
  hour meter:
    unit: h
    from: 2018-03-10
crevice: left out
show: metric
words: uk
instruments:
  burette-50:
    what: 50 ml burette
    common: 0.05 ml
    each: 0.20 ml
    day: 0.05 ml
    checked: 2023-11-02
    note: class A
service:
  - what: valve lash
    every: 10000 km
    note: cold
limits:
  - id: class-size
    spec: displacement
    min: 1000 cc
    max: 1600 cc
    rule: class rule 4.2
    note: bore and stroke
  - id: squish-least
    choose: common practice, aluminium rods
    why: forged aluminium
  - id: squish-most
    off: yes
picture: files/engine.svg
caption: from the left
demonstration: yes
note: invented
""",
    "parts/head-b.yaml": """\
kind: cylinder_head
what: larger valves
pieces: 1
part_number: 0912-44
casting_number: H-214
marks: a punch mark
obtained:
  date: 2023-05
  from: donor engine
  condition: used
  note: by train
came_from:
  engine: Quarry four, Q4-0031
  fingerprint: 00112233445566778899aabbccddeeff00112233445566778899aabbccddeeff
  distance: 12000 km
  hours: 31.5 h
  note: back again
used_before: about 16000 km, at least 20 h
removed_before: 0.2 mm
service_life: 30 h
state: thought of
fits: block-1
facts:
  - basis: hearsay
    source: seller
    date: 2023-05
    by: owner
    with: burette-50
    stated_for: {head_gasket: gasket-1}
    at_lift: 0.10 mm
    at_lash: 0.30 mm
    at_depression: 28 inH2O
    oil: dry
    values: {chamber_volume: 38 cc}
    note: by phone
note: from a barn
""",
    "measurements/2024-02-11-head-b.yaml": """\
date: 2024-02-11
time: 10:00
after: 2024-02-11-earlier
reading: unknown
by: owner
title: Head B
note: warm
written_from: files/p12.jpg
part: head-b
with: burette-50
at_lift: 0.10 mm
at_lash: 0.30 mm
at_depression: 28 inH2O
oil: dry
values: {chamber_volume: {all: 38.1 cc}}
conditions: {fluid: paraffin}
taken:
  - part: head-b
    with: burette-50
    by: owner
    at_lift: 0.10 mm
    at_lash: 0.30 mm
    at_depression: 28 inH2O
    oil: dry
    values: {chamber_volume: {all: 38.1 cc}}
    note: again
""",
    "changes/2024-03-02-work.yaml": """\
date: 2024-03-02
kind: head swap
build: head-b-on
forecast:
  from: plan:head-b
  assume: {gasket_thickness: 1.0 mm}
  specs: {compression_ratio: 9.2 ± 0.1 / 9.3 ± 0.1}
work:
  - fit: head-b
    at: bank 1
    order: A
    found: yes
    why: ported
    by: owner
    with: wrench-2
    note: done
  - remove: head-b
    at: bank 1
    to: shelf
  - rework: head-b
    operation: surface milled
    depth: 0.30 mm
    to: {head_thickness: 90 mm}
    at_lift: 0.10 mm
  - set: {main_jet: 140}
    at_lash: 0.30 mm
  - tune: tune-5
    from: tune-4
    tables: {ignition: files/a.csv}
    state: trial
    fuel: 98 RON
  - tighten: head bolts
    stages: 30 N m
    stretch: 0.13 mm
    target: 0.14 mm
    thread: M10
    order: centre outwards
    lubricant: oil
    bolts: new
    tightenings: 1
  - service: oil
  - repair: a stud
    how: with an insert
  - counter:
      odometer:
        was: 98211 km
        now: 12 km
  - move: hillclimb car
    counters:
      odometer:
        was: 12 km
        now: none
  - correct:
      entry: measurements/2024-02-11-head-b
      part: head-b
      quantity: chamber_volume
      position: 2
      why: a slip
  - adopt:
      quantity: chamber_volume
      from: measurements/2024-02-11-head-b
      part: head-b
      why: better light
  - accept:
      limit: class-size
      value: 1601 cc
      why: a friendly class
  - owner: bought
    part: head-b
  - handed_over: all papers
  - due: retorque head
    after: 500 km
  - closes: 2024-02-18-knock
""",
    "tests/2024-03-09-compression.yaml": """\
date: 2024-03-09
kind: compression test
part: head-b
with: gauge-1
oil: dry
conditions: {throttle: open}
data: a.csv
sheet: {standard: DIN 70020}
values: {cranking_pressure: 11.9 bar gauge}
observed: {cylinder 4: air}
""",
    "notes/2024-04-01-knock.yaml": """\
date: 2024-04-01
title: Slight knock
open: yes
facts:
  - basis: hearsay
    values: {compression_ratio: 9.2}
""",
    "plans/head-c.yaml": """\
title: Head C
date: 2024-04-01
from: head-b-on
assume: {deck_clearance: {all: 0.05 mm below}}
withdrawn: 2024-05-01
why: over the limit
by: owner
note: not now
work:
  - fit: head-b
""",
}
KEY = re.compile(r"^([ -]*)([a-z_]+):", re.MULTILINE)
NAMED_BY_THE_USER = {"odometer"}


def keys() -> Iterator[tuple[str, int, int, str]]:
    """File, line, column and name of each key that stands first on its line."""
    for file, text in FULL.items():
        for number, line in enumerate(text.splitlines(), 1):
            found = KEY.match(line)
            if found and found[2] not in NAMED_BY_THE_USER:
                yield file, number, len(found[1]) + 1, found[2]


KEYS = list(keys())


def all_models() -> Iterator[type[Strict]]:
    for module in (models, entries):
        for each in vars(module).values():
            if isinstance(each, type) and issubclass(each, Strict):
                yield each


def reading(texts: dict[str, str]) -> list[str]:
    return [str(finding) for finding in read_record({file: text.encode() for file, text in texts.items()}).findings]


def test_the_files_above_read_well_and_hold_every_key_of_every_model() -> None:
    shape = [said for said in reading(FULL) if "is not a key" in said or "wants" in said or "missing" in said]
    assert shape == []
    held = {key for *_, key in KEYS}
    known = {key for model in all_models() for key in model.keys}
    assert known - held == set()


def test_a_key_with_a_letter_too_many() -> None:
    for file, line, column, key in KEYS:
        lines = FULL[file].splitlines(keepends=True)
        wrong = key[: len(key) // 2] + key[len(key) // 2] + key[len(key) // 2 :]
        lines[line - 1] = lines[line - 1].replace(f"{key}:", f"{wrong}:", 1)
        said = reading({file: "".join(lines)})
        at_the_key = [each for each in said if f"{file}:{line}:{column}: wrong: `{wrong}`" in each]
        assert len(at_the_key) == 1, said
        assert f"write `{key}`" in at_the_key[0], said


@settings(max_examples=150, deadline=None)
@given(st.sampled_from(KEYS), st.data())
def test_any_other_word_for_a_key_is_told_at_its_place(place: tuple[str, int, int, str], data: st.DataObject) -> None:
    file, line, column, key = place
    wrong = data.draw(st.from_regex(r"[a-z][a-z_]{0,14}", fullmatch=True).filter(lambda word: word not in ALL_KEYS))
    lines = FULL[file].splitlines(keepends=True)
    lines[line - 1] = lines[line - 1].replace(f"{key}:", f"{wrong}:", 1)
    said = reading({file: "".join(lines)})
    assert any(each.startswith(f"{file}:{line}:{column}: wrong: `{wrong}`") for each in said), said


ALL_KEYS = {key for *_, key in KEYS}


def test_the_keys_of_one_level_are_not_offered_at_another() -> None:
    """`depth` belongs to a rework; a fit that holds it is told what a fit may hold."""
    said = reading({"changes/2024-03-02-work.yaml": "date: 2024-03-02\nwork:\n  - fit: head-b\n    depht: 1 mm\n"})
    mend = "the keys here are at, by, fit, found, note, order, why, with"
    assert said[-1].endswith(f":4:5: wrong: `depht` is not a key that belongs here; {mend}")
