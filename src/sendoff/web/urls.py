"""The addresses of the yard's pages."""

from __future__ import annotations

from django.urls import path

from sendoff.web.views import (
    briefing,
    gate,
    inspection,
    people,
    put_right,
    sheet,
    stock_pages,
    trouble,
    truck,
    unit,
    yard,
)

UNIT = "unit/<str:public_id>/"

urlpatterns = [
    path("", yard.the_yard, name="yard"),
    path("put-right/", yard.put_right_all, name="put_right_all"),
    path("parts/", stock_pages.parts, name="parts"),
    path("parts/<slug:card>/", stock_pages.part, name="part"),
    path("take-in/", stock_pages.take_in, name="take_in"),
    path("export/units.<slug:form>", stock_pages.export, name="export"),
    path("owes/", gate.owes, name="owes"),
    path("tools/", yard.tools, name="tools"),
    path("people/", people.people, name="people"),
    path("sign-in/", people.sign_in, name="sign_in"),
    path("sign-in/code/", people.second_factor, name="second_factor"),
    path("sign-out/", people.sign_out, name="sign_out"),
    path("sign-out/first/", people.sign_out_first, name="sign_out_first"),
    path("second-factor/", people.second_set_up, name="second_set_up"),
    path("shift/", people.shift, name="shift"),
    path("invitation/<str:token>/", people.invitation, name="invitation"),
    path("reading/", people.reading_way, name="reading_way"),
    path(UNIT, unit.drawing, name="unit"),
    path(f"{UNIT}pages/", unit.pages, name="pages"),
    path(f"{UNIT}history/", unit.history, name="history"),
    path(f"{UNIT}inspection/", inspection.walk, name="inspection"),
    path(f"{UNIT}station/<int:number>/", inspection.station, name="station"),
    path(f"{UNIT}check/<slug:slot>/<slug:name>/<slug:place>/", inspection.check, name="check"),
    path(f"{UNIT}put-right/", put_right.put_right, name="put_right"),
    path(f"{UNIT}put-right/new/", put_right.new, name="put_right_new"),
    path(f"{UNIT}put-right/<int:number>/", put_right.item, name="put_right_item"),
    path(f"{UNIT}briefing/", briefing.briefing, name="briefing"),
    path(f"{UNIT}sheet/", sheet.sheet, name="sheet"),
    path(f"{UNIT}truck/", truck.truck, name="truck"),
    path(f"{UNIT}truck/<int:number>/", truck.answer, name="truck_answer"),
    path(f"{UNIT}loose/", gate.loose, name="loose"),
    path(f"{UNIT}gate-pass/", gate.gate_pass, name="gate_pass"),
    path(f"{UNIT}gate-pass/<slug:name>/", gate.line, name="gate_line"),
    path(f"{UNIT}owes/<int:number>/", gate.debt, name="debt"),
    path(f"{UNIT}photo/<slug:digest>/", put_right.photo, name="photo"),
]
handler400 = trouble.bad_request
handler404 = trouble.nothing_there
handler500 = trouble.went_wrong
