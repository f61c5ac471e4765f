"""A first boat whose hull is a mesh: how the mesh was taken, so that a slip is seen at once."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trimdive.boatfile import Units
    from trimdive.starter import DrawnHull


def taken_as(drawn: "DrawnHull", units: "Units") -> str:
    """Return in a sentence or two how a mesh was taken.

    Args:
        drawn: The hull.
        units: Those of the boat file.
    """
    how = "as printed, with both faces of its walls" if drawn.is_wall else "as her outside"
    length, broad, high = (
        units.write(one, "length") for one in (drawn.length, drawn.breadth, drawn.height)
    )
    tower = " A tower is drawn with it." if drawn.has_tower else ""
    encloses = units.write(drawn.holds, "volume")
    return (
        f"{drawn.file} is taken {how}: {length} long, {broad} broad, deck {high} above the keel "
        f"line; it encloses {encloses}.{tower}"
    )
