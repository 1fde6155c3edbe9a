"""The command line: serve the pages, write a project's drawings, print the file format.

A command imports what it takes when it is carried out: the first page is there soon, and so is the help.
"""

import errno
import gc
import json
import logging
import socket
import sys
from argparse import ArgumentParser, ArgumentTypeError, Namespace
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from framecalc.drawing.sheet import PAPERS
from webapp.data.errors import StoreError
from webapp.server.door import LOOPBACK_NAMES, name_of
from webapp.server.listener import listen, listen_everywhere
from webapp.server.network import ANYWHERE, name_for
from webapp.settings import LOOPBACK, USUAL_PORT, usual_data_folder


class Refused(Exception):
    """A command that cannot be carried out. The text is one sentence for the person who typed it."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Carry out one command and return its exit code: 0, 1 for faults that were found, or 2 for what was refused."""
    command = _parser().parse_args(arguments)
    try:
        return int(command.carry_out(command) or 0)
    except (Refused, StoreError) as refusal:
        print(f"rabbetry: {refusal}", file=sys.stderr)
        return 2
    except KeyboardInterrupt:
        print()
    return 0


def _parser() -> ArgumentParser:
    parser = ArgumentParser(
        prog="rabbetry", description="Plan a picture-frame build. Without a command: serve the pages."
    )
    home = usual_data_folder()
    parser.add_argument("--data", type=Path, default=home, metavar="DIR", help=f"where projects are kept ({home})")
    parser.add_argument("--port", type=_port, default=USUAL_PORT, help=f"where the pages are served ({USUAL_PORT})")
    parser.add_argument(
        "--lan",
        action="store_true",
        help="serve the network too, under this computer's own addresses, to paired devices",
    )
    parser.add_argument(
        "--host",
        action="append",
        type=_host,
        default=[],
        metavar="NAME",
        help="serve the network too, under this name or address; the first one said is offered first",
    )
    parser.add_argument("--log", action="store_true", help="write a line for each request, without clients' secrets")
    parser.set_defaults(carry_out=_serve)
    _add_commands(parser)
    return parser


def _add_commands(parser: ArgumentParser) -> None:
    """What the program does without serving pages."""
    commands = parser.add_subparsers(title="commands")
    draw = commands.add_parser("draw", help="write every drawing, template and list of a project, and its plan")
    draw.add_argument("project", type=Path, metavar="PROJECT.json")
    draw.add_argument("--out", type=Path, required=True, metavar="DIR", help="where the files go")
    draw.add_argument(
        "--sheet",
        choices=sorted(PAPERS),
        default="",
        metavar="PAPER",
        help=f"the paper: {', '.join(PAPERS)} (a4, in inch jobs letter)",
    )
    draw.set_defaults(carry_out=_draw)
    check = commands.add_parser("check", help="say what is wrong with a project file, or with a folder of them")
    check.add_argument(
        "place", type=Path, metavar="FILE|FOLDER", help="a project file, a folder of them, or a data folder"
    )
    check.set_defaults(carry_out=_check)
    schema = commands.add_parser("schema", help="print the JSON Schema of a project file")
    schema.set_defaults(carry_out=_print_schema)


def _port(text: str) -> int:
    if not text.isdecimal() or int(text) > 65535:
        raise ArgumentTypeError(f"Enter a port up to 65535, or 0 for any free one, not “{text}”")
    return int(text)


def _host(text: str) -> str:
    with suppress(ValueError):
        address = name_for(text)
        if address in ANYWHERE:
            raise ArgumentTypeError(f"Say --lan for every network; nobody reaches a computer as “{text}”")
        return address
    name = name_of(text)
    if not name or ":" in text.rpartition("]")[2]:
        raise ArgumentTypeError(f"Enter a computer, such as shop.local or 192.168.0.9, not “{text}”")
    return name


def _serve(command: Namespace) -> None:
    names = tuple(dict.fromkeys(name for name in command.host if name not in LOOPBACK_NAMES))
    with ExitStack() as stack:
        with _nothing_collected():
            import uvicorn

            from webapp.app import create_app
            from webapp.live.compiled import keep_compiled
            from webapp.server.memory import give_back_memory
            from webapp.server.patience import patient_config
            from webapp.server.terminal import CodeTeller, tell_addresses

            give_back_memory()
            listeners = _listen(command.port, everywhere=bool(names) or command.lan)
            for listener in listeners:
                stack.enter_context(listener)
            app = create_app(data_dir=command.data, names=names, is_open=command.lan, access_log=command.log)
        door, devices, port = app.state.door, app.state.devices, listeners[0].getsockname()[1]
        tell_addresses(door, port=port, first=devices.first, write=_write_line)
        teller = CodeTeller(devices, door, port=port, write=_write_line)
        if command.log:
            logging.basicConfig(level=logging.INFO, format="%(asctime)s %(message)s")
        config = patient_config(app, each_second=teller.look_again if door.serves_network else None)
        keep_compiled()
        uvicorn.Server(config).run(sockets=listeners)


@contextmanager
def _nothing_collected() -> Iterator[None]:
    """A start makes what stays: it is not walked for what could go, neither now nor in the middle of a redraw."""
    from webapp.server.memory import keep_what_is_made

    gc.disable()
    try:
        yield
    finally:
        keep_what_is_made()
        gc.enable()


def _write_line(line: str) -> None:
    print(line, flush=True)


def _listen(port: int, *, everywhere: bool) -> list[socket.socket]:
    try:
        return listen_everywhere(port) if everywhere else [listen(LOOPBACK, port)]
    except OSError as error:
        found = "is taken" if error.errno == errno.EADDRINUSE else f"cannot be used ({error.strerror})"
        raise Refused(f"port {port} {found}: stop what uses it, or choose another with --port") from error


def _draw(command: Namespace) -> None:
    from webapp.data.shop import read_shop
    from webapp.data.shop_file import ShopFile
    from webapp.written import draw

    shop = ShopFile(command.data, check=read_shop).read()
    for path in draw(command.project, out=command.out, sheet=command.sheet, shop=shop):
        print(path)


def _check(command: Namespace) -> int:
    from webapp.data.checking import check_files
    from webapp.issue.checking import SHARE_FILES
    from webapp.server.checking import DEVICE_FILES

    try:
        checked = check_files(command.place, more=SHARE_FILES | DEVICE_FILES)
    except OSError as error:
        raise Refused(f"{command.place} cannot be read: {error.strerror}") from error
    for fault in checked.faults:
        print(fault)
    if not checked.faults:
        print(f"{checked.files} {'file' if checked.files == 1 else 'files'} checked: nothing is wrong")
    return 1 if checked.faults else 0


def _print_schema(_: Namespace) -> None:
    from framecalc.project import project_schema

    print(json.dumps(project_schema(), indent=2))


if __name__ == "__main__":
    sys.exit(main())
