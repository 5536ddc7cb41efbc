"""Paper templates: what is bored, at true size, to be laid on the work and pricked through.

One module a template, each a function from a fitted drawer to a scene. `ids` names the drawers it is for,
by default the drawer's own; `units` says how lengths are written, the geometry is mm.
"""

from drawerwright.drawing.templates.box_back import box_back
from drawerwright.drawing.templates.every import templates
from drawerwright.drawing.templates.front_fixing import front_fixing
from drawerwright.drawing.templates.locking_bracket import locking_bracket
from drawerwright.drawing.templates.row_holes import row_holes

__all__ = ["box_back", "front_fixing", "locking_bracket", "row_holes", "templates"]
