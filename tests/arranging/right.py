"""What every answer of the program says of a boat that is in order."""

from trimdive.assessment import Assessment
from trimdive.findings import ROOM_KEYS, limit_of


def in_order(her: Assessment) -> None:
    """Ask of a boat all that the other answers say."""
    assert not her.surfaced.rest.under
    assert her.goes_under
    assert abs(her.surfaced.trim_angle) <= limit_of("trim-surfaced", her.boat).value
    assert abs(her.dived.trim_angle) <= limit_of("trim-dived", her.boat).value
    assert [f.key for f in her.first_findings if f.weight == "put right"] == []
    assert [f.key for f in her.first_findings if f.key in ROOM_KEYS] == []
    assert her.fit.outs
    assert [out.name for out in her.fit.outs if out.way is None] == []
    wanted = limit_of("gap-cylinder", her.boat).value
    clear = [gap.width for gap in her.fit.gaps if gap.kind == "cylinder" and gap.to == "skin"]
    assert min(clear, default=1.0) >= wanted
