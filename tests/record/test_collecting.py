"""The search for garbage is held back and let go again, and what somebody else has set aside stays set aside."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from logbook.record.collecting import collection_paused


@pytest.fixture(autouse=True)
def _as_it_was() -> Iterator[None]:
    yield
    gc.unfreeze()
    gc.enable()


def kept_in(generation: int) -> set[int]:
    return {id(each) for each in gc.get_objects(generation)}


def test_it_is_off_within_and_on_behind() -> None:
    with collection_paused():
        assert not gc.isenabled()
    assert gc.isenabled()


def test_it_stays_off_where_it_was_off() -> None:
    gc.disable()
    with collection_paused():
        pass
    assert not gc.isenabled()


def test_it_is_on_again_after_a_mistake() -> None:
    with pytest.raises(ValueError, match="a mistake"), collection_paused():
        raise ValueError("a mistake")
    assert gc.isenabled()


def test_what_was_made_within_counts_as_old_and_is_still_looked_through() -> None:
    with collection_paused():
        made = [[number] for number in range(5000)]
    assert {id(each) for each in made} <= kept_in(2)
    assert gc.get_freeze_count() == 0


def test_what_was_set_aside_before_stays_so() -> None:
    gc.freeze()
    aside = gc.get_freeze_count()
    assert aside > 0
    with collection_paused():
        pass
    assert gc.get_freeze_count() == pytest.approx(aside, rel=0.1)
