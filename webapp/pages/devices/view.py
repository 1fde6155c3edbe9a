"""The devices of the owner: the code that pairs one, the form in which it is typed, the list of those let in."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from framecalc.words import Words
from webapp.live.addresses import Address
from webapp.live.forms import Form, plain
from webapp.live.page import Page
from webapp.live.render import drawing, render, see_other
from webapp.server.devices import Device, Devices, UnusableName, WrongCode
from webapp.server.door import Caller, Door, cookie_name
from webapp.server.network import pairing_address, qr_svg
from webapp.server.rates import Rates

router = APIRouter()
PAGE = Page(name="devices", title="Devices", path=Address("/devices"), in_menu=False, router=router)
A_YEAR_S = 365 * 24 * 3600
CANNOT_TAKE = 422


def _devices(request: Request) -> Devices:
    found: Devices = request.app.state.devices
    return found


@router.get(PAGE.path)
def page(request: Request) -> Response:
    """Show the devices let in, and, on the shop computer itself, the code for one more."""
    door: Door = request.app.state.door
    code = _devices(request).code() if request.state.caller is Caller.HERE and door.serves_network else ""
    return render(request, PAGE.template, _shown(request, door, code))


@router.post(PAGE.path + "/{device_id}/forget")
def forget(request: Request, device_id: str) -> Response:
    """Let a device in no more."""
    _devices(request).forget(device_id)
    return see_other(PAGE.path)


@dataclass(frozen=True, slots=True, kw_only=True)
class PairShown:
    """The form in which a device is paired: what was typed, and why it cannot be taken."""

    code: str = ""
    name: str = ""
    refused: str = ""
    words: Words = Words.US


@router.get("/pair")
def ask(request: Request, code: str = "") -> Response:
    """Ask a device for the code."""
    return render(request, "devices/pair", PairShown(code=plain(code)[:12]))


@router.post("/pair")
def pair(request: Request, form: Form) -> Response:
    """Let a device in that knows the code."""
    rates: Rates = request.app.state.rates
    rates.take("pair", request.client.host if request.client else "")
    name = form.texts.get("device", "")
    try:
        token = _devices(request).pair(form.texts.get("code", ""), name=name)
    except (WrongCode, UnusableName) as error:
        shown = PairShown(name=name, refused=error.sentence)
        return render(request, "devices/pair", shown, status=CANNOT_TAKE)
    answer = see_other("/")
    cookie = cookie_name(request.headers["host"])
    answer.set_cookie(cookie, token, max_age=A_YEAR_S, httponly=True, samesite="strict", path="/")
    return answer


@dataclass(frozen=True, slots=True, kw_only=True)
class DevicesShown:
    """The devices let in; on the shop computer itself the code for one more, and where it is typed."""

    devices: Sequence[Device]
    serves: bool
    code: str = ""
    addresses: tuple[str, ...] = ()
    qr: Markup = field(default_factory=Markup)
    words: Words = Words.US


def _shown(request: Request, door: Door, code: str) -> DevicesShown:
    devices, port = _devices(request).list(), request.url.port or 80
    if not code:
        return DevicesShown(devices=devices, serves=door.serves_network)
    addresses = tuple(pairing_address(name, port=port, code=code) for name in sorted(door.names))
    return DevicesShown(
        devices=devices,
        serves=door.serves_network,
        code=f"{code[:4]} {code[4:]}",
        addresses=addresses,
        qr=drawing(qr_svg(addresses[0])),
    )
