"""An example for every route, made of the demo job, which is invented; ids and moments in it are made up."""

from __future__ import annotations

from copy import deepcopy
from typing import Any, Final

from drawerwright.align.season_document import season_document
from drawerwright.catalogue.families import family_named, load_families
from drawerwright.catalogue.family_check import check_family
from drawerwright.files.gaps import gaps_of_mappings
from drawerwright.fit import fit_document, fit_job
from drawerwright.fit.compare import compare_slides
from drawerwright.fit.compare_document import compare_document
from drawerwright.model.fitted import FittedJob
from drawerwright.web.demo_job import demo_cabinet
from drawerwright.web.fitting import answer_values, read_values
from drawerwright.web.quick_job import EXAMPLE, read_question
from drawerwright.web.season.asked import read_season

Example = dict[str, Any]
"""Keys `path`, `body`, `answer`."""

_AT: Final = "2026-03-02T10:15:00.000Z"
_LATER: Final = "2026-03-02T10:20:00.000Z"
_COMPARED: Final = ("house-16", "three-quarter-16")
_JOB: Final = "7"
_DRAWER: Final = "K1-1"
_READINGS: Final = {"left_top": 3, "left_bottom": 2.5, "right_top": 3, "right_bottom": 3.5}


def examples() -> dict[str, Example]:
    """Examples by the name of the operation."""
    values = demo_cabinet()
    return {
        **_fits(values),
        **_studies(values),
        **_slides(),
        **_jobs(values),
        **_drawers(values),
        **_history(values),
        **_taken_slides(),
        **_bench(),
        **_packs(),
    }


def _fits(values: dict[str, Any]) -> dict[str, Example]:
    job, families = read_values(values), load_families(None)
    fitted = fit_document(fit_job(job, families, units=job.units))
    question = read_question(EXAMPLE.items())
    quick = fit_document(answer_values(question.values, families).fitted_job(""))
    compared = compare_document(compare_slides(job, families, _COMPARED))
    asked = read_values(question.values)
    beside = compare_document(compare_slides(asked, families, _COMPARED))
    return {
        "fit": {"body": {"job": values}, "answer": fitted},
        "compare": {"body": {"job": values, "compare": list(_COMPARED)}, "answer": compared},
        "compare_in_address": {"answer": beside},
        "quick": {"answer": quick},
    }


def _studies(values: dict[str, Any]) -> dict[str, Example]:
    from drawerwright.align import align_document, align_job
    from drawerwright.carry import carry_document, carry_job

    job, families = read_values(values), load_families(None)
    fitted = fit_job(job, families, units=job.units)
    quick = answer_values(read_question(EXAMPLE.items()).values, families).fitted_job("")
    carried = carry_document(carry_job(fitted, only=_DRAWER, positions=3, where=""))
    row = {"drawer": _DRAWER, **_READINGS}
    aligned = align_document(align_job(fitted, gaps_of_mappings([row])))
    body = {"job": values, "drawer": _DRAWER, "positions": 3}
    return {
        "carry": {"body": body, "answer": carried},
        "carry_job": {"path": {"job": _JOB, "drawer": _DRAWER, "positions": 3}, "answer": carried},
        "carry_quick": {
            "answer": carry_document(carry_job(quick, tilt_deg=1.0, off_centre=40.0, sag_limit=4.0, where=""))
        },
        "align": {"body": {"job": values, "gaps": [row]}, "answer": aligned},
        "align_job": {"path": {"job": _JOB}, "answer": aligned},
        **_seasons(values, fitted),
    }


def _seasons(values: dict[str, Any], fitted: FittedJob) -> dict[str, Example]:
    told = {"species": "black cherry", "wet": "24C/60", "drawer": _DRAWER}
    asked = read_season(told, "mm", [], settled=True)
    assert asked is not None
    found = season_document(asked.seasons(fitted, only=_DRAWER))
    return {
        "season": {"body": {"job": values, **told}, "answer": found},
        "season_job": {"path": {"job": _JOB, **told}, "answer": found},
    }


