"""Who is behind a request: the member who signed in, their school, and who stands beside them.

Every view may read `request.member` (a `Member`, or None) and `request.school` (a `School`; None only
where nobody came in, and no screen but those of the door opens then).
"""

from collections.abc import Callable, Iterable

from django.http import HttpRequest, HttpResponse

from setday.web.access import BENCH_CREW, HUNT_CREW
from setday.web.keeping.models import HuntCrew, KeptHookup, Member, MemberRole, School
from setday.web.keeping.people import first_school

__all__ = ["PRESENT", "WhoIsHere", "members_present", "tick_present"]

PRESENT = "members_present"
"""Where the session keeps who is ticked as present under one sign-in."""


class WhoIsHere:
    """Finds out whose request it is, once, before any screen asks."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        request.member = _member(request)
        request.school = _school(request)
        return self.get_response(request)


def _member(request: HttpRequest) -> Member | None:
    """Return the member whose account is signed in; none once they, or their class, were put away."""
    user = request.user
    if not user.is_authenticated or not user.is_active:
        return None
    found: Member | None = (
        Member.objects.filter(user=user, active=True)
        .exclude(role=MemberRole.CREW, school_class__isnull=True)
        .exclude(role=MemberRole.CREW, school_class__put_away=True)
        .select_related("school", "school_class")
        .first()
    )
    return found


def _school(request: HttpRequest) -> School | None:
    if request.member is not None:
        school: School = request.member.school
        return school
    user = request.user
    if user.is_authenticated:
        return first_school() if user.is_active and user.is_superuser else None
    return _school_of_a_seat(request)


def _school_of_a_seat(request: HttpRequest) -> School | None:
    """Return the school in whose hunt, or at whose bench, a tablet stands that came in by a code."""
    hunt, bench = request.session.get(HUNT_CREW), request.session.get(BENCH_CREW) or {}
    if hunt is None and not bench:
        return None
    crew = HuntCrew.objects.filter(pk=hunt).select_related("hunt__school").first() if hunt else None
    if crew is not None:
        return crew.hunt.school
    kept = KeptHookup.objects.filter(pk=bench.get("hookup")).select_related("school").first()
    return kept.school if kept else None


def members_present(request: HttpRequest) -> tuple[Member, ...]:
    """Return the crew members at this tablet: who signed in, then those ticked beside them.

    Empty where no crew member is signed in.  Whoever left the class since is left out.
    """
    member: Member | None = request.member
    if member is None or member.role != MemberRole.CREW:
        return ()
    keys = request.session.get(PRESENT, [])
    beside = Member.objects.filter(pk__in=keys, school_class=member.school_class, role=MemberRole.CREW)
    return (member, *beside.filter(active=True).exclude(pk=member.pk).order_by("name", "pk"))


def tick_present(request: HttpRequest, members: Iterable[Member]) -> None:
    """Remember who stands beside the one who signed in; only members of the same class count."""
    request.session[PRESENT] = [each.pk for each in members]
