"""One photo, to those who may see it."""

from uuid import UUID

from django.http import FileResponse, Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_safe

from setday.web.access import Role, role_of
from setday.web.keeping.models import GateMark, Photo

__all__ = ["one"]


def _may_see(request: HttpRequest, photo: Photo) -> bool:
    """Return whether a photo is for whoever asks: a reader's once released, a student's by where it stands.

    A photo of a note is for the class of its period, one at a gate for whoever reads the gates of the house.
    """
    role = role_of(request)
    if role is Role.READER:
        return bool(photo.released)
    if role is not Role.MEMBER:
        return True
    own = photo.notes.filter(period__school_class=request.member.school_class)
    at_gate = GateMark.objects.filter(house=photo.house, photo=str(photo.key))
    return bool(own.exists() or at_gate.exists())


@require_safe
def one(request: HttpRequest, key: UUID) -> FileResponse:
    """Hand out a photo of a house of the school to who may see it."""
    photo = get_object_or_404(Photo.objects.select_related("house"), key=key, house__school=request.school)
    if not _may_see(request, photo):
        raise Http404
    try:
        file = photo.path.open("rb")
    except OSError as error:
        raise Http404 from error
    response = FileResponse(file, content_type="image/jpeg")
    response.headers["Cache-Control"] = "private, max-age=3600"
    return response
