"""One place where numba is asked to compile; compiled code is kept on disk beside the module."""

from collections.abc import Callable
from typing import Any, TypeVar, cast

import numba

F = TypeVar("F", bound=Callable[..., Any])


def kernel(function: F) -> F:
    """Compile ``function`` at its first call and keep the result for the next start."""
    compiled = numba.njit(cache=True, error_model="numpy", fastmath={"contract"})(function)
    return cast("F", compiled)
