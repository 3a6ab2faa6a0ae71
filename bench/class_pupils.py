"""Invented students who enter things: each through its own connection, as the tablet's script does.

An entry counts as acknowledged when the server said so; only these must be found in the records.
"""

import http.client
import json
import threading
import time
import uuid
from dataclasses import dataclass, field
from hashlib import sha256
from urllib.parse import quote, urlencode

PATIENCE_S = 30
ENTRY = {"X-Setday-Entry": "1"}


@dataclass
class Acknowledged:
    """What the server said that it kept; and how long everything took [s]."""

    gates: list[str] = field(default_factory=list)
    marks: list[str] = field(default_factory=list)
    answers: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    entry_s: list[tuple[str, float]] = field(default_factory=list)
    page_s: list[tuple[str, float]] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    @property
    def count(self):
        """How many entries were acknowledged."""
        return len(self.gates) + len(self.marks) + len(self.answers) + len(self.notes)


class Tablet:
    """A tablet of one student: a connection that stays open, cookies, and what is entered."""

    def __init__(self, pupil, port, told, photo=b""):
        self.pupil, self.told, self.photo = pupil, told, photo
        self.cookies, self.turn, self.on = {}, pupil.number, False
        self.waiting, self.again = None, 0
        self.at(port)

    def at(self, port):
        """Speak to the server at a port."""
        self.link = http.client.HTTPConnection("127.0.0.1", port, timeout=PATIENCE_S)

    def ask(self, method, path, body=None, headers=None):
        """Ask the server; return the status and the bytes."""
        more = dict(headers or {})
        if self.cookies:
            more["Cookie"] = "; ".join(f"{name}={value}" for name, value in self.cookies.items())
        if method == "POST":
            more.setdefault("Content-Type", "application/x-www-form-urlencoded")
            more["X-CSRFToken"] = self.cookies.get("setday_form", "")
        self.link.request(method, quote(path), body=body, headers=more)
        answer = self.link.getresponse()
        for name, value in answer.getheaders():
            if name.lower() == "set-cookie":
                key, _, rest = value.partition("=")
                self.cookies[key] = rest.partition(";")[0]
        return answer.status, answer.read()

    def sign_in(self):
        """Come in by the card."""
        self.ask("GET", "/card/")
        status, body = self.ask("POST", "/card/", urlencode({"code": self.pupil.code}))
        if status != 302:
            raise SystemExit(f"a card was not taken: {status} {body[:300]!r}")

    def open_sheets(self):
        """Open the sheets to enter things on, as one has to before the first entry."""
        pupil = self.pupil
        gate = f"/houses/{pupil.house}/gates/surfaces/{pupil.surface}/" if pupil.item else "/gates/"
        for page in (gate, "/today/", f"/sealed/{pupil.offers[-1]}/"):
            started = time.perf_counter()
            self.ask("GET", page)
            self.told.page_s.append(("first time", time.perf_counter() - started))

    def enter(self):
        """Enter the next thing, then open the page again, as the script of the tablet does.

        Return whether an answer came.
        """
        return self._tried(self._enter)

    def send_again(self):
        """Send what no answer came for once more, under its own sign; return whether nothing waits now."""
        if self.waiting is None:
            return True
        self.again += 1
        return self._tried(lambda: self._post(*self.waiting))

    def _tried(self, work):
        try:
            work()
        except (http.client.HTTPException, OSError) as error:
            self.link.close()
            self.told.errors.append(f"no answer: {error!r}")
            return False
        return True

    def _enter(self):
        kinds = [self._mark, self._answer, *([self._note] if self.photo else [])]
        kinds += [self._check_off] if self.pupil.item else []
        self.turn += 1
        name, page = kinds[self.turn % len(kinds)]()
        started = time.perf_counter()
        status, _body = self.ask("GET", page)
        self.told.page_s.append((name, time.perf_counter() - started))
        if status != 200:
            self.told.errors.append(f"{page}: {status}")

    def _post(self, name, path, fields, kept, headers=None, body=None):
        self.waiting = (name, path, fields, kept, headers, body)
        started = time.perf_counter()
        status, said = self.ask("POST", path, body or urlencode(fields, doseq=True), headers or ENTRY)
        self.told.entry_s.append((name, time.perf_counter() - started))
        self.waiting = None
        if status == 200 or (status == 302 and body):
            kept()
        else:
            self.told.errors.append(f"{name}: {status} {said[:200].decode(errors='replace')}")

    def _check_off(self):
        pupil, entry = self.pupil, str(uuid.uuid4())
        self.on = not self.on
        fields = {"do": "done" if self.on else "back", "item": pupil.item, "entry": entry}
        row = sha256(f"{entry}|{pupil.surface}|{pupil.item}".encode()).hexdigest()
        path = f"/houses/{pupil.house}/gates/mark/{pupil.surface}/"
        self._post("check-off", path, fields, lambda: self.told.gates.append(row))
        return "check-off", path.replace("/mark/", "/surfaces/")

    def _mark(self):
        entry = str(uuid.uuid4())
        fields = {"task": self.pupil.task, "kind": "partly done", "quantity": "1", "entry": entry}
        path = f"/periods/{self.pupil.period}/mark/"
        self._post("mark", path, fields, lambda: self.told.marks.append(entry))
        return "mark", "/today/"

    def _answer(self):
        if not self.pupil.offers:
            return self._mark()
        number, entry = self.pupil.offers.pop(), str(uuid.uuid4())
        fields = {"answer": "77", "label-1": "area", "result-1": "77 ft2", "entry": entry}
        path = f"/sealed/{number}/"
        self._post("answer", path, fields, lambda: self.told.answers.append(entry))
        return "answer", path

    def _note(self):
        entry, mark = str(uuid.uuid4()), uuid.uuid4().hex
        parts = [f'--{mark}\r\nContent-Disposition: form-data; name="entry"\r\n\r\n{entry}\r\n'.encode()]
        head = 'Content-Disposition: form-data; name="note-photo"; filename="sill.jpg"'
        parts += [
            f"--{mark}\r\n{head}\r\nContent-Type: image/jpeg\r\n\r\n".encode(),
            self.photo,
            f"\r\n--{mark}--\r\n".encode(),
        ]
        kind = {"Content-Type": f"multipart/form-data; boundary={mark}"}
        path = f"/periods/{self.pupil.period}/note/"
        self._post("photo", path, {}, lambda: self.told.notes.append(entry), kind, b"".join(parts))
        return "photo", "/today/"


