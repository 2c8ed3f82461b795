"""The plots: same bytes, the page's typeface, text as text, and every change marked."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from xml.etree import ElementTree

import bracken
import pytest

from logbook.documents import plots
from logbook.documents.plotting import drawing


@pytest.fixture(scope="module")
def life() -> bytes:
    return plots.life_line(bracken.life_panels())


def _texts(svg: bytes) -> list[str]:
    return ["".join(each.itertext()) for each in ElementTree.fromstring(svg).iter("{http://www.w3.org/2000/svg}text")]


def test_the_life_line_names_its_changes_values_and_counters(life: bytes) -> None:
    texts = _texts(life)
    wanted = {"head B, thin gasket", "head C", "sold", "10.79", "10.84", "hour meter, h"}
    assert wanted <= set(texts)


def test_the_life_line_is_as_wide_as_the_text(life: bytes) -> None:
    width = ElementTree.fromstring(life).attrib["width"]
    assert float(width.removesuffix("pt")) == pytest.approx(plots.WIDTH / 25.4 * 72, abs=0.01)


def test_plots_use_the_pages_typeface_and_carry_no_date(life: bytes) -> None:
    assert b"Inter" in life
    assert b"DejaVu" not in life
    assert b"dc:date" not in life


def test_the_same_life_gives_the_same_bytes(life: bytes) -> None:
    assert plots.life_line(bracken.life_panels()) == life


def test_an_engine_with_one_step_and_no_changes_can_be_plotted() -> None:
    panel = plots.Panel("odometer, km", 61000, 61000, (plots.Step(61000, 9.2, 0.0, False),))
    assert "9.20" in _texts(plots.life_line([panel]))


_SURE = plots.Panel("hour meter, h", 412.5, 420.2, (plots.Step(412.5, 10.246, 0.027),))


@pytest.mark.parametrize(
    "drawn",
    [
        lambda: plots.life_line([_SURE], decimals=3),
        lambda: plots.curves([plots.Curve("a", (1.0, 2.0), (123456.0, 125000.0))], x_label="x", y_label="y"),
    ],
    ids=["life", "curves"],
)
def test_the_numbers_of_the_upright_axis_stand_whole_on_the_page(drawn: Callable[[], bytes]) -> None:
    numbers = [
        each for each in ElementTree.fromstring(drawn()).iter("{http://www.w3.org/2000/svg}text")
        if "text-anchor: end" in each.attrib["style"] and (each.text or "")[:1].isdigit()
    ]  # fmt: skip
    with drawing() as (_, width_of):
        starts = [float(each.attrib["x"]) * 25.4 / 72 - width_of(each.text or "") for each in numbers]
    assert starts
    assert min(starts) >= 0


@pytest.mark.parametrize(
    ("end", "shown"),
    [(103.0, {"100", "101", "102", "103"}), (101.0, {"100.0", "100.5", "101.0"}), (190.0, {"100", "150"})],
)
def test_hours_are_counted_in_whole_ones_but_in_a_very_short_life(end: float, shown: set[str]) -> None:
    panel = plots.Panel("hour meter, h", 100.0, end, (plots.Step(100.0, 9.2, 0.1), plots.Step(100.4, 9.4, 0.1)))
    texts = _texts(plots.life_line([panel]))
    assert shown <= set(texts)
    on_axis = [text for text in texts if (text.startswith("1") and "." not in text) or text in shown]
    assert len(on_axis) == len(set(on_axis))


def test_curves_are_named_at_their_ends() -> None:
    texts = _texts(plots.curves(bracken.torque_curves(), x_label="engine speed, rpm", y_label="torque, N m"))
    assert {"head A, tune 1", "head B, tune 4", "head C, tune 5", "engine speed, rpm", "torque, N m"} <= set(texts)


@pytest.mark.slow
def test_no_home_and_nowhere_to_write_gives_a_plot_and_no_word() -> None:
    """In a process of its own: the plotting library looks for its folders when it is imported."""
    script = "import bracken; from logbook.documents import plots; print(len(plots.life_line(bracken.life_panels())))"
    environment = {"HOME": "/nonexistent", "PATH": os.defpath, "PYTHONPATH": os.pathsep.join(sys.path)}
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", script], env=environment, capture_output=True, text=True
    )
    assert done.stderr == ""
    assert int(done.stdout) > 5000
