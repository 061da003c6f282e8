"""Signing in and out, the second factor, the shift, invitations, and how a person reads."""

from __future__ import annotations

from django.contrib.auth import login, logout
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from sendoff.web.forms import Sent
from sendoff.web.models import ROLES, Person, Site
from sendoff.web.queries import fetch
from sendoff.web.reader import LANGUAGE_COOKIE
from sendoff.web.rights import SIGNERS
from sendoff.web.services import people as service
from sendoff.web.stock import yard_settings
from sendoff.web.views.showing import go, local, show, signed_in

PENDING = "pending"
SECRET = "second_factor_secret"  # noqa: S105 (a key of the session)
PENDING_S = 300


def place_of(request: HttpRequest) -> str:
    """Return where a request comes from, for counting guesses."""
    return str(request.META.get("REMOTE_ADDR", ""))[:64]


def _enter(request: HttpRequest, person: Person, address: str) -> HttpResponse:
    login(request, person, backend="django.contrib.auth.backends.ModelBackend")
    site = person.sites.order_by("name").first()
    request.session["zone"] = site.zone if site is not None else "UTC"
    request.session["seen"] = int(timezone.now().timestamp())
    if person.role in SIGNERS and not person.totp_secret:
        return go("second_set_up")
    return HttpResponseRedirect(address)


