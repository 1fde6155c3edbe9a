"""The door the server listens at."""

import socket
from contextlib import suppress


def listen(host: str, port: int) -> socket.socket:
    """Open a port; 0 takes any that is free.

    Answers leave at once (TCP_NODELAY, which accepted connections take over): otherwise every second request of a
    connection waits 40 ms for an acknowledgement that the other side delays, because headers and body go separately.

    Raises:
        OSError: the port is taken or may not be used.
    """
    listener = socket.create_server((host, port), family=socket.AF_INET6 if ":" in host else socket.AF_INET)
    listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listener


def listen_everywhere(port: int) -> list[socket.socket]:
    """Open a port to every network that this computer is in, of both kinds of addresses where it has both.

    Raises:
        OSError: the port is taken or may not be used.
    """
    listeners = [listen("0.0.0.0", port)]
    with suppress(OSError):  # a computer without the newer kind
        listeners.append(listen("::", listeners[0].getsockname()[1]))
    return listeners
