"""No test can leave this machine unnoticed."""

import socket

import pytest


def test_a_connection_to_the_outside_is_refused():
    with socket.socket() as outside, pytest.raises(AssertionError, match=r"192\.0\.2\.1"):
        outside.connect(("192.0.2.1", 80))  # an address reserved for documentation, RFC 5737


def test_a_connection_within_this_machine_is_let_through():
    with socket.socket() as server, socket.socket() as client:
        server.bind(("127.0.0.1", 0))
        server.listen()
        client.connect(server.getsockname())
