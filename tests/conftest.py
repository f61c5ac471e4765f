"""The demo boats, assessed once for all checks that look at them."""

from pathlib import Path

import pytest
from hypothesis import settings
from tests.offline import go_offline

from trimdive.assess import Assessment, assess

BOATS = Path(__file__).parent.parent / "boats"
IS_OFFLINE = go_offline()
settings.register_profile("any machine", deadline=None)  # a slow machine is no fault
settings.load_profile("any machine")


def pytest_report_header() -> str:
    """Say whether the tests run without a network."""
    return f"network: {'none but this machine' if IS_OFFLINE else 'as it is; it cannot be left'}"


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
