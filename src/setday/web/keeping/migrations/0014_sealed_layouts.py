from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("keeping", "0013_period_photos"),
    ]

    operations = [
        migrations.AddField(
            model_name="sealedoffer",
            name="by_layout",
            field=models.BooleanField(default=False),
        ),
    ]