def _slides() -> dict[str, Example]:
    family = family_named(load_families(None), _COMPARED[0])
    listed = family.model_dump(mode="json", by_alias=True)
    own = {key: one for key, one in listed.items() if one is not None} | {
        "id": "shop-16",
        "title": "Shop 16 (invented)",
    }
    stored = _revision("shop-16", 1, "begun", own)
    remarks = [one.as_json() for one in check_family(family)]
    path = {"slide": "shop-16"}
    return {
        "slides": {"answer": {"schema": "drawerwright/slides/1", "families": [listed], "own": []}},
        "slide": {
            "path": {"slide": family.id},
            "answer": {"schema": "drawerwright/slides-show/1", "family": listed, "stored": None},
        },
        "check_slides": {
            "body": {"slides": [own]},
            "answer": {
                "schema": "drawerwright/slides-check/1",
                "families": [{"id": "shop-16", "remarks": remarks}],
            },
        },
        "save_slide": {"path": path, "body": {"values": own, "by": "Workshop"}, "answer": stored},
        "bin_slide": {"path": path, "answer": {"done": "family shop-16 is in the bin"}},
        "restore_slide": {"path": path, "answer": stored},
        "slide_revisions": {"path": path, "answer": _revisions("begun")},
        "undo_slide": {"path": path, "body": {"based_on": 2}, "answer": stored},
        "redo_slide": {"path": path, "body": {"based_on": 3}, "answer": stored},
        "slide_difference": {
            "path": {**path, "from": 1, "to": 2},
            "answer": _difference("", "min_gap", {"key": "", "old": 4.5, "new": 5}),
        },
    }


def _jobs(values: dict[str, Any]) -> dict[str, Example]:
    path = {"job": _JOB}
    stored = _revision(_JOB, 1, "begun", values)
    fitted = _fits(values)["fit"]["answer"]
    card = {
        "id": _JOB,
        "title": values["title"],
        "units": "mm",
        "drawers": len(values["drawer"]),
        "revision": 1,
        "saved_at": _AT,
        "by": "Workshop",
        "binned_at": None,
    }
    drawers = [{"id": one["id"], "fit": one, "errors": [], "waits": False} for one in fitted["drawers"]]
    return {
        "jobs": {"answer": {"schema": "drawerwright/jobs/1", "jobs": [card]}},
        "create_job": {"body": {"values": values, "by": "Workshop"}, "answer": stored},
        "job": {"path": path, "answer": stored},
        "save_job": {
            "path": path,
            "body": {"values": values, "based_on": 1},
            "answer": {**stored, "revision": 2, "what": "changed title", "can_undo": True},
        },
        "bin_job": {"path": path, "answer": {"done": f"job {_JOB} is in the bin"}},
        "restore_job": {"path": path, "answer": stored},
        "fit_job": {"path": path, "answer": fitted},
        "answers": {
            "path": path,
            "answer": {
                "schema": "drawerwright/answers/1",
                "job": _JOB,
                "revision": 1,
                "drawers": drawers,
                "errors": [],
            },
        },
        "import_job": {"answer": {**stored, "what": "imported from a TOML file", "remarks": []}},
        "export_job": {"path": {**path, "ending": "toml"}},
    }


def _drawers(values: dict[str, Any]) -> dict[str, Example]:
    path = {"job": _JOB, "drawer": _DRAWER}
    drawer = values["drawer"][0]
    stored = _revision(_JOB, 2, "changed drawer K1-1: contents", values)
    told = {
        "schema": "drawerwright/drawer/1",
        "job": _JOB,
        "revision": 2,
        "how": "saved",
        "id": _DRAWER,
        "values": drawer,
        "fit": _fits(values)["fit"]["answer"]["drawers"][0],
        "errors": [],
        "waits": False,
    }
    another = {**deepcopy(drawer), "id": "K1-5", "row": 5}
    return {
        "drawer": {"path": path, "answer": told},
        "save_drawer": {"path": path, "body": {"values": drawer, "based_on": 1}, "answer": told},
        "remove_drawer": {"path": {**path, "based_on": 2}, "answer": stored},
        "add_drawers": {
            "path": {"job": _JOB},
            "body": {"drawers": [another], "after": _DRAWER, "based_on": 2},
            "answer": stored,
        },
        "order_drawers": {
            "path": {"job": _JOB},
            "body": {"order": [one["id"] for one in reversed(values["drawer"])], "based_on": 2},
            "answer": stored,
        },
    }


