"""What the parts of a drawer are made of, and how their thicknesses stand to what is bought."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from drawerwright.catalogue.materials import Material, Materials, material_named
from drawerwright.model.job import Drawer
from drawerwright.units import ShownUnits, format_length

Part = Literal["side", "subfront", "back", "bottom", "front"]

_THICKNESS: Final[Mapping[Part, Callable[[Drawer], float]]] = {
    "side": lambda drawer: drawer.side,
    "subfront": lambda drawer: drawer.subfront_thickness,
    "back": lambda drawer: drawer.back_thickness,
    "bottom": lambda drawer: drawer.box.bottom_thickness,
    "front": lambda drawer: drawer.front.thickness,
}
_SAME: Final = 1e-6


@dataclass(frozen=True, slots=True)
class ThicknessNote:
    """What papers say of the thickness [mm] of a part that names its material.

    `assumed`: it is the one that the material is bought in, so nobody need have measured it.
    """

    part: Part
    material: Material
    thickness: float
    assumed: bool
    says: str


def material_of(drawer: Drawer, part: Part, materials: Materials | None = None) -> Material | None:
    """The material of a part; None when the job names none.

    A subfront or a back whose thickness goes with the sides' is of their material too. `materials`: those
    that the job was read with. Raises InputError when the name stands for none of them.
    """
    name = getattr(drawer.materials, part)
    as_side = {"subfront": drawer.subfront is None, "back": drawer.box.back is None}
    if name is None and as_side.get(part, False):
        name = drawer.materials.side
    where = f"drawer {drawer.id} materials.{part}"
    return None if name is None else material_named(name, materials, where=where)


def thickness_notes(
    drawer: Drawer, units: ShownUnits = "mm", materials: Materials | None = None
) -> tuple[ThicknessNote, ...]:
    """A note on every part whose own material is named, in the order side, subfront, back, bottom, front.

    Raises InputError when a name stands for no material.
    """
    notes: list[ThicknessNote] = []
    for part, thickness_of in _THICKNESS.items():
        if getattr(drawer.materials, part) is None:
            continue
        material = material_of(drawer, part, materials)
        if material is not None:
            notes.append(_note(part, material, thickness_of(drawer), units))
    return tuple(notes)


def _note(part: Part, material: Material, thickness: float, units: ShownUnits) -> ThicknessNote:
    assumed = abs(thickness - material.thickness) < _SAME
    if assumed:
        return ThicknessNote(part, material, thickness, True, material.caution(units))
    says = f"{material.id}: {format_length(thickness, units)} as measured"
    if material.lowest is not None and material.highest is not None:
        low, high = (format_length(one, units) for one in (material.lowest, material.highest))
        if not material.lowest - _SAME <= thickness <= material.highest + _SAME:
            says += f", outside {low} to {high}, in which it commonly lies: measure it again"
    return ThicknessNote(part, material, thickness, False, says)
