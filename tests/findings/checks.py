"""Runs one check on a boat, with its own limit or with another."""

from dataclasses import replace

from tests.said import what_of

from trimdive.assessment import Assessment
from trimdive.findings import CHECKS, Assessed, Finding, limit_of


def ran(key: str, facts: Assessed, value: float | None = None) -> tuple[Finding, ...]:
    """Return what one check finds, with its limit or with this one [SI]."""
    function, limit_key = CHECKS[key]
    limit = limit_of(limit_key, facts.boat)
    if value is not None:
        limit = replace(limit, value=value)
    return tuple(function(facts, limit))


def one(key: str, boat: Assessment) -> Finding:
    """Return the one finding of a check."""
    found = ran(key, boat)
    assert len(found) == 1, [what_of(each) for each in found]
    return found[0]


def about(boat: Assessment) -> set[tuple[str, str]]:
    """Return check and subject of all that is found."""
    return {each.about for each in boat.first_findings}


def assert_mended(found: Finding, boat: Assessment) -> Assessment:
    """Check that a finding's own changes take it away; return the boat with them made."""
    assert found.edits, what_of(found)
    after = boat.edited(found.edits)
    assert found.about not in about(after), [what_of(each) for each in after.first_findings]
    return after


def part(name: str, fields: str) -> str:
    """Return a part as the boat file has it; fields are parted by semicolons."""
    return "\n".join(["[[part]]", f'name = "{name}"', *(f.strip() for f in fields.split(";")), ""])


def with_answers(boat: Assessment, **answers: object) -> Assessment:
    """Return a boat of which some answers are other ones, such as how she lies dived."""
    other = Assessment(boat=boat.boat, files=boat.files)
    vars(other).update(answers)
    return other
