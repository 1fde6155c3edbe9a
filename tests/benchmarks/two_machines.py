"""The shop computer and a tablet as two machines of one network, with a line between them that goes down. Prints.

    sudo python tests/benchmarks/two_machines.py [SECONDS-DOWN]

Two network namespaces of Linux and a cable between them; needs the right to make them. The tablet is asked to pair,
pairs with the code that the terminal told, ticks a line off, and loses the line, 10 s where nothing is said, while it
ticks the next ones. Leaves with 1 unless a stranger is refused, the paired tablet is let in, the shop computer is
answered while the line is down, and every tick is kept once the tablet has tried again.
"""

import json
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from threading import Thread

ROOT = Path(__file__).parents[2]
SHOP, TABLET = f"shop{os.getpid() % 10000}", f"tablet{os.getpid() % 10000}"
ADDRESS, PORT = "10.77.0.1", 8420

TABLET_DOES = """
import json, sys, time
import httpx
at, code, project, keys = sys.argv[1], sys.argv[2], sys.argv[3], sys.argv[4:]
said = {}
with httpx.Client(base_url=at, headers={"Origin": at}, timeout=60) as line:
    said["stranger"] = line.get("/").status_code
    said["pairing"] = line.post("/pair", data={"code": code, "device": "tablet"}).status_code
    said["paired"] = line.get("/").status_code
    line.timeout, said["tries"] = 3, 0
    print("paired", flush=True)
    for key in keys:
        while True:
            said["tries"] += 1
            try:
                answer = line.post(f"/projects/{project}/timber/tick/{key}", data={"done": "yes", "tab": "tablet"})
            except httpx.TransportError:
                time.sleep(1)
                continue
            if answer.status_code == 303:
                break
        time.sleep(0.5)
print(json.dumps(said))
"""
"""What the tablet does; a tick says what is wanted, so trying again does no harm."""


def ip(*words: str) -> None:
    """Tell the system's network something."""
    subprocess.run(["ip", *words], check=True)


@contextmanager
def network() -> Iterator[None]:
    """Two machines with a cable between them."""
    try:
        for name in (SHOP, TABLET):
            ip("netns", "add", name)
        ip("link", "add", "cable0", "netns", SHOP, "type", "veth", "peer", "name", "cable1", "netns", TABLET)
        for name, cable, address in ((SHOP, "cable0", ADDRESS), (TABLET, "cable1", "10.77.0.2")):
            ip("-n", name, "addr", "add", f"{address}/24", "dev", cable)
            ip("-n", name, "link", "set", "lo", "up")
            ip("-n", name, "link", "set", cable, "up")
        yield
    finally:
        for name in (SHOP, TABLET):
            subprocess.run(["ip", "netns", "del", name], check=False)


@contextmanager
def program(folder: Path) -> Iterator[list[str]]:
    """The program on the shop computer, open to the network; yields what it says in its terminal, as it says it."""
    command = ["ip", "netns", "exec", SHOP, sys.executable, "-u", "-m", "webapp", "--lan"]
    command += ["--data", str(folder), "--port", str(PORT)]
    environment = os.environ | {"PYTHONPATH": str(ROOT)}
    process = subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True)
    said: list[str] = []
    assert process.stdout
    Thread(target=lambda lines=process.stdout: said.extend(lines), daemon=True).start()
    try:
        yield said
    finally:
        process.terminate()
        process.wait()


def on(machine: str, code: str, *words: str) -> subprocess.Popen[str]:
    """Run some Python on one of the machines."""
    command = ["ip", "netns", "exec", machine, sys.executable, "-c", code, *words]
    return subprocess.Popen(command, stdout=subprocess.PIPE, text=True)


def at_shop(what: str) -> str:
    """What the shop computer is answered, asked with an expression about `line`."""
    at = f"http://127.0.0.1:{PORT}"
    code = (
        f"import httpx; line = httpx.Client(base_url={at!r}, headers={{'Origin': {at!r}}}, timeout=60); print({what})"
    )
    return on(SHOP, code).communicate()[0].strip()


def told(said: list[str], pattern: str) -> str:
    """What the terminal has told, as soon as it has."""
    for _ in range(600):
        if found := re.search(pattern, "".join(said)):
            return found[1]
        time.sleep(0.1)
    raise SystemExit("the program does not say where it is:\n" + "".join(said))


def main(down_s: float) -> int:
    """Pair, tick, cut the line, tick on."""
    keys = [f"{number:010x}-cuts-1" for number in range(8)]
    with TemporaryDirectory() as folder, network(), program(Path(folder) / "data") as said:
        address = told(said, rf"In the network: (http://{re.escape(ADDRESS)}:{PORT}/)")
        code = told(said, r"with the code ([0-9 ]+) \(").replace(" ", "")
        started = "line.post('/projects', data={'unit': 'mm', 'kind': 'paper', 'across': '300', 'up': '400', "
        started += "'face_width': '25'}).headers['location']"
        project = at_shop(started).split("/")[2]
        tablet = on(TABLET, TABLET_DOES, address.rstrip("/"), code, project, *keys)
        assert tablet.stdout and tablet.stdout.readline() == "paired\n"
        time.sleep(1)
        ip("-n", SHOP, "link", "set", "cable0", "down")
        time.sleep(down_s)
        owner = at_shop("line.get('/').status_code")
        ip("-n", SHOP, "link", "set", "cable0", "up")
        found = json.loads(tablet.communicate(timeout=180)[0])
        kept = json.loads(at_shop(f"line.get('/projects/{project}/project.json').text"))["timber"]["done"]
    print(found | {"owner meanwhile": owner, "ticks kept": f"{len(set(keys) & set(kept))} of {len(keys)}"})
    is_good = (found["stranger"], found["paired"], owner) == (403, 200, "200") and kept == keys
    return 0 if is_good else 1


if __name__ == "__main__":
    sys.exit(main(float(sys.argv[1]) if len(sys.argv) > 1 else 10))
