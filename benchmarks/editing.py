"""An edit in the browser until its new drawing stands there, beside a bare page that swaps a fixed one.

Both are asked in turn, in one Chromium and one run. Timed in the page, from the input event until the drawing
is in the document and laid out; frames are left out, which would round both up to a screen's.
"""

from __future__ import annotations

import contextlib
import os
import re
import socket
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from typing import Any
from urllib.parse import urlencode

from benchmarks.measuring import Figure

EDITS = 200
WARM = 10
PATIENCE = 60.0
CHROMIUM = "/usr/bin/chromium"
ARGUMENTS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
OPENING = {
    "width": "562, 561.5",
    "height": "168",
    "depth": "530",
    "side": "16",
    "contents": "20",
    "front.style": "overlay",
}
EDIT = """(depth) => new Promise((done) => {
  const field = document.getElementById('f-depth');
  document.addEventListener('sheet-drawn', () => {
    document.body.getBoundingClientRect();
    done(performance.now() - began);
  }, { once: true });
  field.value = depth;
  const began = performance.now();
  field.dispatchEvent(new Event('input', { bubbles: true }));
})"""


def figures() -> Iterator[Figure]:
    """The edit's median and 95th percentile, and the ratio of medians; nothing where there is no Chromium."""
    if not Path(CHROMIUM).exists():
        print(f"edits are left out: there is no {CHROMIUM}", file=sys.stderr)
        return
    with tempfile.TemporaryDirectory() as folder:
        ours, bare = edits(Path(folder))
    yield Figure("an edit until its drawing stands, median", median(ours), "ms", 100)
    yield Figure("… 95th percentile", sorted(ours)[len(ours) * 95 // 100], "ms", 200)
    yield Figure("… a bare page with a fixed drawing, median", median(bare), "ms", 100)
    yield Figure("… 95th percentile", sorted(bare)[len(bare) * 95 // 100], "ms", 200)
    yield Figure("an edit over the bare page's", median(ours) / median(bare), "×", 1.5)


def edits(folder: Path) -> tuple[list[float], list[float]]:
    """Times [ms] of edits of ours and of the bare page's, in turn."""
    from playwright.sync_api import sync_playwright

    store = f"sqlite:///{folder / 'store.db'}"
    serve = ["-m", "drawerwright.cli.main", "serve", "--store", store]
    with _served(serve, folder) as here:
        drawing = _drawing(here)
        (folder / "drawing.svg").write_text(drawing, encoding="utf-8")
        uvicorn = ["-m", "uvicorn", "benchmarks.bare_page:app", "--log-level", "warning"]
        with (
            _served(uvicorn, folder, BARE_DRAWING=str(folder / "drawing.svg")) as there,
            sync_playwright() as p,
        ):
            browser = p.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
            pages = [browser.new_page(viewport={"width": 1600, "height": 1000}) for _ in range(2)]
            pages[0].goto(f"{here}/?{urlencode(OPENING)}")
            pages[1].goto(there)
            taken: tuple[list[float], list[float]] = ([], [])
            for number in range(EDITS + WARM):
                for page, times in zip(pages, taken, strict=True):
                    page.bring_to_front()
                    times.append(_edit(page, f"{520 + number * 0.3:.1f}"))
            browser.close()
    return taken[0][WARM:], taken[1][WARM:]


def _edit(page: Any, depth: str) -> float:
    """One edit; what follows its drawing (picture, tables, what it carries) comes before the next."""
    took = float(page.evaluate(EDIT, depth))
    if page.locator("#check-cabinet-depth").count():
        page.locator("#check-cabinet-depth", has_text=f"Depth {float(depth):g} mm").wait_for()
        page.locator("[data-carry]:not([data-stale])").wait_for()
    return took


def _drawing(here: str) -> str:
    """The drawing that an edit brings, for the bare page: with all that stands on the sheet."""
    query = urlencode(OPENING | {"fragment": "sheet", "for": "wide"})
    with urllib.request.urlopen(f"{here}/?{query}", timeout=PATIENCE) as told:
        text = told.read().decode()
    found = re.search(r"<svg class=\"paper\".*</svg>(?=\s*</div>)", text, re.DOTALL)
    assert found is not None
    return found[0]


@contextlib.contextmanager
def _served(words: list[str], folder: Path, **told: str) -> Iterator[str]:
    """A server's address while it runs."""
    with socket.socket() as bound:
        bound.bind(("127.0.0.1", 0))
        port = int(bound.getsockname()[1])
    around = {**os.environ, "DRAWERWRIGHT_CACHE": str(folder / "cache"), **told}
    process = subprocess.Popen(
        [sys.executable, *words, "--port", str(port)], stdout=subprocess.DEVNULL, env=around
    )
    try:
        end = time.monotonic() + PATIENCE
        while True:
            with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), timeout=1):
                break
            assert process.poll() is None
            assert time.monotonic() < end
            time.sleep(0.05)
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(PATIENCE)


if __name__ == "__main__":
    for figure in figures():
        print(f"{figure.name:62}{figure.value:10.3f} {figure.unit:3} (goal {figure.goal:g})")
