"""What is asked of ``arrange``: what stays, what lies at an end, which one is taken."""

from collections.abc import Mapping, Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING

from trimdive.errors import AskError

if TYPE_CHECKING:
    from trimdive.arranging.work import Arranged, Arrangement
    from trimdive.assessment import Assessment
    from trimdive.boatfile import Boat, Loaded


def _paths(boat: "Boat") -> list[tuple[str, str]]:
    """Return name and path of everything that may be named."""
    from trimdive.geometry.solids.build import paths_by_name

    return list(paths_by_name(boat).items())


def _named(boat: "Boat", text: str, option: str) -> str:
    """Return the path of what is named.

    Raises:
        AskError: There is nothing of that name.
    """
    known = _paths(boat)
    path = next((p for name, p in known if name.casefold() == text.strip().casefold()), "")
    if not path:
        near = get_close_matches(text, [name for name, _ in known], n=1, cutoff=0.5)
        mend = f"Did you mean '{near[0]}'?" if near else "Write it as the boat file has it."
        raise AskError(f"there is no cylinder, tank or part '{text}'", option, mend)
    return path


def kept(boat: "Boat", names: Sequence[str]) -> frozenset[str]:
    """Return the paths of what stays, by its names.

    Raises:
        AskError: There is nothing of such a name.
    """
    return frozenset(_named(boat, name, "--keep") for name in names)


def at_ends(boat: "Boat", aft: Sequence[str], fore: Sequence[str]) -> Mapping[str, str]:
    """Return the paths of what is to lie at an end of its cylinder, each "aft" or "fore".

    Raises:
        AskError: There is nothing of such a name in a cylinder, or it is to lie at both ends.
    """
    from trimdive.geometry.solids.build import numbered

    homes = {one.name for one in boat.cylinders}
    inside = {f"tank[{k}]": one.inside for k, one in enumerate(boat.tanks, 1)}
    inside |= {path: part.inside for path, part in numbered(boat)}
    found: dict[str, str] = {}
    for end, option, names in (("aft", "--aft", aft), ("fore", "--fore", fore)):
        for name in names:
            path = _named(boat, name, option)
            if inside.get(path) not in homes:
                what = f"'{name}' lies in no cylinder"
                raise AskError(what, option, 'Write inside = "..." for it, or leave it out.')
            if found.setdefault(path, end) != end:
                raise AskError(f"'{name}' cannot lie at both ends", option, "Name it once.")
    return found


def checked(boat: "Boat") -> None:
    """Refuse a boat in which nothing can be arranged.

    Raises:
        AskError: She has no cylinder, or one longer than her hull.
    """
    if not boat.cylinders:
        what = "she has no cylinder to arrange things in"
        raise AskError(what, "cylinder", "Enter a [[cylinder]], and what lies inside it.")
    for k, one in enumerate(boat.cylinders, 1):
        if boat.length and one.length > boat.length:
            long, hull = (boat.units.write(x, "length") for x in (one.length, boat.length))
            what = f"'{one.name}' is {long} long, her hull {hull}"
            raise AskError(what, f"cylinder[{k}].length", "Measure it again over its caps.")


def chosen(done: "Arranged", number: int) -> "Arrangement":
    """Return the arrangement that was asked for, counted from 1.

    Raises:
        AskError: There is none of that number.
    """
    if not 1 <= number <= len(done.found):
        count = len(done.found)
        mend = f"Name one of 1 to {count}." if count > 1 else "Leave --take out."
        raise AskError(f"there is no arrangement {number}", "--take", mend)
    return done.found[number - 1]


def saved_with(loaded: "Loaded", done: "Arranged", number: int) -> "Assessment":
    """Return her with one arrangement written into her file.

    Raises:
        AskError: There is none of that number, or it cannot be written.
    """
    from trimdive.edits.work import written
    from trimdive.text.place_asked import refuse_behind

    one = chosen(done, number)
    refuse_behind(loaded, done.before)
    if not one.is_placed:
        what = "nothing was written: lead and foam do not put this arrangement right"
        raise AskError(what, str(loaded.path), "See what is in the way without --apply.")
    return written(done.before, loaded, one.steps)
