import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies: list[tuple[str, str]] = []

    operations = [
        migrations.CreateModel(
            name="FirstCode",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("digest", models.CharField(max_length=64)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
            ],
        ),
        migrations.CreateModel(
            name="House",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("key", models.SlugField(max_length=60, unique=True)),
                ("name", models.CharField(max_length=200)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
                ("put_away", models.BooleanField(default=False)),
            ],
            options={
                "ordering": ["name", "pk"],
            },
        ),
        migrations.CreateModel(
            name="PriceList",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField(unique=True)),
                ("file_name", models.CharField(max_length=200)),
                ("text", models.TextField()),
                ("made_at", models.DateTimeField(auto_now_add=True)),
            ],
            options={
                "ordering": ["-number"],
            },
        ),
        migrations.CreateModel(
            name="StockCount",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField(unique=True)),
                ("file_name", models.CharField(max_length=200)),
                ("text", models.TextField()),
                ("made_at", models.DateTimeField(auto_now_add=True)),
            ],
            options={
                "ordering": ["-number"],
            },
        ),
        migrations.CreateModel(
            name="WrongTry",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("who", models.CharField(max_length=150)),
                ("address", models.CharField(max_length=64)),
                ("at", models.DateTimeField(db_index=True)),
            ],
        ),
        migrations.CreateModel(
            name="HouseVersion",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                ("file_name", models.CharField(max_length=200)),
                ("text", models.TextField()),
                ("note", models.CharField(blank=True, default="", max_length=200)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="versions",
                        to="keeping.house",
                    ),
                ),
            ],
            options={
                "ordering": ["-number"],
            },
        ),
        migrations.CreateModel(
            name="BoardRun",
            fields=[
                (
                    "id",
                    models.BigAutoField(
                        auto_created=True, primary_key=True, serialize=False, verbose_name="ID"
                    ),
                ),
                ("number", models.PositiveIntegerField()),
                (
                    "state",
                    models.CharField(
                        choices=[
                            ("waiting", "waiting"),
                            ("running", "running"),
                            ("done", "done"),
                            ("stopped", "stopped"),
                            ("interrupted", "interrupted"),
                            ("failed", "without an answer"),
                        ],
                        default="waiting",
                        max_length=12,
                    ),
                ),
                ("label", models.CharField(blank=True, default="", max_length=200)),
                ("options", models.JSONField(default=dict)),
                ("made_at", models.DateTimeField(auto_now_add=True)),
                ("ended_at", models.DateTimeField(null=True)),
                ("stop_asked", models.BooleanField(default=False)),
                ("cost_cents", models.BigIntegerField(null=True)),
                ("bound_cents", models.FloatField(null=True)),
                ("seconds", models.FloatField(default=0)),
                ("stage", models.CharField(blank=True, default="", max_length=200)),
                ("reports", models.JSONField(default=list)),
                ("outcome", models.JSONField(null=True)),
                ("kept_layouts", models.PositiveIntegerField(default=0)),
                ("group", models.PositiveIntegerField(default=0)),
                ("message", models.TextField(blank=True, default="")),
                (
                    "version",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="runs",
                        to="keeping.houseversion",
                    ),
                ),
                (
                    "prices",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="runs",
                        to="keeping.pricelist",
                    ),
                ),
            ],
            options={
                "ordering": ["-pk"],
            },
        ),
        migrations.AddConstraint(
            model_name="houseversion",
            constraint=models.UniqueConstraint(fields=("house", "number"), name="one_version_a_number"),
        ),
    ]
