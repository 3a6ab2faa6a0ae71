"""What was kept before there were schools belongs to one; whoever could sign in is its instructor."""

from typing import Any

from django.db import migrations

OF_A_SCHOOL = ("House", "KeptHookup", "Hunt", "FaultSearch", "PriceList", "StockCount")


def give_to_one_school(apps: Any, schema_editor: Any) -> None:
    User = apps.get_model("auth", "User")
    kinds = [apps.get_model("keeping", name) for name in OF_A_SCHOOL]
    instructors = User.objects.filter(is_superuser=True).order_by("pk")
    if not instructors.exists() and not any(kind.objects.exists() for kind in kinds):
        return
    school = apps.get_model("keeping", "School").objects.create(key="school", name="Our school")
    for kind in kinds:
        kind.objects.update(school=school)
    Member = apps.get_model("keeping", "Member")
    for number, user in enumerate(instructors, start=1):
        Member.objects.create(
            school=school,
            key=f"instructor-{number}",
            name=user.username,
            shown_as=user.username[:60],
            role="instructor",
            user=user,
        )


class Migration(migrations.Migration):
    dependencies = [
        ("keeping", "0007_people"),
    ]

    operations = [
        migrations.RunPython(give_to_one_school, migrations.RunPython.noop),
    ]
