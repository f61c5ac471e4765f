"""Weights, floating and diving of scale model submarines, worked out before they are built.

The program as a library, for whoever knows numpy::

    import trimdive as td

    plover = td.assess("boats/plover")  # a boat file, its folder, or a boat made in Python
    afloat = plover.surfaced  # a State: tanks blown
    print(f"{afloat.displacement_mass:.3f} kg, trim {afloat.trim_angle:+.4f} rad")
    for found in plover.findings:  # what to put right, worst first
        print(td.said(plover, found.what), td.said(plover, found.mend))
    aft = plover.with_piece("battery", x=0.28)  # a new assessment; plover stays as she was
    dive = aft.dive_table()  # a dict of arrays, which pandas and polars take
    picture = td.show(aft, "dive")  # shows itself in a notebook

Inside everything is SI: m, kg, m³, rad; x forward from the stern, y to port, z up from the keel
line; trim is positive bow down, heel to starboard. What is worked out of a boat hangs on her
Assessment and is worked out when it is first asked for: ``surfaced``, ``full``, ``dived``,
``dive``, ``need``, ``masses``, ``findings`` and more. An assessment never changes; ``with_piece``,
``with_added``, ``without`` and ``in_water`` give another.

What is wrong comes as an error that says what, where, and how to mend it; all of them are a
TrimdiveError. A boat that fails a check is no error: it is a Finding.

Ten recipes: docs/library.md. Every field of a boat: docs/boat-file.md.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.assessment import Assessment, assess
    from trimdive.boatfile import (
        Boat,
        Coat,
        Cylinder,
        Foam,
        KeepClear,
        Lead,
        LinesRegion,
        Loaded,
        Mark,
        MeshRegion,
        MyringRegion,
        Opening,
        OutlineRegion,
        Part,
        PrismRegion,
        RoundRegion,
        Series58Region,
        SuboffRegion,
        Tank,
        Units,
        Waterline,
        WaterOf,
        load,
        text_of,
    )
    from trimdive.errors import (
        AskError,
        BalanceError,
        BoatError,
        BoatFileError,
        DataError,
        DisagreementError,
        GeometryError,
        LinkageError,
        ListError,
        LockedError,
        PlanError,
        PlantError,
        StarterError,
        StrengthError,
        TapeError,
        TrimdiveError,
        UnitError,
        UnmendedError,
        WaterError,
    )
    from trimdive.findings import Finding
    from trimdive.hydrostatics.equilibrium import State
    from trimdive.notebook import Picture, plot, said, show
    from trimdive.tables import Table

__all__ = [
    "AskError",
    "Assessment",
    "BalanceError",
    "Boat",
    "BoatError",
    "BoatFileError",
    "Coat",
    "Cylinder",
    "DataError",
    "DisagreementError",
    "Finding",
    "Foam",
    "GeometryError",
    "KeepClear",
    "Lead",
    "LinesRegion",
    "LinkageError",
    "ListError",
    "Loaded",
    "LockedError",
    "Mark",
    "MeshRegion",
    "MyringRegion",
    "Opening",
    "OutlineRegion",
    "Part",
    "Picture",
    "PlanError",
    "PlantError",
    "PrismRegion",
    "RoundRegion",
    "Series58Region",
    "StarterError",
    "State",
    "StrengthError",
    "SuboffRegion",
    "Table",
    "Tank",
    "TapeError",
    "TrimdiveError",
    "UnitError",
    "Units",
    "UnmendedError",
    "WaterError",
    "WaterOf",
    "Waterline",
    "assess",
    "load",
    "plot",
    "said",
    "show",
    "text_of",
]

_HOMES = {
    "Assessment": "assessment",
    "Finding": "findings",
    "Picture": "notebook",
    "State": "hydrostatics.equilibrium",
    "Table": "tables",
    "assess": "assessment",
    "plot": "notebook",
    "said": "notebook",
    "show": "notebook",
}


if not TYPE_CHECKING:  # so that a checker knows the names, and no others

    def __getattr__(name):
        """Return a name of the library, loading what it stands in when it is first asked for."""
        if name not in __all__:
            raise AttributeError(f"module 'trimdive' has no attribute '{name}'", name=name)
        home = _HOMES.get(name) or ("errors" if name.endswith("Error") else "boatfile")
        found = globals()[name] = getattr(import_module(f"trimdive.{home}"), name)
        return found


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
