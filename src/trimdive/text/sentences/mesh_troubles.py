"""What is wrong with a mesh by itself, and what puts it right."""

from trimdive.text.said import says
from trimdive.text.say import Say

WAYS = {
    "weld": "Weld its points.",
    "drop": "Drop the triangles that are flat, doubled or loose.",
    "flip": "Turn its triangles outward.",
    "cap": "Cap its small holes.",
    "union": "Join its bodies.",
}


def _counted(count: int, one: str) -> str:
    """Return so many things in words.

    >>> _counted(1, "hole"), _counted(3, "hole")
    ('1 hole', '3 holes')
    """
    return f"{count} {one if count == 1 else f'{one}s'}"


@says("mesh-all-loose")
def _all_loose(_: Say, triangles: int) -> str:
    return f"it is nothing but {triangles} loose triangles"


@says("points-unwelded")
def _unwelded(_: Say, points: int) -> str:
    lie = "lies" if points == 1 else "lie"
    return f"{_counted(points, 'point')} along its open edges {lie} almost on another one"


@says("triangles-doubled")
def _doubled(_: Say, triangles: int) -> str:
    are = "is" if triangles == 1 else "are"
    return f"{_counted(triangles, 'triangle')} {are} there twice"


@says("triangles-flat")
def _flat(_: Say, triangles: int) -> str:
    close = "is flat and closes" if triangles == 1 else "are flat and close"
    return f"{_counted(triangles, 'triangle')} {close} nothing"


@says("triangles-loose")
def _loose(_: Say, triangles: int) -> str:
    hang = "hangs" if triangles == 1 else "hang"
    return f"{_counted(triangles, 'triangle')} {hang} together with nothing else"


@says("mesh-open")
def _mesh_open(say: Say, edges: int, holes: int, widest: float | None) -> str:
    text = f"it is not closed: {_counted(edges, 'open edge')}"
    if widest is None:
        return text
    return f"{text} round {_counted(holes, 'hole')}, the widest {say.fine(widest, 'length')} across"


@says("edges-turned")
def _edges_turned(_: Say, edges: int, are_doubled: bool) -> str:
    doubled = ", with triangles doubled" if are_doubled else ""
    return f"at {_counted(edges, 'edge')} two triangles face opposite ways{doubled}"


@says("bodies-inside-out")
def _inside_out(_: Say, bodies: int, of: int) -> str:
    if of <= 1:
        return "it is inside out"
    return f"{bodies} of its {of} bodies {'is' if bodies == 1 else 'are'} inside out"


@says("bodies-overlap")
def _overlap(say: Say, common: float) -> str:
    return f"its bodies overlap by {say.fine(common, 'volume')}, which counts twice"


@says("rooms-overlap")
def _rooms(say: Say, common: float) -> str:
    return f"rooms inside it overlap by {say.fine(common, 'volume')}, which is left out twice"


@says("bodies-cross")
def _bodies_cross(_: Say, pairs: int) -> str:
    many = _counted(pairs, "pair")
    return f"its bodies overlap: {many} of triangles pass through each other"


@says("mesh-crosses-itself")
def _crosses(_: Say, pairs: int) -> str:
    return f"it passes through itself at {_counted(pairs, 'pair')} of triangles"


@says("export-mesh-again")
def _export(_: Say) -> str:
    return "Export the mesh again."


@says("weld-points")
def _weld(_: Say) -> str:
    return "Weld them."


@says("drop-doubles")
def _drop_doubles(_: Say) -> str:
    return "Drop the doubles."


@says("drop-flat")
def _drop_flat(_: Say) -> str:
    return "Drop what is flat."


@says("drop-loose")
def _drop_loose(_: Say) -> str:
    return "Drop them."


@says("close-where-drawn")
def _close(_: Say) -> str:
    return "Close it where it was drawn, or give the outside as a table of lines."


@says("cap-holes")
def _cap(_: Say, holes: int) -> str:
    return "Cap them." if holes > 1 else "Cap it."


@says("cap-small-holes")
def _cap_small(say: Say, most: float) -> str:
    return f"Cap those up to {say.fine(most, 'length')}; close the others where it was drawn."


@says("turn-one-way")
def _one_way(_: Say) -> str:
    return "Turn them one way round."


@says("turn-round")
def _turn_round(_: Say) -> str:
    return "Turn its triangles round."


@says("unite-bodies")
def _unite(_: Say) -> str:
    return "Join its bodies."


@says("unite-closed-bodies")
def _unite_closed(_: Say) -> str:
    return "Join them, once each is closed."


@says("mend-where-drawn")
def _where_drawn(_: Say) -> str:
    return "Repair it where it was drawn."


@says("mend-by-repair")
def _by_repair(_: Say, repair: str) -> str:
    return WAYS[repair]


@says("repair-done-in-vain")
def _done(_: Say, repair: str) -> str:
    return f'"{repair}" was done and does not help here.'


@says("repairs-tried-in-vain")
def _tried(_: Say, repairs: tuple[str, ...]) -> str:
    names = " and ".join(f'"{repair}"' for repair in repairs)
    way = "was tried and does" if len(repairs) == 1 else "were tried and do"
    return f"{names} {way} not help here."
