"""One photo, to those who may see it."""

from uuid import UUID

from django.http import FileResponse, Http404, HttpRequest
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_safe

from setday.web.access import Role, role_of
from setday.web.keeping.models import Photo

__all__ = ["one"]


@require_safe
def one(request: HttpRequest, key: UUID) -> FileResponse:
    """Hand out a photo of a house of the school; to a reader, one that the instructor released."""
    photo = get_object_or_404(Photo.objects.select_related("house"), key=key, house__school=request.school)
    if role_of(request) is Role.READER and not photo.released:
        raise Http404
    try:
        file = photo.path.open("rb")
    except OSError as error:
        raise Http404 from error
    response = FileResponse(file, content_type="image/jpeg")
    response.headers["Cache-Control"] = "private, max-age=3600"
    return response
