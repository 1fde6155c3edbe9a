"""The door the server listens at."""

import socket

import pytest

from webapp.server.listener import listen


def test_answers_leave_at_once() -> None:
    with listen("127.0.0.1", 0) as listener, socket.create_connection(listener.getsockname()):
        connection, _ = listener.accept()
        with connection:
            assert connection.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY)


def test_a_port_that_is_taken_is_refused() -> None:
    with listen("127.0.0.1", 0) as listener, pytest.raises(OSError):
        listen("127.0.0.1", listener.getsockname()[1])
