"""What `combine` prints of each combination besides its ratio: the band in which filling falls, and what it cost."""

from __future__ import annotations

import csv
import json
from pathlib import Path

from keyboard import typed

ASKED = ("combine", "cylinder_head=head-a,head-c", "pistons=pistons-2")


def test_the_band_in_which_filling_falls_has_a_line(demo: Path) -> None:
    out = " ".join(typed(*ASKED, at=demo).out.split())
    assert "filling falls from 3892 ± 62 rpm, inlet Mach index 0.5, and fast by 4671 ± 74 rpm, index 0.6" in out
    assert "flow coefficient that is assumed" not in out
    unmeasured = " ".join(typed(*ASKED, "--suppose", "inlet_flow_coefficient=0.35", at=demo).out.split())
    assert "index 0.6: with a flow coefficient that is assumed" in unmeasured


def test_the_cost_is_told_where_private_is_there(demo: Path) -> None:
    out = typed(*ASKED, at=demo).out
    assert "  cost 520.00 EUR; unknown of pistons-2; undivided, with other parts, 550.00 EUR\n" in out
    cost = json.loads(typed(*ASKED, "--json", at=demo).out)["combinations"][1]["cost"]
    assert cost["known"] == {"EUR": 520}
    assert cost["unknown"] == ["pistons-2"]
    assert cost["shared"][0] == {"of": "changes/2016-06-04-spares-bought", "amount": 310, "currency": "EUR"}


def test_a_table_has_a_column_for_each_and_says_where_prices_come_from(demo: Path) -> None:
    ran = typed(*ASKED, "--csv", at=demo)
    first, second = csv.DictReader(ran.out.splitlines())
    assert (second["Mach 0.5 at"], second["Mach 0.6 at"]) == ("4893 ± 77 rpm", "5872 ± 92 rpm")
    assert first["cost"].startswith("unknown of head-a, pistons-2; undivided")
    assert ran.err == "The column cost comes out of private/: take it out of what you publish.\n"


def test_without_private_there_is_no_word_of_cost(twin: Path) -> None:
    words = ("combine", "cylinder_head=head-a")
    assert "cost" not in typed(*words, at=twin).out
    assert json.loads(typed(*words, "--json", at=twin).out)["combinations"][0]["cost"] is None
    table = typed(*words, "--markdown", at=twin)
    assert ("cost" not in table.out, table.err) == (True, "")
