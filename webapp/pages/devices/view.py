"""The devices of the owner: the code that pairs one, the form for the code, the list of paired devices."""

from collections.abc import Sequence

from fastapi import APIRouter, Request, Response
from markupsafe import Markup

from framecalc.records import Record
from framecalc.words import Words
from webapp.live.render import drawing, render, see_other
from webapp.live.statuses import CANNOT_TAKE
from webapp.live.typed.forms import Form, plain
from webapp.pages.devices import PAGE
from webapp.server.devices import Code, Device, Devices, TooManyDevices, UnusableName, WrongCode
from webapp.server.door import Caller, Door, cookie_name
from webapp.server.network import OwnAddress, pairing_address, qr_svg
from webapp.server.rates import Rates

VIEW = router = APIRouter()
A_YEAR_S = 365 * 24 * 3600


def _devices(request: Request) -> Devices:
    found: Devices = request.app.state.devices
    return found


@router.get(PAGE.path)
def page(request: Request) -> Response:
    """Show the paired devices and, on the shop computer itself, a code for one more."""
    door: Door = request.app.state.door
    return render(request, PAGE.template, _shown(request, door))


@router.post(PAGE.path + "/code")
def another(request: Request) -> Response:
    """Show another code where the last one is void."""
    _devices(request).code()
    return see_other(PAGE.path)


@router.post(PAGE.path + "/first")
def put_first(request: Request, form: Form) -> Response:
    """Offer one of this computer's addresses before the others."""
    door: Door = request.app.state.door
    name = form.texts.get("first", "")
    if name in {address.name for address in door.addresses()}:
        _devices(request).put_first(name)
    return see_other(PAGE.path)


@router.post(PAGE.path + "/{device_id}/forget")
def forget(request: Request, device_id: str) -> Response:
    """Remove a device."""
    _devices(request).forget(device_id)
    return see_other(PAGE.path)


class PairShown(Record):
    """The form that pairs a device: the typed code, and why it is refused."""

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
    """Pair a device that sends the code."""
    rates: Rates = request.app.state.rates
    rates.take("pair", request.client.host if request.client else "")
    name = form.texts.get("device", "")
    try:
        token = _devices(request).pair(form.texts.get("code", ""), name=name)
    except (WrongCode, UnusableName, TooManyDevices) as error:
        shown = PairShown(name=name, refused=error.sentence)
        return render(request, "devices/pair", shown, status=CANNOT_TAKE)
    answer = see_other("/")
    cookie = cookie_name(request.headers["host"])
    answer.set_cookie(cookie, token, max_age=A_YEAR_S, httponly=True, samesite="strict", path="/")
    return answer


class WayShown(Record):
    """One address of this computer: its link, where it comes from, a QR code of its own."""

    name: str
    link: str
    says: str
    qr: Markup


class DevicesShown(Record):
    """The paired devices; on the shop computer itself a code for one more, and where to type it."""

    devices: Sequence[Device]
    serves: bool
    damage: str = ""
    code: Code | None = None
    until: str = ""
    ways: tuple[WayShown, ...] = ()
    words: Words = Words.US


def _shown(request: Request, door: Door) -> DevicesShown:
    devices, port = _devices(request), request.url.port or 80
    if request.state.caller is not Caller.HERE or not door.serves_network:
        return DevicesShown(devices=devices.list(), serves=door.serves_network, damage=devices.damage)
    code = devices.moment()
    return DevicesShown(
        devices=devices.list(),
        serves=door.serves_network,
        damage=devices.damage,
        code=code,
        until=code.until.astimezone().strftime("%H:%M"),
        ways=tuple(_way(one, port=port, code=code) for one in door.addresses(first=devices.first)),
    )


def _way(address: OwnAddress, *, port: int, code: Code) -> WayShown:
    link = pairing_address(address.name, port=port, code=code.digits)
    says = f"Interface {address.interface}" if address.interface else "Said with --host"
    return WayShown(name=address.name, link=link.split("?")[0], says=says, qr=drawing(qr_svg(link)))
