"""Slide families, published loads and board densities: data, with its sources, and its readers."""

from drawerwright.catalogue.boards import Board, board, boards, box_board, front_board
from drawerwright.catalogue.contents import (
    ContentsPreset,
    contents_preset,
    contents_preset_ids,
    contents_presets,
)
from drawerwright.catalogue.families import (
    SHIPPED,
    families_from_mappings,
    family_named,
    load_families,
)
from drawerwright.catalogue.family_check import Remark, check_family

__all__ = [
    "SHIPPED",
    "Board",
    "ContentsPreset",
    "Remark",
    "board",
    "boards",
    "box_board",
    "check_family",
    "contents_preset",
    "contents_preset_ids",
    "contents_presets",
    "families_from_mappings",
    "family_named",
    "front_board",
    "load_families",
]
