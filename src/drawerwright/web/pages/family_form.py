"""A family's form: a new one, one changed, one copied or read from a file; checked while it is typed."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any, Final
from urllib.parse import urlencode

from fastapi import APIRouter, Request
from starlette.datastructures import FormData, UploadFile
from starlette.responses import RedirectResponse, Response

from drawerwright.catalogue.families import family_mappings
from drawerwright.catalogue.family_words import KeyWords, sections_of_family
from drawerwright.catalogue.family_writer import write_family_toml
from drawerwright.errors import Fault, InputError
from drawerwright.store import Conflict, NotInStore, Store
from drawerwright.web.device_name import name_told
from drawerwright.web.families import families_of
from drawerwright.web.family.checking import CheckedFamily, check_form, faults_of_values
from drawerwright.web.family.fields import TABLES, form_of, read_form, rows_of
from drawerwright.web.family.following import as_kept, followed, usual_for
from drawerwright.web.family.settling import FieldClash, put_together
from drawerwright.web.family.usual import choices
from drawerwright.web.faults import UNPROCESSABLE
from drawerwright.web.pages.forms import Form, store_of
from drawerwright.web.pages.slides import family_there
from drawerwright.web.render import page

router = APIRouter(include_in_schema=False)

SPARE_ROWS: Final = {"length": 2, "profile": 1, "evidence": 1}
"""Blank tables offered behind those that are told. Own choice."""
MORE_ROWS: Final = 4
"""Blank lengths that are added at once. Own choice."""
FILE_CAP: Final = 1_000_000
"""Largest family file that is read [bytes]: the shipped ones have 4,000. Own choice."""
MOST_TEXT: Final = 2_000
"""Longest text of one field. Own choice."""


@router.get("/slides/new")
def new_family(request: Request) -> Response:
    """A blank form, or one filled from the family that `from` names."""
    name = request.query_params.get("from", "")
    form: dict[str, str] = {}
    if name:
        form = {**_form_of_family(store_of(request), name), "id": _free_id(store_of(request), name)}
    return _page(request, form, title="A new family", copied=name)


@router.post("/slides/new")
def add_family(request: Request, form: Form) -> Response:
    """Keep a new family; the form again, with its faults, where it cannot be."""
    return _save(request, form, title="A new family", name=None)


@router.post("/slides/new/file")
def fill_from_file(request: Request, form: Form) -> Response:
    """The form filled from a family file that was sent, or from its text: nothing is kept yet."""
    try:
        values, others = _read_file(form)
    except InputError as error:
        return _page(request, {}, title="A new family", refused=error.faults)
    return _page(request, as_kept(form_of(values)), title="A new family", read=values, others=others)


@router.post("/slides/check")
def check_family_form(request: Request, form: Form) -> Response:
    """The faults and remarks of a form that is being typed, as a fragment."""
    checked = check_form(read_form(followed(_texts(form))))
    return page(request, "_family_checks.html", checked=checked)


@router.get("/slides/{name}/edit")
def edit_family(request: Request, name: str) -> Response:
    """The form of a family: the shop's own, or a shipped one that is to be changed.

    With `mine`, `theirs` and `base` in the address: two versions of it put together, to be settled.
    """
    store = store_of(request)
    told = request.query_params
    numbers = [told.get(key, "") for key in ("base", "mine", "theirs")]
    if all(one.isdecimal() and len(one) < 10 for one in numbers):
        base, mine, theirs = (store.family(name, int(one)).values for one in numbers)
        together, clashes = put_together(base, mine, theirs)
        return _page(
            request,
            as_kept(form_of(together)),
            title=f"Change {name}",
            name=name,
            based_on=int(numbers[2]),
            clashes=clashes,
        )
    revision = _own_revision(store, name)
    form = _form_of_family(store, name)
    return _page(request, form, title=f"Change {name}", name=name, based_on=revision)


@router.post("/slides/{name}/edit")
def save_family(request: Request, name: str, form: Form) -> Response:
    """Keep a changed family as a new revision; both versions where somebody changed it meanwhile."""
    return _save(request, form, title=f"Change {name}", name=name)


def _save(request: Request, form: FormData, *, title: str, name: str | None) -> Response:
    texts = _texts(form)
    based_on = _based_on(form)
    if "more" in form:
        return _page(request, texts, title=title, name=name, based_on=based_on, spare=MORE_ROWS)
    read = read_form(followed(texts))
    checked = check_form(read)
    faults = dict(checked.at_fields)
    store = store_of(request)
    if name is not None and read.values.get("id") != name:
        says = "is not the id of this family, which it keeps"
        faults["id"] = Fault(
            "id", str(read.values.get("id", "")), says, f"{name}, or a copy under another id"
        )
    if name is None and based_on is None and _own_revision(store, str(read.values.get("id"))) is not None:
        says = "is the id of a family of yours already"
        faults["id"] = Fault("id", str(read.values["id"]), says, _free_id(store, str(read.values["id"])))
    if not faults and not checked.others:
        try:
            what = str(form.get("what") or "")[:200]
            saved = store.save_family(read.values, based_on=based_on, by=name_told(request), what=what)
            return RedirectResponse(f"/slides/{saved.id}?saved=1", 303)
        except Conflict as conflict:
            told = {
                "base": conflict.base_revision,
                "mine": conflict.kept_revision,
                "theirs": conflict.theirs_revision,
            }
            return RedirectResponse(f"/slides/{read.values['id']}/edit?{urlencode(told)}", 303)
        except InputError as error:
            faults = {"id": error.faults[0]}
    told_wrong = CheckedFamily(None, faults, checked.others, checked.remarks)
    return _page(request, texts, title=title, name=name, based_on=based_on, checked=told_wrong)


def _page(
    request: Request,
    form: Mapping[str, str],
    *,
    title: str,
    name: str | None = None,
    based_on: int | None = None,
    checked: CheckedFamily | None = None,
    clashes: tuple[FieldClash, ...] = (),
    refused: tuple[Fault, ...] = (),
    copied: str = "",
    read: Mapping[str, Any] | None = None,
    others: tuple[str, ...] = (),
    spare: int = 0,
) -> Response:
    """The form. `checked`: what came of a save; a blank form is not scolded before anything is typed."""
    look = checked or (check_form(read_form(followed(form))) if form else None)
    if read is not None:  # a file may hold what no field can show: told, so that nothing goes unseen
        file = check_form(read_form(form_of(read)))
        look = CheckedFamily(file.family, file.at_fields, (*file.others, *_unseen(read)), file.remarks)
    status = UNPROCESSABLE if refused or (checked is not None and checked.faults) else 200
    return page(
        request,
        "family_form.html",
        status=409 if clashes else status,
        title=title,
        name=name,
        form=form,
        based_on=based_on,
        subjects=_subjects(form, spare),
        usual=usual_for(form),
        choices=choices(),
        checked=look,
        clashes={one.name: one for one in clashes},
        refused=refused,
        copied=copied,
        others=others,
        families=families_of(store_of(request)),
    )


def _subjects(form: Mapping[str, str], spare: int) -> list[dict[str, Any]]:
    """Each subject's own keys, and its lists of tables: columns, and how many rows are offered."""
    subjects = []
    for title, keys in sections_of_family().items():
        columns: dict[str, list[KeyWords]] = {}
        plain = []
        for key in keys:
            table, dot, _ = key.key.partition(".")
            if dot and table in TABLES:
                columns.setdefault(table, []).append(key)
            else:
                plain.append(key)
        tables = [
            {
                "name": table,
                "columns": found,
                "rows": rows_of(form, table) + SPARE_ROWS[table] + (spare if table == "length" else 0),
            }
            for table, found in columns.items()
        ]
        subjects.append({"title": title, "keys": plain, "tables": tables})
    return subjects


