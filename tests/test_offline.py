"""Where the system allows it the tests run without a network, so that nothing can ask for one."""

import socket

import pytest
from tests.conftest import IS_OFFLINE


@pytest.mark.skipif(not IS_OFFLINE, reason="the network cannot be left here")
def test_nothing_but_this_machine_answers() -> None:
    with socket.create_server(("127.0.0.1", 0)) as here:
        socket.create_connection(here.getsockname(), timeout=5).close()
    # RFC 5737: 192.0.2.0/24 is for documentation and never answers
    with pytest.raises(OSError, match="unreachable"):
        socket.create_connection(("192.0.2.1", 80), timeout=5)
