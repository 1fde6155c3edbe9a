"""Take every page of every demo in three sizes, to be looked at: `python tests/browser/shots.py FOLDER`."""

import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from everywhere import every_page
from real_browser import CHROMIUM, FLAGS, playwright
from serving import serving
from tablet import LANDSCAPE, PHONE, PORTRAIT, Door

SIZES = {"landscape": LANDSCAPE, "portrait": PORTRAIT, "phone": PHONE}


def main(folder: Path) -> None:
    """Take them all; a page that scrolls is taken as it first shows, and once more at its full length."""
    from webapp.app import create_app

    folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as data:
        app = Door(create_app(data_dir=Path(data)))
        with serving(app) as address, playwright.sync_playwright() as player:
            browser = player.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
            pages: list[tuple[str, str]] = []
            for size_name, (width, height) in SIZES.items():
                context = browser.new_context(viewport={"width": width, "height": height}, base_url=address)
                page = context.new_page()
                page.goto("/")
                page.screenshot(path=folder / f"first-start-{size_name}.png", full_page=True)
            for size_name, (width, height) in SIZES.items():
                size = {"width": width, "height": height}
                page = browser.new_context(viewport=size, has_touch=True, base_url=address).new_page()
                pages = pages or list(every_page(page))
                for name, target in pages:
                    page.goto(target)
                    page.screenshot(path=folder / f"{name}-{size_name}.png")
                    page.screenshot(path=folder / f"{name}-{size_name}-full.png", full_page=True)
            browser.close()
    print(f"{len(list(folder.glob('*.png')))} pictures in {folder}")


if __name__ == "__main__":
    main(Path(sys.argv[1] if len(sys.argv) > 1 else "shots"))
