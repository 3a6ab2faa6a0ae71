"""What every page knows."""

from typing import Any

from django.http import HttpRequest

from setday.web.access import Role, role_of

__all__ = ["layout"]


def layout(request: HttpRequest) -> dict[str, Any]:
    """Return whether somebody is signed in, and which screen group is open."""
    match = getattr(request, "resolver_match", None)
    return {
        "signed_in": role_of(request) is not Role.OUTSIDER,
        "group": match.namespace if match else "",
        "screen": match.view_name if match else "",
        "here": request.get_full_path() if request.method == "GET" else "/",
    }
