"""The owner's words and units: names, kinds, figures, and our own sentences in US usage."""

from __future__ import annotations

from logbook.quantity.catalogue import quantity
from logbook.quantity.units import BARE
from logbook.quantity.usage import Usage

UK, US = Usage(), Usage(us=True, imperial=True)


def test_words_and_units_of_either_owner() -> None:
    gap, ratio = quantity("squish_clearance"), quantity("compression_ratio")
    assert (UK.name(gap), US.name(gap)) == ("squish clearance", "quench clearance")
    assert (UK.kind("inlet_manifold"), US.kind("inlet_manifold")) == ("inlet manifold", "intake manifold")
    assert (UK.said(gap, 0.00095), US.said(gap, 0.00095)) == ("0.95 mm", "0.0374 in")
    assert (US.unit(ratio), US.scale(ratio), US.said(ratio, 10.5)) == ("", BARE, "10.5")
    assert US.unit(quantity("chamber_volume")) == "cc"  # which is read in cc everywhere


def test_a_sentence_of_ours_in_us_usage() -> None:
    uk = "Petrol: its vapour. Off its joint face; the tyres in this colour; squish, squishy, inlet-1."
    assert US.prose(uk) == "Gasoline: its vapor. Off its deck face; the tires in this color; quench, squishy, inlet-1."
    assert UK.prose(uk) == uk
