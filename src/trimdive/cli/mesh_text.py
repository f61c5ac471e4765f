"""``mesh``: what stands in a mesh file, as text and as JSON."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from trimdive.cli.layout import Block, heading, labelled, line, table
from trimdive.cli.mesh_work import in_words
from trimdive.text.layout import Document
from trimdive.text.meshed_text import WALLS, kind_of_file, of_mesh
from trimdive.text.sentence import capital

if TYPE_CHECKING:
    from trimdive.cli.mesh_work import Looked
    from trimdive.geometry.meshes import Likely, Trouble

OFF = 0.02  # of its length that a hull may begin off zero, before it is said [-]


def mesh_text(found: "Looked") -> Iterator[Block]:
    """Yield what ``mesh`` prints."""
    stands = found.report
    yield line(f"{stands.name}, {kind_of_file(found.drawn)}: {stands.triangles} triangles")
    yield heading("What the file does not say")
    yield labelled(_questions(found))
    yield heading("What stands in it")
    yield table(["", ""], _figures(found))
    if found.report.cavities:
        yield line("Rooms inside take no water unless they are drilled: they float.")
    if found.did:
        yield heading("Mended")
        yield labelled(("–", of_mesh(one)) for one in found.did)
    if not found.troubles:
        yield line("\nNothing to mend; what the file does not say counts as said above.")
        return
    yield heading("To put right")
    for number, trouble in enumerate(found.troubles, 1):
        what = of_mesh(trouble.what)
        yield labelled([(f"{number}.", f"{capital(what)}.")])
        yield labelled([("mend", _mend(trouble))], indent=3)


def _mend(trouble: "Trouble") -> str:
    """Return what puts a trouble right, with how its repair is asked for."""
    ask = f' (--repair {trouble.repair}, or repairs = ["{trouble.repair}"])'
    return f"{of_mesh(trouble.mend)}{ask if trouble.repair else ''}"


def _questions(found: "Looked") -> Iterator[tuple[str, str]]:
    """Yield each question with its answer: typed, told by the file, or likely."""
    yield "unit", _answer(found.unit, "--unit")
    yield "forward, up", f"{_answer(found.axes, '--forward and --up')}; see which end is the bow"
    yield "origin", _origin(found)
    yield "walls", _answer(found.walls, "closed_walls = true or false in the boat file")


def _origin(found: "Looked") -> str:
    """Return where it lies from the zero of its drawing, and what to write in the boat file."""
    (aft, _, deep), length = found.report.bounds[0], float(found.report.size[0])
    if max(abs(float(aft)), abs(float(deep))) <= OFF * length:
        return "it begins at zero, as a whole hull should"
    along = f"{in_words(abs(float(aft)), 'length')} {'aft' if aft < 0 else 'forward'}"
    high = f"{in_words(abs(float(deep)), 'length')} {'below' if deep < 0 else 'above'}"
    return (
        f"its after end lies {along} of zero, its lowest point {high} it; for a whole hull write "
        'x_aft = "0 mm" and z_bottom = "0 mm" in the boat file'
    )


def _answer(likely: "Likely", option: str) -> str:
    answer, why = _called(likely), of_mesh(likely.why)
    if likely.is_given:
        return f"{answer}, {why}"
    surely = "likely" if likely.is_certain else "perhaps"
    return f"{surely} {answer}: {why}; say so with {option}"


def _called(likely: "Likely") -> str:
    """Return an answer in words."""
    return WALLS.get(likely.answer, likely.answer)


def _figures(found: "Looked") -> Iterator[tuple[str, str]]:
    """Yield the figures, each with its name."""
    stands = found.report
    yield "length × breadth × height", " × ".join(in_words(float(s), "length") for s in stands.size)
    yield "begins at", ", ".join(in_words(float(s), "length") for s in stands.bounds[0])
    yield "bodies, and rooms inside them", f"{stands.solid_bodies}, {stands.cavities}"
    yield "volume", in_words(stands.filled, "volume")
    if stands.overlap:
        yield "volume, its bodies added up", in_words(stands.bodies.counted, "volume")
    share = f"{100 * stands.filled / stands.hull_volume:.0f} %" if stands.hull_volume else "–"
    yield "of the hull of its points", share.replace("%", " %")
    yield "mean thickness, if a wall", in_words(stands.wall, "length")
    counts = {
        "open edges": stands.open_edges,
        "edges on more than two triangles": stands.crowded_edges,
        "doubled triangles": stands.doubled,
        "flat triangles": stands.flat,
        "triangles that pass through others": stands.crossings,
    }
    for name, count in counts.items():
        if count:
            yield name, str(count)


def mesh_json(found: "Looked") -> Document:
    """Return what ``mesh --json`` prints."""
    stands = found.report
    asked = {"unit": found.unit, "forward_up": found.axes, "walls": found.walls}
    return {
        "file": stands.name,
        "kind": kind_of_file(found.drawn),
        "triangles": stands.triangles,
        "size_m": [float(s) for s in stands.size],
        "least_corner_m": [float(s) for s in stands.bounds[0]],
        "volume_m3": stands.volume,
        "filled_m3": stands.filled,
        "hull_of_points_volume_m3": stands.hull_volume,
        "area_m2": stands.area,
        "mean_wall_m": stands.wall,
        "bodies": stands.solid_bodies,
        "cavities": stands.cavities,
        "inside_out": stands.inside_out,
        "open_edges": stands.open_edges,
        "turned_edges": stands.turned_edges,
        "crowded_edges": stands.crowded_edges,
        "doubled_triangles": stands.doubled,
        "flat_triangles": stands.flat,
        "crossing_pairs": stands.crossings,
        "overlap_m3": stands.overlap,
        "questions": {
            name: {"answer": _called(one), "why": of_mesh(one.why), "is_certain": one.is_certain}
            for name, one in asked.items()
        },
        "mended": [of_mesh(one) for one in found.did],
        "troubles": [_trouble_json(one) for one in found.troubles],
    }


def _trouble_json(one: "Trouble") -> Document:
    what, mend = of_mesh(one.what), of_mesh(one.mend)
    return {"key": one.key, "what": what, "repair": one.repair, "mend": mend}
