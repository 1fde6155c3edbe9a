"""The door the server listens at."""

import socket


def listen(host: str, port: int) -> socket.socket:
    """Open a port; 0 takes any that is free.

    Answers leave at once (TCP_NODELAY, which accepted connections take over): otherwise every second request of a
    connection waits 40 ms for an acknowledgement that the other side delays, because headers and body go separately.

    Raises:
        OSError: the port is taken or may not be used.
    """
    listener = socket.create_server((host, port))
    listener.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
    return listener
