"""Briefing, build sheet, parts, taking in and export, through their pages."""

from __future__ import annotations

import csv
import io
import json
import uuid

from django.core.files.uploadedfile import SimpleUploadedFile

from sendoff.web import stock
from sendoff.web.models import Unit
from sendoff.web.services import audit
from tests.web.conftest import Cast, sheet


def act(**more: object) -> dict[str, object]:
    return {"act": str(uuid.uuid4()), **more}


def test_a_station_is_ticked_by_both_and_a_wrong_answer_stays_owed(cast: Cast) -> None:
    client, path = cast.client("representative"), f"/unit/{cast.utility.public_id}/briefing/"
    station = stock.built(cast.utility).stations[0].id
    for whose in ("yard", "owner"):
        assert client.post(path, act(do="station", key=station, whose=whose)).status_code == 302
    question = stock.briefing(cast.utility, "en", "us").questions[0]
    wrong = next(number for number in range(len(question.answers)) if number != question.right)
    client.post(path, act(do="question", key=question.key, answer=wrong))
    assert "explain it again" in client.get(path).content.decode()
    client.post(path, act(do="question", key=question.key, answer=question.right))
    assert cast.utility.ticks.filter(what="question", right=True).count() == 1
    assert client.post(path, act(do="question", key=question.key, answer=99)).status_code == 422
    assert client.post(path, act(do="station", key="no_such_station")).status_code == 422
    assert list(audit.audit()) == []


def test_a_sheet_shows_its_difference_before_it_is_changed_and_needs_a_reason(cast: Cast) -> None:
    client, path = cast.client("engineer"), f"/unit/{cast.tilt.public_id}/sheet/"
    text = sheet("qb-0107").replace(
        'left_1_out = { tin = "DOT 1AB KLN4F7 3126" }', 'left_1_out = { tin = "DOT 1AB KLN4F7 3326" }'
    )
    page = client.post(path, act(do="look", text=text)).content.decode()
    assert "+parts[tires].places[left_1_out].marks.tin = DOT 1AB KLN4F7 3326" in page
    assert "Cold pressure, left 1 outer" in page
    assert cast.tilt.sheets.count() == 1, "looking changes nothing"
    assert client.post(path, act(do="keep", text=text)).status_code == 422
    assert client.post(path, act(do="keep", text=text, reason="tire replaced")).status_code == 302
    assert cast.tilt.sheets.count() == 2
    assert client.post(path, act(do="keep", text="unit = ", reason="x")).status_code == 422
    assert list(audit.audit()) == []


def test_which_units_carry_a_part_is_asked_by_lot_and_serial(cast: Cast) -> None:
    client = cast.client("office")
    assert "QB-0107" in client.get("/parts/winch_12v/").content.decode()
    assert "QB-0107" in client.get("/parts/winch_12v/?lot=26-33").content.decode()
    assert "QB-0107" not in client.get("/parts/winch_12v/?lot=26-99").content.decode()
    assert client.get("/parts/no_such_card/").status_code == 404
    assert "QB-0107" not in cast.client("stranger").get("/parts/winch_12v/").content.decode()


def test_of_several_sheets_each_is_taken_in_or_refused_with_its_reason(cast: Cast) -> None:
    client = cast.client("representative")
    files = [
        SimpleUploadedFile("good.toml", sheet("qb-0203").encode()),
        SimpleUploadedFile("faulty.toml", sheet("qb-0111").replace('vin = "', 'vin = "Q').encode()),
        SimpleUploadedFile("bytes.toml", b"\xff\xfe\x00"),
        SimpleUploadedFile("here-already.toml", sheet("qb-0107").encode()),
    ]
    page = client.post("/take-in/", {"site": cast.site.pk, "sheets": files}).content.decode()
    assert "Taken in: 1 of 4" in page
    assert "faulty.toml: vin" in page
    assert Unit.objects.filter(number="QB-0203").exists()
    assert list(audit.audit()) == []


def test_an_export_gives_what_is_there_and_no_formula(cast: Cast) -> None:
    Unit.objects.filter(pk=cast.tilt.pk).update(owner='=HYPERLINK("http://x")')
    client = cast.client("office")
    rows = json.loads(client.get("/export/units.json").content)
    assert [row["number"] for row in rows] == ["QB-0107", "QB-0207"]
    table = list(csv.DictReader(io.StringIO(client.get("/export/units.csv").content.decode())))
    assert table[0]["owner"].startswith("'=")
    assert client.get("/export/units.exe").status_code == 404
