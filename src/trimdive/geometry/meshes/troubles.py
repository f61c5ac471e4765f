"""The troubles of a mesh, each with the repair that usually mends it."""

from collections.abc import Iterator
from dataclasses import dataclass

from trimdive.fact import Fact, fact
from trimdive.geometry.meshes.holes import SMALL_HOLE
from trimdive.geometry.meshes.report import MeshReport


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something wrong with a mesh."""

    key: str
    what: Fact
    repair: str  # the repair that mends it; "" where it must be mended where it was drawn
    mend: Fact  # what to do
    stops: bool  # whether nothing sensible can be worked out with it


def troubles(found: MeshReport) -> tuple[Trouble, ...]:
    """Return the troubles of a mesh, in the order in which they are best mended.

    Args:
        found: What stands in it.
    """
    if found.loose == found.triangles:
        what, mend = fact("mesh-all-loose", triangles=found.triangles), fact("export-mesh-again")
        return (_trouble("loose", what, "", mend, stops=True),)
    checks = (_points, _faces, _holes, _turned, _inside_out, _bodies, _crossed)
    return tuple(trouble for check in checks for trouble in check(found))


def _trouble(key: str, what: Fact, repair: str, mend: Fact, *, stops: bool = False) -> Trouble:
    return Trouble(key=key, what=what, repair=repair, mend=mend, stops=stops)


def _points(found: MeshReport) -> Iterator[Trouble]:
    if found.near_points:
        what = fact("points-unwelded", points=found.near_points)
        yield _trouble("unwelded", what, "weld", fact("weld-points"))


def _faces(found: MeshReport) -> Iterator[Trouble]:
    if found.doubled:
        what, stops = fact("triangles-doubled", triangles=found.doubled), found.crowded_edges > 0
        yield _trouble("doubled", what, "drop", fact("drop-doubles"), stops=stops)
    if found.hanging:
        what, stops = fact("triangles-flat", triangles=found.hanging), found.open_edges > 0
        yield _trouble("flat", what, "drop", fact("drop-flat"), stops=stops)
    if found.loose:
        what = fact("triangles-loose", triangles=found.loose)
        yield _trouble("loose", what, "drop", fact("drop-loose"), stops=True)


def _holes(found: MeshReport) -> Iterator[Trouble]:
    if not found.open_edges:
        return
    spans = [hole.span for hole in found.holes]  # widest first
    widest = spans[0] if spans else None
    most = SMALL_HOLE * float(found.size.max())
    small = [span for span in spans if span <= most]
    mend = fact("close-where-drawn")
    if small and len(small) == len(spans):
        mend = fact("cap-holes", holes=len(small))
    elif small:
        mend = fact("cap-small-holes", most=most)
    what = fact("mesh-open", edges=found.open_edges, holes=len(spans), widest=widest)
    yield _trouble("open", what, "cap" if small else "", mend, stops=True)


def _turned(found: MeshReport) -> Iterator[Trouble]:
    if found.turned_edges:
        what = fact("edges-turned", edges=found.turned_edges, are_doubled=found.doubled > 0)
        yield _trouble("turned", what, "flip", fact("turn-one-way"), stops=True)


def _inside_out(found: MeshReport) -> Iterator[Trouble]:
    if found.inside_out:
        what = fact("bodies-inside-out", bodies=found.inside_out, of=found.solid_bodies)
        yield _trouble("inside-out", what, "flip", fact("turn-round"))


def _bodies(found: MeshReport) -> Iterator[Trouble]:
    if found.overlap > 0:
        what = fact("bodies-overlap", common=found.overlap)
        yield _trouble("overlap", what, "union", fact("unite-bodies"))
    elif found.overlap < 0:
        what = fact("rooms-overlap", common=-found.overlap)
        yield _trouble("overlap", what, "union", fact("unite-bodies"))
    elif found.crossing_bodies and not found.is_overlap_known:
        what = fact("bodies-cross", pairs=found.crossing_bodies)
        yield _trouble("overlap", what, "union", fact("unite-closed-bodies"))


def _crossed(found: MeshReport) -> Iterator[Trouble]:
    own = found.crossings - found.crossing_bodies
    if own:
        what = fact("mesh-crosses-itself", pairs=own)
        yield _trouble("self-crossing", what, "", fact("mend-where-drawn"))
