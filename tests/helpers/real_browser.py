"""The browser on this machine, if there is one. There can be only one player at a time: tests share the one fixture."""

import shutil

try:
    from playwright import sync_api as playwright
except ImportError:  # the browser tests are an extra; without it they are skipped
    playwright = None
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP *.test 127.0.0.1",
]
