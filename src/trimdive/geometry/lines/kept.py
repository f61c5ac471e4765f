"""Keeps what was worked out for as long as somebody uses what it was worked out of.

A boat that is changed shares most of her surfaces with the boat before, so that trees, outlines
and the like are found again. They lie with the surface itself: when the last boat that has it
goes, they go, and nothing of her stays behind in the program.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from functools import partial, update_wrapper
from inspect import unwrap
from typing import Concatenate, ParamSpec, TypeVar, cast
from weakref import WeakValueDictionary

from trimdive.geometry.lines.mesh import Mesh

More = ParamSpec("More")
Given = ParamSpec("Given")
Found = TypeVar("Found")
Of = Callable[Concatenate[Mesh, More], Found]  # what finds something out of a mesh


def with_mesh(last: int) -> Callable[[Of[More, Found]], Of[More, Found]]:
    """Return a way to keep what a function finds out of a mesh with that mesh.

    Args:
        last: How many answers are kept of one mesh, for different further arguments, which are
            told by their places; what was asked for longest ago goes first [-].
    """
    return partial(_keeping, last)


def _keeping(last: int, function: Of[More, Found]) -> Of[More, Found]:
    return update_wrapper(cast("Of[More, Found]", partial(_of_mesh, function, last)), function)


def _of_mesh(function: Callable[..., Found], last: int, mesh: Mesh, *more: Hashable) -> Found:
    """Return what is kept with the mesh, else what the function finds."""
    answers = mesh.kept.get(function) or mesh.kept.setdefault(function, OrderedDict())
    answers = cast("OrderedDict[object, Found]", answers)
    if more in answers:
        answers.move_to_end(more)
        return answers[more]
    found = answers[more] = function(mesh, *more)
    if len(answers) > last:
        answers.popitem(last=False)
    return found


def handed(found: Found, function: Callable[..., Found], mesh: Mesh, *more: Hashable) -> None:
    """Keep with a mesh what ``function``, which keeps with it, would find: it is known already."""
    answers = mesh.kept.setdefault(unwrap(function), OrderedDict())
    cast("OrderedDict[object, Found]", answers)[more] = found


def while_used(function: Callable[Given, Found]) -> Callable[Given, Found]:
    """Return a function that hands out again what it made, while somebody else holds it.

    None is never kept. Arguments are hashable, and told by their places.
    """
    made: WeakValueDictionary[Hashable, Found] = WeakValueDictionary()  # pyright: ignore[reportInvalidTypeArguments]
    return update_wrapper(cast("Callable[Given, Found]", partial(_made, function, made)), function)


def _made(
    function: Callable[..., Found],
    made: "WeakValueDictionary[Hashable, Found]",
    *arguments: Hashable,
) -> Found:
    """Return what was made and is in use, else what the function makes."""
    if (found := made.get(arguments)) is None and (found := function(*arguments)) is not None:
        made[arguments] = found
    return found
