"""Tablets reach the site: the option, the address that is printed, and the way back when none may."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path
from urllib.error import HTTPError
from urllib.parse import urlsplit
from urllib.request import Request, urlopen

import pytest
from django.test import RequestFactory

from setday.errors import SetdayError
from setday.web.keeping.members import keep_school
from setday.web.keeping.models import Device, School
from setday.web.network import tablet_address
from setday.web.people.way_back import chosen_devices

ROOT = Path(__file__).resolve().parents[2]


def started(data):
    """Start the site for the network by the command; return it with what it prints."""
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "PYTHONUNBUFFERED": "1"}
    for name in ("SETDAY_DATA", "SETDAY_HOSTS", "SETDAY_DATABASE", "DJANGO_SETTINGS_MODULE"):
        variables.pop(name, None)
    command = [sys.executable, "-m", "setday", "serve", "--network", "--data", str(data)]
    process = subprocess.Popen(
        command, env=variables, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    said = ""
    for line in process.stdout:
        said += line
        if "Ctrl-C" in line:
            break
    return process, said


def asked_as(host):
    """Ask the site on this machine as a tablet does that was told to go to a host."""
    here = f"http://127.0.0.1:{urlsplit(f'//{host}').port}/help/"
    with urlopen(Request(here, headers={"Host": host})) as answer:
        return answer.read().decode()


def test_the_network_is_served_under_the_address_that_is_printed(tmp_path):
    process, said = started(tmp_path)
    try:
        printed = re.findall(r"type: (http://[\w.:-]+/)", said)
        numbers = [each for each in printed if re.search(r"//[\d.]+:", each)]
        if not numbers:
            pytest.skip("this machine is on no network")
        assert "Setday" in asked_as(urlsplit(numbers[0]).netloc)
        with pytest.raises(HTTPError, match="400"):
            asked_as(f"elsewhere.example:{urlsplit(numbers[0]).port}")
    finally:
        process.terminate()
        process.wait(timeout=20)
        process.stdout.close()


def test_the_first_address_is_one_of_digits_that_every_tablet_can_type():
    program = "import json; from setday.web.network import own_addresses; print(json.dumps(own_addresses()))"
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    found = json.loads(subprocess.check_output([sys.executable, "-c", program], env=variables))
    assert not any(each.startswith("127.") for each in found)
    numbers = [bool(re.fullmatch(r"[\d.]+", each)) for each in found]
    assert numbers == sorted(numbers, reverse=True)


@pytest.mark.parametrize(
    ("opened_at", "served", "typed"),
    [
        ("127.0.0.1:8000", ["localhost", "127.0.0.1"], ""),
        ("127.0.0.1:8000", ["127.0.0.1", "192.168.4.20", "laptop"], "192.168.4.20:8000"),
        ("192.168.4.20:8000", ["127.0.0.1", "192.168.4.20"], "192.168.4.20:8000"),
        ("setday.school.example", ["setday.school.example"], "setday.school.example"),
        ("localhost:8000", ["localhost", "laptop"], "laptop:8000"),
    ],
)
def test_cards_carry_what_is_typed_on_a_tablet(settings, opened_at, served, typed):
    settings.ALLOWED_HOSTS = served
    assert tablet_address(RequestFactory().get("/", headers={"Host": opened_at})) == typed


# ------------------------------------------------- the way back
def test_the_command_tells_which_devices_are_chosen(school):
    Device.objects.create(school=school, name="tablet 3", digest="x")
    Device.objects.create(school=school, name="tablet 4", code="y")
    assert chosen_devices() == [
        {"school": "school", "name": "Our school", "only_chosen_devices": False, "devices": ["tablet 3"]}
    ]


def test_the_command_opens_the_site_to_every_device(school):
    School.objects.update(only_devices=True)
    assert chosen_devices(opened=True)[0]["only_chosen_devices"] is False
    assert not School.objects.get().only_devices


def test_of_several_schools_one_is_named(school):
    keep_school(name="Elm Street")
    School.objects.update(only_devices=True)
    with pytest.raises(SetdayError, match=r"several schools.*school, elm-street"):
        chosen_devices(opened=True)
    with pytest.raises(SetdayError, match="no school 'oak'"):
        chosen_devices(opened=True, school="oak")
    chosen_devices(opened=True, school="elm-street")
    assert [each.only_devices for each in School.objects.order_by("pk")] == [True, False]


def said_by(*words, data):
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src")}
    for name in ("SETDAY_DATA", "SETDAY_DATABASE", "DJANGO_SETTINGS_MODULE"):
        variables.pop(name, None)
    command = [sys.executable, "-m", "setday", "devices", "--data", str(data), *words]
    return subprocess.run(command, env=variables, capture_output=True, text=True, check=False)


def test_the_command_without_records_says_what_to_do(tmp_path):
    told = said_by("--json", data=tmp_path)
    assert told.returncode == 2
    assert "Start the site on it once" in told.stderr
    assert "Traceback" not in told.stderr


def test_the_command_prints_one_document(tmp_path):
    process, _said = started(tmp_path)
    process.terminate()
    process.wait(timeout=20)
    process.stdout.close()
    told = said_by("--json", data=tmp_path)
    assert (told.returncode, json.loads(told.stdout)) == (0, {"schools": []})