def missing_of(told):
    """Return what was acknowledged and is not in the records, and what is there twice."""
    from django.db import connection

    from setday.web.keeping.models import GateMark, PeriodMark, PeriodNote, SealedEntry

    pairs = (
        ("check-off", GateMark, told.gates),
        ("mark", PeriodMark, told.marks),
        ("answer", SealedEntry, told.answers),
        ("photo", PeriodNote, told.notes),
    )
    lost, twice = [], []
    for name, record, said in pairs:
        kept = [str(each) for each in record.objects.values_list("entry", flat=True)]
        lost += [f"{name} {each}" for each in sorted(set(said) - set(kept))]
        twice += [f"{name} {each}" for each in sorted({each for each in kept if kept.count(each) > 1})]
    lost += [f"file {each}" for each in without_file()]
    connection.close()
    return lost, twice


def without_file():
    """Return the photos whose record has no file of its size."""
    from setday.web.keeping.models import Photo

    return [
        str(photo.key)
        for photo in Photo.objects.order_by("pk")
        if not photo.path.exists() or photo.path.stat().st_size != photo.size
    ]


def whole():
    """Return what the database says of itself: "ok" when nothing is damaged."""
    from django.db import connection

    with connection.cursor() as cursor:
        cursor.execute("PRAGMA integrity_check")
        said = cursor.fetchone()[0]
    connection.close()
    return said


def together(jobs):
    """Run jobs at once, one thread each, and wait for all."""
    threads = [threading.Thread(target=job, daemon=True) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


def as_json(document):
    """Return one JSON document in a stable order."""
    return json.dumps(document, indent=2, sort_keys=True)
