"""What a browser may do with our pages: nothing that we did not send ourselves."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

__all__ = ["POLICY", "SecurityHeaders"]

POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
_PERMISSIONS = "camera=(), geolocation=(), microphone=(), payment=(), usb=()"


class SecurityHeaders:
    """Puts the content-security policy and its companions on every answer, errors and files included."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers["Content-Security-Policy"] = POLICY
        response.headers.setdefault("Permissions-Policy", _PERMISSIONS)
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        if "Cache-Control" not in response.headers:
            response.headers["Cache-Control"] = "private, no-cache"
        return response
