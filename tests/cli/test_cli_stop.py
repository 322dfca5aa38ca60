"""Ctrl-C while a job is solved: raised in a search, kept for the next one between searches, and at once the second
time."""

import os
import signal

import pytest

from floorwright.cli.stop import stoppable


def press() -> None:
    os.kill(os.getpid(), signal.SIGINT)


def quiet(_what: str, _share: float) -> None:
    pass


def test_in_a_search_it_is_raised_there() -> None:
    with stoppable(quiet) as (told, stop):
        told("searching all positions", 0.0)
        with pytest.raises(KeyboardInterrupt):
            press()
    assert stop.asked


def test_between_searches_it_waits_for_the_next_one() -> None:
    with stoppable(quiet) as (told, stop):
        told("ranking options", 0.9)
        press()
        assert stop.asked
        told("searching for your aims", 0.0)
        with pytest.raises(KeyboardInterrupt):
            told("searching for your aims", 0.4)


def press_twice() -> None:
    press()
    press()


def test_pressed_again_it_ends_at_once_and_afterwards_it_is_as_before() -> None:
    before = signal.getsignal(signal.SIGINT)
    with stoppable(quiet) as (told, _):
        told("ranking options", 0.9)
        with pytest.raises(KeyboardInterrupt):
            press_twice()
    assert signal.getsignal(signal.SIGINT) is before
