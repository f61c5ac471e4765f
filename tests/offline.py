"""Takes this process off every network but its own machine's, where the system allows it.

The tests then show that nothing asks anything of any other machine. Linux only; elsewhere, and
where it is not allowed, they run as they are and say so.
"""

import ctypes
import os
import socket
import struct
import sys
from contextlib import suppress
from pathlib import Path

NEW_NET, NEW_USER = 0x40000000, 0x10000000  # unshare(2): CLONE_NEWNET, CLONE_NEWUSER
SET_FLAGS, UP_AND_RUNNING = 0x8914, 0x41  # netdevice(7): SIOCSIFFLAGS, IFF_UP | IFF_RUNNING


def go_offline() -> bool:
    """Leave every network but the loopback; return whether that was possible."""
    if sys.platform != "linux":
        return False
    import fcntl

    library = ctypes.CDLL(None, use_errno=True)
    user, group = os.getuid(), os.getgid()
    if library.unshare(NEW_NET) != 0:
        if library.unshare(NEW_NET | NEW_USER) != 0:
            return False
        with suppress(OSError):
            Path("/proc/self/setgroups").write_text("deny", "ascii")
            Path("/proc/self/uid_map").write_text(f"{user} {user} 1", "ascii")
            Path("/proc/self/gid_map").write_text(f"{group} {group} 1", "ascii")
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        fcntl.ioctl(asking, SET_FLAGS, struct.pack("16sh14s", b"lo", UP_AND_RUNNING, b""))
    return True
