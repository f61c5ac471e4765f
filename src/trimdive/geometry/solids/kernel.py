"""One place where numba is asked to compile; compiled code is kept on disk beside the module.

Compiling is the builder's first wait. What only kernels call is made without a way in from Python,
none has the way in from C that numba makes by default, and what many call, and is long, is
compiled once apart: all that a kernel takes in is compiled again within it. Kernels add up in
loops, since each sum of whole arrays brings a page of numba's own checks of shapes with it.
numba asks of a kernel kept on disk only whether its own file is as it was; ours asks of all files
of their folders, since one is compiled into the other.
"""

from collections.abc import Callable, Generator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import Any, TypeVar, cast

import numba
from llvmlite import binding, ir
from numba.core import ccallback, sigutils, types
from numba.core import event as events
from numba.extending import intrinsic

F = TypeVar("F", bound=Callable[..., Any])

HOME = Path(__file__).parents[2]
READ, KEEP_CLOSE, DATA = 0, 3, 1  # what LLVM's prefetch is told


def kernel(function: F) -> F:
    """Compile ``function`` at its first call and keep the result for the next start."""
    return _compiled(function, {"contract"})


def inner(function: F) -> F:
    """Compile for other kernels alone."""
    return _compiled(function, {"contract"}, no_cpython_wrapper=True)


def strict(function: F) -> F:
    """Compile so that the result is the same to the last bit wherever the function is used."""
    return _compiled(function, False, no_cpython_wrapper=True)


def loose(function: F) -> F:
    """Compile with leave to add up in any order, which lets sums run in several lanes at once."""
    return _compiled(function, {"contract", "reassoc", "nsz"}, no_cpython_wrapper=True)


def _compiled(function: F, fastmath: set[str] | bool, **besides: bool) -> F:
    options: dict[str, Any] = {"error_model": "numpy", "no_cfunc_wrapper": True, **besides}
    return cast("F", _stamped(numba.njit(cache=True, fastmath=fastmath, **options)(function)))


def stamp() -> tuple[tuple[str, int, int], ...]:
    """Return name, size and time of every file in the folders with kernels."""
    files = sorted(
        file
        for folder in ("geometry/meshes", "geometry/solids", "hydrostatics/equilibrium")
        for file in (HOME / folder).glob("*.py")
    )
    found = [(file.name, file.stat()) for file in files]
    return tuple((name, info.st_size, info.st_mtime_ns) for name, info in found)


def _stamped(made: Any) -> Any:
    """Let what is kept on disk count only while all files with kernels are as they were."""
    made._cache._cache_file._source_stamp = STAMP
    return made


STAMP = stamp()


class _Listener(events.Listener):
    """Tells of each function that is compiled."""

    def __init__(self, tell: Callable[[str], None]) -> None:
        """Keep whom to tell."""
        self.tell = tell

    def on_start(self, event: Any) -> None:
        """Tell that one begins, if it is ours: numba compiles parts of its own besides."""
        function = event.data["dispatcher"].py_func
        if str(function.__module__).startswith("trimdive."):
            self.tell(f"{function.__module__}.{function.__name__}".removeprefix("trimdive."))

    def on_end(self, event: Any) -> None:
        """Say nothing."""


@contextmanager
def compiling(tell: Callable[[str], None]) -> Generator[None]:
    """Call ``tell`` as each kernel begins to be compiled, with its file and name.

    Args:
        tell: Is called with such as "hydrostatics.equilibrium.solve.settle".
    """
    with events.install_listener("numba:compile", _Listener(tell)):
        yield


def apart(name: str, signature: Any) -> Callable[[F], F]:
    """Compile at once, under a name by which kernels call it instead of taking it in.

    Args:
        name: By which compiled code kept on disk finds it; no other may bear it.
        signature: What it is handed and gives, in C's types: numbers, and pointers to arrays.
    """
    return partial(_apart, name, signature)


def _apart(name: str, signature: Any, function: F) -> F:
    options = {"error_model": "numpy", "fastmath": {"contract"}}
    whole = ccallback.CFunc(function, sigutils.normalize_signature(signature), {}, options)
    whole.enable_caching()
    _stamped(whole)
    whole.compile()
    binding.add_symbol(name, whole.address)
    KEPT.append(whole)
    return cast("F", types.ExternalFunction(name, signature))


KEPT: list[Any] = []  # what was compiled apart lives as long as the program


def _call_prefetch(context: Any, builder: Any, signature: Any, arguments: Any) -> Any:
    """Write the instruction that asks memory for one place of an array."""
    array = context.make_array(signature.args[0])(context, builder, arguments[0])
    byte = ir.IntType(8).as_pointer()
    number = ir.IntType(32)
    place = builder.bitcast(builder.gep(array.data, [arguments[1]]), byte)
    kind = ir.FunctionType(ir.VoidType(), [byte, number, number, number])
    prefetch = builder.module.declare_intrinsic("llvm.prefetch", [byte], kind)
    builder.call(prefetch, [place, number(READ), number(KEEP_CLOSE), number(DATA)])
    return context.get_dummy_value()


def _prefetch(_typing: Any, array: Any, _place: Any) -> Any:
    """Ask memory for one number of a contiguous array, without waiting for it."""
    return types.void(array, types.intp), _call_prefetch


# asks memory for a number of a contiguous array, by its flat place; the answer is not awaited
fetch = cast("Callable[[Any, int], None]", intrinsic(_prefetch))
