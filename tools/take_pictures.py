"""Take the pictures of the pages that docs/ shows: `python tools/take_pictures.py [NAME ...]`.

A server on an empty store in a temporary folder, the invented demo job in it, Chromium in front. Needs
Debian's chromium; `DRAWERWRIGHT_CHROMIUM` names another. Look at every picture before it is committed.
"""

from __future__ import annotations

import io
import os
import sys
import tempfile
import threading
import tomllib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path

import uvicorn
from PIL import Image
from playwright.sync_api import Page, sync_playwright

from drawerwright.store import open_store
from drawerwright.web.app import create_app
from drawerwright.web.settings import Settings

PICTURES = Path(__file__).resolve().parents[1] / "docs" / "pictures"
CHROMIUM = os.environ.get("DRAWERWRIGHT_CHROMIUM", "/usr/bin/chromium")
QUIET = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
COLOURS = 128
QUICK = "/?width=562;561.5&height=168&depth=530&side=16&contents=20&front.style=overlay"


@dataclass(frozen=True)
class Picture:
    """One picture: the page's address (`{job}`: the demo), window [px], dark paper, what is pressed first."""

    name: str
    address: str
    width: int = 1600
    height: int = 1000
    dark: bool = False
    press: str = ""


SHOWN = (
    Picture("quick", QUICK),
    Picture("quick-dark", QUICK, dark=True),
    Picture("quick-inches", "/?units=in&width=22+1/8&height=6+5/8&depth=20+7/8&side=5/8&contents=44"),
    Picture("quick-working", QUICK, press=".dimension[data-quantity=inside_width]"),
    Picture("quick-tablet", QUICK, 820, 1180),
    Picture("quick-phone", QUICK, 360, 780),
    Picture("does-not-fit", "/?width=562&height=168&depth=290&side=16&contents=20"),
    Picture("jobs", "/jobs"),
    Picture("schedule", "/jobs/{job}"),
    Picture("schedule-phone", "/jobs/{job}", 360, 780),
    Picture("drawer", "/jobs/{job}/drawers/K1-1"),
    Picture("cabinets", "/jobs/{job}/cabinets"),
    Picture("history", "/jobs/{job}/history"),
    Picture("papers", "/jobs/{job}/papers"),
    Picture("bench", "/jobs/{job}/bench/K1-1", 820, 1180),
    Picture("bench-phone", "/jobs/{job}/bench/K1-1", 360, 780),
    Picture("slides", "/slides"),
    Picture("family", "/slides/house-16"),
    Picture(
        "compare", "/slides/compare?family=house-16&family=heavy-19&width=562&height=168&depth=530&side=16"
    ),
)


@contextmanager
def served() -> Iterator[tuple[str, str]]:
    """A server with the demo job in its store: its address and the job's id."""
    with tempfile.TemporaryDirectory() as folder, open_store(f"sqlite:///{folder}/pictures.sqlite3") as store:
        demo = files("drawerwright.cli").joinpath("demo.toml").read_text(encoding="utf-8")
        job = store.create_job(tomllib.loads(demo)).id
        config = uvicorn.Config(create_app(Settings(), store=store), port=0, log_level="error")
        server = uvicorn.Server(config)
        thread = threading.Thread(target=server.run)
        thread.start()
        try:
            while not server.started:
                threading.Event().wait(0.02)
            port = server.servers[0].sockets[0].getsockname()[1]
            yield f"http://127.0.0.1:{port}", job
        finally:
            server.should_exit = True
            thread.join()


def take(page: Page, picture: Picture, base: str, job: str) -> bytes:
    """The picture as PNG, in few colours: what is drawn here has no more."""
    page.goto(base + picture.address.format(job=job))
    page.wait_for_load_state("networkidle")
    if picture.press:
        page.locator(picture.press).first.click()
        page.locator("[aria-expanded=true]:visible").first.wait_for()
        page.mouse.move(0, 0)
    page.evaluate("document.fonts.ready")
    raw = Image.open(io.BytesIO(page.screenshot()))
    small = raw.convert("RGB").quantize(COLOURS, dither=Image.Dither.NONE)
    out = io.BytesIO()
    small.save(out, "PNG", optimize=True)
    return out.getvalue()


def main(names: list[str]) -> None:
    """Take the pictures named, all without."""
    unknown = set(names) - {one.name for one in SHOWN}
    if unknown:
        sys.exit(
            f"no picture is called {', '.join(sorted(unknown))}; there are: {' '.join(o.name for o in SHOWN)}"
        )
    PICTURES.mkdir(parents=True, exist_ok=True)
    with served() as (base, job), sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=QUIET)
        for picture in SHOWN:
            if names and picture.name not in names:
                continue
            context = browser.new_context(
                viewport={"width": picture.width, "height": picture.height},
                color_scheme="dark" if picture.dark else "light",
                reduced_motion="reduce",
            )
            taken = take(context.new_page(), picture, base, job)
            context.close()
            (PICTURES / f"{picture.name}.png").write_bytes(taken)
            print(f"{picture.name}.png  {len(taken) // 1000} kB")
        browser.close()


if __name__ == "__main__":
    main(sys.argv[1:])
