"""The devices of the owner: the code that pairs one, the form in which it is typed, the list of those let in."""

from typing import Any

from fastapi import APIRouter, Request, Response

from framecalc.words import Words
from webapp.live.addresses import Address
from webapp.live.forms import Form, plain
from webapp.live.page import Page
from webapp.live.render import drawing, render, see_other
from webapp.server.devices import Devices, UnusableName, WrongCode
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
    shown: dict[str, Any] = {"words": Words.US, "devices": _devices(request).list(), "serves": door.serves_network}
    return render(request, "devices/page", shown | _code(request, door))


@router.post(PAGE.path + "/{device_id}/forget")
def forget(request: Request, device_id: str) -> Response:
    """Let a device in no more."""
    _devices(request).forget(device_id)
    return see_other(PAGE.path)


@router.get("/pair")
def ask(request: Request, code: str = "") -> Response:
    """Ask a device for the code."""
    return render(request, "devices/pair", {"words": Words.US, "code": plain(code)[:12], "name": "", "refused": ""})


@router.post("/pair")
def pair(request: Request, form: Form) -> Response:
    """Let a device in that knows the code."""
    rates: Rates = request.app.state.rates
    rates.take("pair", request.client.host if request.client else "")
    name = form.texts.get("device", "")
    try:
        token = _devices(request).pair(form.texts.get("code", ""), name=name)
    except (WrongCode, UnusableName) as error:
        shown = {"words": Words.US, "code": "", "name": name, "refused": error.sentence}
        return render(request, "devices/pair", shown, status=CANNOT_TAKE)
    answer = see_other("/")
    cookie = cookie_name(request.headers["host"])
    answer.set_cookie(cookie, token, max_age=A_YEAR_S, httponly=True, samesite="strict", path="/")
    return answer


def _code(request: Request, door: Door) -> dict[str, Any]:
    """The code and where it is typed, for the shop computer alone."""
    if request.state.caller is not Caller.HERE or not door.serves_network:
        return {"code": "", "addresses": (), "qr": ""}
    code = _devices(request).code()
    port = request.url.port or 80
    addresses = tuple(pairing_address(name, port=port, code=code) for name in sorted(door.names))
    return {"code": f"{code[:4]} {code[4:]}", "addresses": addresses, "qr": drawing(qr_svg(addresses[0]))}
