"""Drawings written into a folder that a command was given, one file each, beside and then renamed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TypeVar

from drawerwright.drawing.scene import Scene
from drawerwright.drawing.svg import write_svg
from drawerwright.errors import Fault, InputError
from drawerwright.pack.filenames import TakenStems

Key = TypeVar("Key", bound=tuple[str, ...])


def write_drawings_out(drawings: Mapping[Key, Callable[[], Scene]], out: Path) -> dict[Key, str]:
    """An SVG of each drawing in the folder `out`, which is made if need be; none is drawn before its turn.

    The keys are a drawer's id, and the kind of drawing where a drawer has several. File names, `ID-kind.svg`,
    by the same. Raises InputError where something stands there under such a name.
    """
    stems = TakenStems()
    names = {key: f"{stems.take(*key)}.svg" for key in drawings}
    if out.exists() and not out.is_dir():
        raise InputError([Fault(str(out), "", "is a file: a folder is wanted", f"{out}-drawings")])
    there = [out / name for name in names.values() if (out / name).exists()]
    if there:
        says = "is there already, and is left as it is"
        raise InputError([Fault(str(path), "", says, "another folder") for path in there])
    out.mkdir(parents=True, exist_ok=True)
    for key, draw in drawings.items():
        path = out / names[key]
        beside = path.with_name(f".{path.name}.part")
        try:
            beside.write_text(write_svg(draw()), encoding="utf-8", newline="\n")
            beside.replace(path)
        finally:
            beside.unlink(missing_ok=True)
    return names
