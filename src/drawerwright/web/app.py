"""The application: guard, faults, API and pages put together around one store."""

from __future__ import annotations

import gc
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from fastapi import APIRouter, Depends, FastAPI

from drawerwright import __version__
from drawerwright.store import Store, open_store
from drawerwright.web import statics
from drawerwright.web.api import (
    align,
    bench,
    carry,
    compare,
    drawers,
    files,
    fit,
    jobs,
    pack,
    quick,
    revisions,
    season,
    slides,
    taken_slides,
)
from drawerwright.web.api.openapi import add_openapi
from drawerwright.web.api.query_keys import check_query
from drawerwright.web.compressing import ForOtherMachines
from drawerwright.web.families import offer
from drawerwright.web.faults import add_fault_handlers, broken, too_large
from drawerwright.web.guard import Guard
from drawerwright.web.heads import HeadAsGet
from drawerwright.web.packs_kept import PacksKept
from drawerwright.web.pages import bench as bench_page
from drawerwright.web.pages import bench_gaps as bench_gaps_page
from drawerwright.web.pages import cabinets as cabinets_page
from drawerwright.web.pages import choice as choice_page
from drawerwright.web.pages import compare as compare_page
from drawerwright.web.pages import conflict as conflict_page
from drawerwright.web.pages import device_name as device_name_page
from drawerwright.web.pages import drawer as drawer_page
from drawerwright.web.pages import export as export_page
from drawerwright.web.pages import family_form as family_form_page
from drawerwright.web.pages import family_history as family_history_page
from drawerwright.web.pages import history as history_page
from drawerwright.web.pages import job as job_page
from drawerwright.web.pages import jobs as jobs_page
from drawerwright.web.pages import papers as papers_page
from drawerwright.web.pages import quick as quick_page
from drawerwright.web.pages import seasons as seasons_page
from drawerwright.web.pages import slides as slides_pages
from drawerwright.web.pages import taken_slides as taken_slides_page
from drawerwright.web.settings import Settings

API_ROUTERS: tuple[APIRouter, ...] = (
    align.router,
    bench.router,
    carry.router,
    compare.router,
    drawers.router,
    files.router,
    fit.router,
    jobs.router,
    pack.router,
    quick.router,
    revisions.router,
    season.router,
    slides.router,
    taken_slides.router,
)
PAGE_ROUTERS: tuple[APIRouter, ...] = (
    cabinets_page.router,
    bench_gaps_page.router,
    bench_page.router,
    choice_page.router,
    compare_page.router,
    conflict_page.router,
    device_name_page.router,
    drawer_page.router,
    export_page.router,
    family_form_page.router,
    family_history_page.router,
    history_page.router,
    jobs_page.router,
    job_page.router,
    quick_page.router,
    papers_page.router,
    seasons_page.router,
    slides_pages.router,
    statics.router,
    taken_slides_page.router,
)


def create_app(settings: Settings | None = None, *, store: Store | None = None) -> FastAPI:
    """The web application. `store`: one that is open already and stays so; else the settings' is opened.

    Raises InputError where the store cannot be opened.
    """
    told = settings or Settings()
    kept = store or open_store(told.store)
    packs = PacksKept(told.cache_folder / "packs")
    offer(told.slides)

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        yield
        packs.close()
        if store is None:
            kept.close()

    app = FastAPI(
        title="Drawerwright",
        version=__version__,
        summary="How concealed drawer slides fit measured cabinet openings.",
        docs_url=None,
        redoc_url=None,
        lifespan=lifespan,
    )
    app.state.store = kept
    app.state.settings = told
    app.state.packs = packs
    for router in API_ROUTERS:
        app.include_router(router, prefix="/api/v1", dependencies=[Depends(check_query)])
    for router in PAGE_ROUTERS:
        app.include_router(router)
    app.mount("/static", statics.static_files(), name="static")
    add_fault_handlers(app)
    add_openapi(app)
    app.add_middleware(ForOtherMachines)
    app.add_middleware(HeadAsGet)
    app.add_middleware(
        Guard,
        hosts=told.hosts,
        body_cap=told.body_cap,
        broken=broken,
        too_large=too_large,
        by_address=told.open,
    )
    return app


def from_environment() -> FastAPI:
    """The application as a worker process makes it: its settings come from the environment."""
    made = create_app(Settings.from_environment())
    # What the program is made of is no garbage: a collection that looks through it all holds an answer up
    # by tens of milliseconds.
    gc.collect()
    gc.freeze()
    return made
