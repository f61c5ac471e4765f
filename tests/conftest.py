"""The demo boats, assessed once for all checks that look at them; and how tests are shared out."""

import os
from collections.abc import Generator
from pathlib import Path

import pytest
from _pytest.doctest import DoctestModule
from hypothesis import settings
from tests.assessed import once
from tests.offline import go_offline

import trimdive.assessment
from trimdive.assessment import Assessment
from trimdive.page.memory import give_back

trimdive.assessment.assess = assess = once(trimdive.assessment.assess)  # before any test imports it

TESTS = Path(__file__).parent
BOATS = TESTS.parent / "boats"
FIRST = (  # slow, so not last
    *("page", "cli", "putright", "slips", "findings", "answers", "hard"),
    *("starter", "wethands", "test_facts.py"),
)
WORKER = 2 * 2**30  # memory that a worker may need [bytes]
IS_OFFLINE = go_offline()
os.environ["TRIMDIVE_ANSWERS"] = "off"  # every test works its answers out
settings.register_profile("any machine", deadline=None)  # a slow machine is no fault
settings.load_profile("any machine")


def pytest_report_header() -> str:
    """Say whether the tests run without a network."""
    return f"network: {'none but this machine' if IS_OFFLINE else 'as it is; it cannot be left'}"


@pytest.hookimpl(optionalhook=True)  # there may be no xdist
def pytest_xdist_auto_num_workers() -> int | None:
    """Return three workers for two cores, since browsers are waited for, if memory is enough."""
    if "PYTEST_XDIST_AUTO_NUM_WORKERS" in os.environ:
        return None
    cores = os.process_cpu_count() if hasattr(os, "process_cpu_count") else os.cpu_count()
    memory = os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE") if os.name == "posix" else 0
    wanted = 3 * (cores or 1) // 2
    return max(min(wanted, memory // WORKER) if memory else cores or 1, 1)


class Examples:
    """Looks for examples in docstrings only where one is written: most files have none."""

    @pytest.hookimpl(wrapper=True)
    def pytest_collect_file(
        self, file_path: Path
    ) -> Generator[None, list[pytest.Collector], list[pytest.Collector]]:
        """Leave out a file that would be loaded and looked through for nothing."""
        found = yield
        if not any(isinstance(one, DoctestModule) for one in found):
            return found
        # a folder is loaded whole before its files, or a file would stand where a name of it should
        if file_path.name == "__init__.py" or ">>> " in file_path.read_text("utf-8"):
            return found
        return [one for one in found if not isinstance(one, DoctestModule)]


def pytest_configure(config: pytest.Config) -> None:
    """Have it asked for every folder: what a conftest says itself counts for its own alone."""
    config.pluginmanager.register(Examples())


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put folders of long tests first, so that no worker is left alone with one in the end."""
    items.sort(key=lambda item: _turn(item.path))


def pytest_runtest_teardown(item: pytest.Item, nextitem: pytest.Item | None) -> None:
    """Give memory back after a file of a slow folder: the C library keeps what was freed."""
    if _turn(item.path) < len(FIRST) and (nextitem is None or nextitem.path != item.path):
        give_back()


def _turn(file: Path) -> int:
    folder = file.relative_to(TESTS).parts[0] if file.is_relative_to(TESTS) else ""
    return FIRST.index(folder) if folder in FIRST else len(FIRST)


@pytest.fixture(scope="session")
def bittern() -> Assessment:
    """Bittern, in order."""
    return assess(BOATS / "bittern" / "boat.toml")


@pytest.fixture(scope="session")
def grebe() -> Assessment:
    """Grebe, in order."""
    return assess(BOATS / "grebe" / "boat.toml")


@pytest.fixture(scope="session")
def bittern_as_bought() -> Assessment:
    """Bittern with a closed house, a tank too far forward and batteries too high."""
    return assess(BOATS / "bittern-as-bought" / "boat.toml")


@pytest.fixture(scope="session")
def grebe_as_bought() -> Assessment:
    """Grebe with a light battery, a matchbox of foam aft and a slip in her lines."""
    return assess(BOATS / "grebe-as-bought" / "boat.toml")


@pytest.fixture(scope="session")
def demo_boats(
    bittern: Assessment,
    grebe: Assessment,
    bittern_as_bought: Assessment,
    grebe_as_bought: Assessment,
) -> dict[str, Assessment]:
    """All four, by the names of their folders."""
    return {
        "bittern": bittern,
        "grebe": grebe,
        "bittern-as-bought": bittern_as_bought,
        "grebe-as-bought": grebe_as_bought,
    }


@pytest.fixture(scope="session")
def plover() -> Assessment:
    """Plover, in order."""
    return assess(BOATS / "plover" / "boat.toml")


@pytest.fixture(scope="session")
def plover_as_bought() -> Assessment:
    """Plover with a closed fin, lead for the sea in the pond, a battery high and to one side."""
    return assess(BOATS / "plover-as-bought" / "boat.toml")
