"""Answers as tables: what she weighs, every moment of a dive, what is not in order."""

from collections.abc import Sequence

from trimdive.ballast.dive import Moment
from trimdive.findings import Finding
from trimdive.hydrostatics.equilibrium import Floater
from trimdive.hydrostatics.equilibrium.named import how_full
from trimdive.hydrostatics.weights import Entry, Ledger
from trimdive.tables.states import figures
from trimdive.tables.table import Table, table_of

FINDING = (
    "check", "subject", "weight", "what", "stands", "unit", "at_most", "at_least", "mend", "limit",
    "limit_source",
)  # fmt: skip


def part_row(one: Entry) -> dict[str, object]:
    """Return one thing that weighs, by the keys of ``weigh --json``."""
    x, y, z = (float(value) for value in one.place)
    return {
        "name": one.name,
        "kind": one.kind,
        "path": one.path,
        "mass_kg": one.mass,
        "spread_kg": one.spread,
        "known": one.known,
        "x_m": x,
        "y_m": y,
        "z_m": z,
        "inside": one.inside,
    }


def parts_table(masses: Ledger) -> Table:
    """Return everything that weighs, a row each."""
    return table_of({**part_row(one), "aboard": one.aboard} for one in masses.entries)


def dive_table(
    floater: Floater, moments: Sequence[Moment], marks: Sequence[tuple[str, float]]
) -> Table:
    """Return moments of a dive, a row each, by the keys of ``dive --json``.

    Args:
        floater: The boat.
        moments: In their order.
        marks: Where draughts are read: name and place along the boat [m].
    """
    return table_of(_moment(floater, one, marks) for one in moments)


def _moment(
    floater: Floater, moment: Moment, marks: Sequence[tuple[str, float]]
) -> dict[str, object]:
    state = moment.state
    draughts = {
        f"draught_{'_'.join(name.split())}_m": state.draught(x) if state.has_draughts else None
        for name, x in marks
    }
    return {
        "share": moment.filling,
        "filling": how_full(floater, state.rest.waters),
        "under": state.rest.under,
        "excess_kg": state.rest.excess if state.rest.under else None,
        **draughts,
        **figures(state),
    }


def findings_table(found: Sequence[Finding]) -> Table:
    """Return what is not in order, a row each, worst first."""
    rows = (
        {
            "check": one.key,
            "subject": one.subject,
            "weight": one.weight,
            "what": one.what.kind,
            "stands": one.stands,
            "unit": one.limit.unit,
            "at_most": one.limit.at_most,
            "at_least": one.limit.at_least,
            "mend": one.mend.kind,
            "limit": one.limit.text,
            "limit_source": one.limit.source,
        }
        for one in found
    )
    return table_of(rows, FINDING)
