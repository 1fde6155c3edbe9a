"""How many words every page of the demos shows on a tablet, and how many screens it is long.

    PYTHONPATH=. python tests/benchmarks/words.py

Words are those that a person sees: what is folded, and the choices of a list, do not count.
"""

import sys
import tempfile
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1] / "helpers"))
from everywhere import PARTS
from real_browser import CHROMIUM, FLAGS, playwright
from serving import serving
from tablet import LANDSCAPE, Door

COUNT = """() => {
  const main = document.querySelector("main"), walk = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
  let words = 0;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const box = node.parentElement;
    if (box.closest("option, svg, script, template, .visually-hidden, .skip") || !box.checkVisibility()) continue;
    if (box.closest("details:not([open])") && !box.closest("summary")) continue;
    words += node.textContent.split(/\\s+/).filter((word) => /[\\p{L}\\p{N}]/u.test(word)).length;
  }
  return [words, document.documentElement.scrollHeight / innerHeight];
}"""


def main() -> None:
    """Print a line a page."""
    from webapp.app import create_app

    size = {"width": LANDSCAPE[0], "height": LANDSCAPE[1]}
    with tempfile.TemporaryDirectory() as data:
        app = Door(create_app(data_dir=Path(data)))
        with serving(app) as address, playwright.sync_playwright() as player:
            browser = player.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
            _count_all(browser.new_context(viewport=size, has_touch=True, base_url=address).new_page())
            browser.close()


def _count_all(page: Any) -> None:
    for part, pages in PARTS.items():
        total = 0
        for name, target in list(pages(page)):
            page.goto(target)
            words, screens = page.evaluate(COUNT) if page.locator("main").count() else (0, 0)
            total += words
            print(f"{words:6d} words {screens:5.1f} screens  {name}")
        print(f"{total:6d} words together: {part}\n")


if __name__ == "__main__":
    main()
