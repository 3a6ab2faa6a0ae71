"""What is typed on a tablet to reach the site: the machine's address on the class network."""

import socket
from urllib.parse import urlsplit

from django.conf import settings
from django.http import HttpRequest
from django.http.request import split_domain_port

__all__ = ["own_addresses", "tablet_address"]

_HERE = {"localhost", "127.0.0.1", "[::1]", "::1"}
_NOWHERE = ("192.0.2.1", 9)
"""An address that leads nowhere (RFC 5737): only the route to it is asked for, nothing is sent."""


def own_addresses() -> tuple[str, ...]:
    """Return this machine's addresses on its networks, then its name; nothing is sent to find them."""
    numbers: list[str] = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_NOWHERE)
            numbers.append(str(probe.getsockname()[0]))
        except OSError:
            pass
    name = socket.gethostname().lower()
    try:
        found = socket.getaddrinfo(name, None, family=socket.AF_INET)
        numbers += [str(entry[4][0]) for entry in found]
    except OSError:
        pass
    return tuple(dict.fromkeys(each for each in (*numbers, name) if each and not each.startswith("127.")))


def tablet_address(request: HttpRequest) -> str:
    """Return the address to type on a tablet; empty where the site serves this machine only."""
    host, port = split_domain_port(request.get_host())
    if host in _HERE:
        served = [each for each in settings.ALLOWED_HOSTS if each not in _HERE and each != "*"]
        if not served:
            return ""
        numbers = [each for each in served if each.replace(".", "").isdecimal()]
        host = (numbers or served)[0]
    usual = {"http": "80", "https": "443"}[request.scheme or "http"]
    place = host if port in {"", usual} else f"{host}:{port}"
    return urlsplit(f"//{place}").netloc
