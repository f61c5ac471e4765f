"""Readings in the tub that the weight list does not use yet: passing, failing, at the limit."""

from tests.findings.checks import one, ran
from tests.rest.crate import crate
from tests.said import what_of

READING = '[[reading]]\ndate = "2026-05-01"\nx = {x}\ndraught = 131\n'
TUB = '[[from_tub]]\nmass = 20\nx = 500\nz = 40\ndate = "2026-05-01"\nreadings = {count}\n'


def test_readings_that_do_not_count() -> None:
    boat = crate(READING.format(x=100) + READING.format(x=900))
    found = one("tub-behind", boat)
    assert what_of(found).startswith("2 readings from the tub do not count")
    assert found.weight == "look at"
    assert boat.in_order
    assert ran("tub-behind", boat, 2) == ()
    assert len(ran("tub-behind", boat, 1)) == 1


def test_readings_newer_than_the_correction() -> None:
    both = READING.format(x=100) + READING.format(x=900)
    assert ran("tub-behind", crate(both + TUB.format(count=2))) == ()
    found = one("tub-behind", crate(both + TUB.format(count=1)))
    assert what_of(found).startswith("one reading from the tub since the list was last corrected")


def test_nothing_was_read() -> None:
    assert ran("tub-behind", crate()) == ()