def _texts(form: FormData) -> dict[str, str]:
    """The texts of a form, the last of each name."""
    return {name: text[:MOST_TEXT] for name, text in form.multi_items() if isinstance(text, str)}


def _based_on(form: FormData) -> int | None:
    text = str(form.get("based_on") or "")
    return int(text) if text.isdecimal() and 0 < len(text) < 10 else None


def _own_revision(store: Store, name: str) -> int | None:
    """The newest revision of a family of the shop's own; None where it has none of that id."""
    try:
        kept = store.family(name)
    except NotInStore:
        return None
    return kept.revision if kept.binned_at is None else None


def _form_of_family(store: Store, name: str) -> dict[str, str]:
    """The fields of a family: as they were written where it is the shop's own. Raises NotInStore."""
    if _own_revision(store, name) is not None:
        return as_kept(form_of(store.family(name).values))
    return form_of(tomllib.loads(write_family_toml(family_there(store, name))))


def _free_id(store: Store, name: str) -> str:
    """An id that no family has, made of another."""
    taken = {family.id for family in families_of(store)} | {one.id for one in store.families(binned=True)}
    number = 2
    while f"{name}-{number}" in taken:
        number += 1
    return f"{name}-{number}"


def _read_file(form: FormData) -> tuple[Mapping[str, Any], tuple[str, ...]]:
    """The first family of a file that was sent or pasted, and the ids of the others. Raises InputError."""
    sent = form.get("file")
    content = sent.file.read(FILE_CAP + 1) if isinstance(sent, UploadFile) and sent.filename else b""
    content = content or str(form.get("text") or "").encode()
    if not content.strip():
        says = "holds nothing: no file was chosen, and no text pasted"
        raise InputError([Fault("the file", "", says, "a slide-family file")])
    if len(content) > FILE_CAP:
        says = f"bytes or more are beyond the {FILE_CAP} that are read"
        raise InputError([Fault("the file", str(len(content)), says, "a family file, some thousand bytes")])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        says = "is not text in UTF-8"
        raise InputError([Fault("the file", "", says, "the file saved again as UTF-8")]) from None
    families = family_mappings(text.replace("\r\n", "\n"), "the file")
    if not families:
        raise InputError([Fault("the file", "", "holds no family", 'id = "plain-16"')])
    return families[0], tuple(str(one.get("id", "")) for one in families[1:])


def _unseen(values: Mapping[str, Any]) -> tuple[Fault, ...]:
    """What a file told that the form cannot show: keys that are not known, values of another kind."""
    shown = read_form(form_of(values)).values
    here = {(fault.where, fault.value) for fault in faults_of_values(shown)}
    return tuple(fault for fault in faults_of_values(values) if (fault.where, fault.value) not in here)
