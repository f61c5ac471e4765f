"""One place where numba is asked to compile; compiled code is kept on disk beside the module."""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba
from llvmlite import ir
from numba.core import types
from numba.extending import intrinsic

F = TypeVar("F", bound=Callable[..., Any])

READ, KEEP_CLOSE, DATA = 0, 3, 1  # what LLVM's prefetch is told


def kernel(function: F) -> F:
    """Compile ``function`` at its first call and keep the result for the next start."""
    compiled = numba.njit(cache=True, error_model="numpy", fastmath={"contract"})(function)
    return cast("F", compiled)


def strict(function: F) -> F:
    """Compile so that the result is the same to the last bit wherever the function is used."""
    return cast("F", numba.njit(cache=True, error_model="numpy", fastmath=False)(function))


def loose(function: F) -> F:
    """Compile with leave to add up in any order, which lets sums run in several lanes at once."""
    flags = {"contract", "reassoc", "nsz"}
    return cast("F", numba.njit(cache=True, error_model="numpy", fastmath=flags)(function))


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


fetch = cast("Callable[[Any, int], None]", intrinsic(_prefetch))
"""Ask memory for a number of a contiguous array, by its flat place; the answer is not awaited."""