@require_http_methods(["GET", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Ask for name and password; who has a second factor is asked for it next."""
    address = local(request, request.GET.get("next", "") or request.POST.get("next", ""), reverse("yard"))
    if isinstance(request.user, Person):
        return HttpResponseRedirect(address)
    if request.method == "POST":
        sent = Sent(request)
        password = request.POST.get("password", "")[:200]
        person = service.by_password(sent.text("login", 80), password, place_of(request))
        if person is not None and person.totp_secret:
            request.session[PENDING] = [person.pk, int(timezone.now().timestamp()), address]
            return go("second_factor")
        if person is not None:
            return _enter(request, person, address)
        wait = service.locked(f"login:{sent.text('login', 80).lower()}", f"from:{place_of(request)}")
        told = "locked" if wait else "wrong_sign_in"
        return show(request, "sign_in.html", address=address, told=told, status=403)
    return show(request, "sign_in.html", address=address, told="")


@require_http_methods(["GET", "POST"])
def second_factor(request: HttpRequest) -> HttpResponse:
    """Ask for the code of the authenticator, or a recovery code."""
    number, since, address = request.session.get(PENDING, (0, 0, "/"))
    person = Person.objects.filter(pk=number, is_active=True).first()
    if person is None or timezone.now().timestamp() - since > PENDING_S:
        return go("sign_in")
    if request.method == "POST":
        if service.second_factor(person, Sent(request).text("code", 40), place_of(request)):
            del request.session[PENDING]
            answer = _enter(request, person, address)
            request.session["second_factor"] = int(timezone.now().timestamp())
            return go("shift") if person.role in SIGNERS else answer
        return show(request, "second_factor.html", told="wrong_code", status=403)
    return show(request, "second_factor.html", told="")


@signed_in
@require_http_methods(["GET", "POST"])
def second_set_up(request: HttpRequest) -> HttpResponse:
    """Set up the second factor: secret as text and as a QR code, proved by a code, then recovery codes once."""
    import io

    import segno
    from markupsafe import Markup

    person = fetch.person(request)
    if person.totp_secret:
        return go("shift")
    secret = request.session.setdefault(SECRET, service.new_secret())
    told = ""
    if request.method == "POST":
        codes = service.set_up_second_factor(person, secret, Sent(request).text("code", 40))
        if codes is not None:
            del request.session[SECRET]
            request.session["second_factor"] = int(timezone.now().timestamp())
            return show(request, "recovery_codes.html", codes=codes)
        told = "wrong_code"
    out = io.BytesIO()
    segno.make(service.address_of(person, secret), micro=False).save(
        out, kind="svg", xmldecl=False, svgns=True, border=2, scale=5, dark="#15171A", light="#FFFFFF", svgclass=None,
        lineclass=None,
    )  # fmt: skip
    code = Markup(out.getvalue().decode())  # noqa: S704 (made by segno from our own address)
    grouped = " ".join(secret[start : start + 4] for start in range(0, len(secret), 4))
    return show(
        request, "second_set_up.html", code=code, secret=grouped, told=told, status=403 if told else 200
    )


@signed_in
@require_http_methods(["GET", "POST"])
def shift(request: HttpRequest) -> HttpResponse:
    """Choose the PIN that stands for the second factor on this phone until the shift ends."""
    person = fetch.person(request, "sign")
    if not request.session.get("second_factor"):
        return go("second_set_up") if not person.totp_secret else go("sign_out_first")
    told = ""
    if request.method == "POST":
        pin = Sent(request).text("shift_code", 20)
        if service.begin_shift(person, request.session.session_key or "", pin, yard_settings().session_hours):
            return go("yard")
        told = "weak_shift_code"
    running = service.on_shift(person, request.session.session_key or "")
    return show(request, "shift.html", told=told, running=running, status=422 if told else 200)


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """End the session."""
    logout(request)
    return go("sign_in")


@signed_in
@require_GET
def sign_out_first(request: HttpRequest) -> HttpResponse:
    """Say that the second factor is asked for when signing in."""
    return show(request, "sign_out_first.html")


@require_http_methods(["GET", "POST"])
def invitation(request: HttpRequest, token: str) -> HttpResponse:
    """Let somebody in by their invitation: they choose a password."""
    found = service.invitation(token)
    if found is None:
        return show(request, "invitation.html", found=None, told=[], status=404)
    told: list[str] = []
    if request.method == "POST":
        password = request.POST.get("password", "")[:200]
        try:
            validate_password(password)
        except ValidationError:
            told.append("weak_password")
        if password != request.POST.get("again", "")[:200]:
            told.append("not_the_same")
        person = service.accept(token, password) if not told else None
        if person is not None:
            return _enter(request, person, reverse("yard"))
    return show(request, "invitation.html", found=found, told=told, status=422 if told else 200)


@signed_in
@require_http_methods(["GET", "POST"])
def people(request: HttpRequest) -> HttpResponse:
    """Show who works here, and invite somebody."""
    who = fetch.person(request, "people")
    sites = fetch.sites(who)
    letter = ""
    if request.method == "POST":
        sent = Sent(request)
        name, login_name = sent.text("name", 80, needed=True), sent.text("login", 80, needed=True)
        role, language = sent.choice("role", ROLES), sent.choice("language", ("en", "es"))
        site = sent.choice("site", [str(one.pk) for one in sites])
        if Person.objects.filter(login=login_name.lower()).exists():
            sent.refuse("login", "login_taken")
        sent.done()
        chosen = Site.objects.get(pk=int(site))
        token = service.invite(name, login_name, role, language, chosen, who)
        letter = request.build_absolute_uri(reverse("invitation", args=[token]))
    found = Person.objects.filter(sites__in=sites).distinct().order_by("name").prefetch_related("sites")
    return show(
        request, "people.html", page="people", people=list(found), sites=sites, roles=ROLES, letter=letter
    )


@require_http_methods(["GET", "POST"])
def reading_way(request: HttpRequest) -> HttpResponse:
    """Choose language, units, and dark or light."""
    back = local(request, request.POST.get("back", "") or request.GET.get("back", ""), reverse("yard"))
    if request.method == "GET":
        return show(request, "reading_way.html", back=back)
    sent = Sent(request)
    language = sent.choice("language", ("en", "es"), otherwise="en")
    answer = HttpResponseRedirect(back)
    if isinstance(request.user, Person):
        request.user.language = language
        if "units" in request.POST:
            request.user.units = sent.choice("units", ("us", "metric"), otherwise="us")
            request.user.dark = request.POST.get("dark") == "yes"
        sent.done()
        request.user.save(update_fields=["language", "units", "dark"])
    answer.set_cookie(
        LANGUAGE_COOKIE,
        language,
        max_age=31_536_000,
        samesite="Lax",
        httponly=True,
        secure=yard_settings().https,
    )
    return answer