def _taken_slides() -> dict[str, Example]:
    """An invented family of 19 mm sides that came after the job."""
    path, seen = {"job": _JOB}, "5f1d7a84db00d2fce00b31a7fc73224f"
    before = {"family": "house-16", "nominal": 500.0, "mount": "side"}
    box = {"outside_width": 554.0, "height": 179.0, "length": 500.0}
    change = {
        "drawer": _DRAWER,
        "before": {**before, "box": box},
        "now": {**before, "family": "mine-19", "box": {**box, "outside_width": 547.0}},
        "figures": [],
    }
    since = {"schema": "drawerwright/slides-since/1", "revision": 2, "seen": seen}
    written = {"schema": "drawerwright/slides-written/1", "revision": 3, "written": [_DRAWER], "not_kept": []}
    return {
        "slides_since": {"path": path, "answer": {**since, "drawers": [change], "gone": []}},
        "keep_slides": {"path": path, "body": {"by": "Ann"}, "answer": written},
        "hold_slides": {"path": path, "body": {"by": "Ann"}, "answer": written},
        "take_slides": {
            "path": path,
            "body": {"seen": seen, "by": "Ann"},
            "answer": {**written, "written": []},
        },
    }


def _history(values: dict[str, Any]) -> dict[str, Example]:
    path = {"job": _JOB}
    back = {**_revision(_JOB, 3, "taken back: changed drawer K1-1: contents", values), "how": "undo"}
    change = {"key": "contents", "old": "22 kg", "new": "25 kg"}
    return {
        "revisions": {"path": path, "answer": _revisions("changed drawer K1-1: contents", "begun")},
        "undo": {"path": path, "body": {"based_on": 2}, "answer": back},
        "redo": {"path": path, "body": {"based_on": 3}, "answer": {**back, "revision": 4, "how": "redo"}},
        "difference": {
            "path": {**path, "from": 1, "to": 2},
            "answer": _difference("drawer", _DRAWER, change),
        },
    }


def _bench() -> dict[str, Example]:
    path = {"job": _JOB}
    gap = {"id": 1, "drawer": _DRAWER, "readings": _READINGS, "saved_at": _AT, "by": "Fitter"}
    tick = {"drawer": _DRAWER, "step": "bore", "done": True, "at": _AT}
    ticks = {"schema": "drawerwright/ticks/1", "ticks": [{**tick, "by": "Fitter"}]}
    return {
        "gaps": {"path": path, "answer": {"schema": "drawerwright/gaps/1", "gaps": [gap]}},
        "add_gaps": {
            "path": path,
            "body": {"drawer": _DRAWER, "readings": _READINGS, "by": "Fitter"},
            "answer": gap,
        },
        "ticks": {"path": path, "answer": ticks},
        "set_ticks": {"path": path, "body": {"ticks": [tick], "by": "Fitter"}, "answer": ticks},
    }


def _packs() -> dict[str, Example]:
    path = {"job": _JOB}
    file = {"path": "cut-list.csv", "bytes": 13580, "sha256": "4d" * 32}
    manifest = {"schema": "drawerwright/pack/1", "title": "Seed library (invented)", "files": [file]}
    return {
        "pack": {"path": path},
        "pack_progress": {
            "path": path,
            "answer": 'data: {"step": "lists", "done": 3, "of": 41}\n\n'
            'data: {"ready": "/api/v1/jobs/7/pack?revision=1"}\n\n',
        },
        "pack_files": {"path": path, "answer": manifest},
        "pack_file": {"path": {**path, "path": file["path"]}},
    }


def _revision(name: str, number: int, what: str, values: dict[str, Any]) -> dict[str, Any]:
    return {
        "id": name,
        "revision": number,
        "how": "saved",
        "saved_at": _AT,
        "by": "Workshop",
        "what": what,
        "can_undo": number > 1,
        "can_redo": False,
        "binned_at": None,
        "values": values,
    }


def _revisions(*newest_first: str) -> dict[str, Any]:
    listed = []
    for at, what in enumerate(newest_first):
        number = len(newest_first) - at
        listed.append(
            {
                "revision": number,
                "how": "saved",
                "saved_at": _AT if number == 1 else _LATER,
                "by": "Workshop",
                "what": what,
                "based_on": number - 1 or None,
                "shows": number,
                "title": "Seed library (invented)",
                "units": "mm",
                "entries": 2,
            }
        )
    return {"schema": "drawerwright/revisions/1", "revisions": listed}


def _difference(kind: str, name: str, change: dict[str, Any]) -> dict[str, Any]:
    part = {"kind": kind, "id": name, "change": "changed", "keys": [change]}
    return {"schema": "drawerwright/difference/1", "old": 1, "new": 2, "parts": [part], "moved": {}}
