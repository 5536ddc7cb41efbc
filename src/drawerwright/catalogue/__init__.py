"""Slide families, materials, published loads and board densities: data, with sources, and its readers."""

from drawerwright.catalogue.boards import Board, board, boards, box_board, front_board
from drawerwright.catalogue.contents import (
    ContentsPreset,
    contents_preset,
    contents_preset_ids,
    contents_presets,
)
from drawerwright.catalogue.drawer_materials import ThicknessNote, material_of, thickness_notes
from drawerwright.catalogue.families import (
    SHIPPED,
    families_from_mappings,
    family_named,
    load_families,
)
from drawerwright.catalogue.family_check import check_family
from drawerwright.catalogue.family_remark import Remark
from drawerwright.catalogue.materials import (
    Material,
    Materials,
    density_of,
    load_materials,
    material_named,
    materials_from_mappings,
    shipped_materials,
)

__all__ = [
    "SHIPPED",
    "Board",
    "ContentsPreset",
    "Material",
    "Materials",
    "Remark",
    "ThicknessNote",
    "board",
    "boards",
    "box_board",
    "check_family",
    "contents_preset",
    "contents_preset_ids",
    "contents_presets",
    "density_of",
    "families_from_mappings",
    "family_named",
    "front_board",
    "load_families",
    "load_materials",
    "material_named",
    "material_of",
    "materials_from_mappings",
    "shipped_materials",
    "thickness_notes",
]
