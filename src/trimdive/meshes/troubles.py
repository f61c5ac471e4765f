"""The troubles of a mesh in words, each with the repair that mends it."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from trimdive.meshes.holes import SMALL_HOLE
from trimdive.meshes.report import MeshReport

Write = Callable[[float, str], str]  # a value in SI and its kind, as text
AT_ORIGIN = "Mend it where it was drawn."


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Something wrong with a mesh."""

    key: str
    what: str  # in words, with numbers
    repair: str  # the repair that mends it; "" where it must be mended where it was drawn
    mend: str  # what to do, in words
    stops: bool  # whether nothing sensible can be worked out with it


def troubles(found: MeshReport, write: Write) -> tuple[Trouble, ...]:
    """Return the troubles of a mesh, in the order in which they are best mended.

    Args:
        found: What stands in it.
        write: Writes lengths and volumes.
    """
    if found.loose == found.triangles:
        what = f"it is nothing but {found.triangles} loose triangles"
        return (_told("loose", what, "", "Write the mesh anew.", stops=True),)
    checks = (_points, _faces, _holes, _turned, _inside_out, _bodies, _crossed)
    return tuple(trouble for check in checks for trouble in check(found, write))


def _told(key: str, what: str, repair: str, mend: str, *, stops: bool = False) -> Trouble:
    return Trouble(key=key, what=what, repair=repair, mend=mend, stops=stops)


def _counted(count: int, one: str, many: str = "") -> str:
    """Return so many things in words.

    >>> _counted(1, "hole"), _counted(3, "body", "bodies")
    ('1 hole', '3 bodies')
    """
    return f"{count} {one if count == 1 else many or one + 's'}"


def _points(found: MeshReport, _: Write) -> Iterator[Trouble]:
    if found.near_points:
        points = _counted(found.near_points, "point")
        way = "lies" if found.near_points == 1 else "lie"
        what = f"{points} along its open edges {way} as good as on another one"
        yield _told("unwelded", what, "weld", "Weld them.")


def _faces(found: MeshReport, _: Write) -> Iterator[Trouble]:
    if found.doubled:
        way = "stands" if found.doubled == 1 else "stand"
        what = f"{_counted(found.doubled, 'triangle')} {way} there twice"
        yield _told("doubled", what, "drop", "Drop the doubles.", stops=found.crowded_edges > 0)
    if found.hanging:
        way = "is flat and closes" if found.hanging == 1 else "are flat and close"
        what = f"{_counted(found.hanging, 'triangle')} {way} nothing"
        yield _told("flat", what, "drop", "Drop what is flat.", stops=found.open_edges > 0)
    if found.loose:
        way = "hangs" if found.loose == 1 else "hang"
        what = f"{_counted(found.loose, 'triangle')} {way} together with nothing else"
        yield _told("loose", what, "drop", "Drop them.", stops=True)


def _holes(found: MeshReport, write: Write) -> Iterator[Trouble]:
    if not found.open_edges:
        return
    edges = f"{_counted(found.open_edges, 'open edge')}"
    around = (
        f" round {_counted(len(found.holes), 'hole')}, the widest "
        f"{write(found.holes[0].span, 'length')} across"
        if found.holes
        else ""
    )
    most = SMALL_HOLE * float(found.size.max())
    small = [hole for hole in found.holes if hole.span <= most]
    mend = "Close it where it was drawn, or give the outside as a table of lines."
    if small and len(small) == len(found.holes):
        mend = "Cap them." if len(small) > 1 else "Cap it."
    elif small:
        mend = f"Cap those up to {write(most, 'length')}; close the others where it was drawn."
    repair = "cap" if small else ""
    yield _told("open", f"it is not closed: {edges}{around}", repair, mend, stops=True)


def _turned(found: MeshReport, _: Write) -> Iterator[Trouble]:
    if found.turned_edges:
        what = (
            f"at {_counted(found.turned_edges, 'edge')} two triangles face opposite ways"
            f"{', with triangles doubled' if found.doubled else ''}"
        )
        yield _told("turned", what, "flip", "Turn them one way round.", stops=True)


def _inside_out(found: MeshReport, _: Write) -> Iterator[Trouble]:
    count, whole = found.inside_out, found.solid_bodies
    if not count:
        return
    what = "it is inside out"
    if whole > 1:
        what = f"{count} of its {whole} bodies {'is' if count == 1 else 'are'} inside out"
    yield _told("inside-out", what, "flip", "Turn its triangles round.")


def _bodies(found: MeshReport, write: Write) -> Iterator[Trouble]:
    if found.overlap:
        what = f"its bodies overlap by {write(found.overlap, 'volume')}, which counts twice"
        if found.overlap < 0:
            common = write(-found.overlap, "volume")
            what = f"rooms inside it overlap by {common}, which is left out twice"
        yield _told("overlap", what, "union", "Make its bodies one.")
    elif found.crossing_bodies and not found.is_overlap_known:
        pairs = _counted(found.crossing_bodies, "pair")
        what = f"its bodies overlap: {pairs} of triangles pass through each other"
        yield _told("overlap", what, "union", "Make them one, once each is closed.")


def _crossed(found: MeshReport, _: Write) -> Iterator[Trouble]:
    own = found.crossings - found.crossing_bodies
    if own:
        what = f"it passes through itself at {_counted(own, 'pair')} of triangles"
        yield _told("self-crossing", what, "", AT_ORIGIN)
