"""What was measured and told, as it stands in the strip at the head of a drawer's page."""

from __future__ import annotations

from drawerwright.drawing.wording import shown_length
from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.job import Drawer, Readings
from drawerwright.pack.across import frame_proof_text, used_width_text
from drawerwright.pack.bores import mount_words
from drawerwright.pack.figures import inches, length_text, mass_text, mass_unit, thick_text
from drawerwright.pack.shown import Shown
from drawerwright.units import is_just_inches

BOTTOM_WORDS = {
    "groove-4": "bottom grooved all round",
    "groove-3": "back stands on the bottom",
    "under": "bottom under the box",
}


def readings_text(readings: Readings, shown: Shown) -> str:
    """All readings in the order told, with their places where they have any; repeats are told once."""
    if readings.labels is None:
        return ", ".join(dict.fromkeys(_bare(value, shown) for value in readings.values))
    return ", ".join(
        f"{label.replace('_', ' ')} {_bare(value, shown)}"
        for label, value in zip(readings.labels, readings.values, strict=True)
    )


def _bare(value: float, shown: Shown) -> str:
    return inches(value, shown) if shown.in_inches else shown_length(value, 3)


def _field(name: str, readings: Readings, shown: Shown) -> dict[str, str]:
    """A field's big value, and after it in small the unit, with the inches where both are wanted."""
    unit = "in" if shown.in_inches else "mm"
    if shown.both:
        unit = f"mm ({', '.join(dict.fromkeys(inches(value, shown) for value in readings.values))} in)"
    return {"name": name, "value": readings_text(readings, shown), "unit": unit}


def _sides(thickness: float, shown: Shown) -> dict[str, str]:
    """The sides' thickness, which is in mm where it is no fraction of an inch."""
    if not shown.with_inches or is_just_inches(thickness):
        return _field("Sides", Readings((thickness,)), shown)
    return {"name": "Sides", "value": shown_length(thickness, 3), "unit": "mm"}


def measured_fields(fitted: FittedDrawer, shown: Shown) -> list[dict[str, str]]:
    """Name, value and unit of each field of the strip."""
    opening = fitted.drawer.opening
    contents = fitted.mass.contents if fitted.mass is not None else fitted.drawer.contents.mass
    return [
        _field("Opening width", opening.width, shown),
        _field("Height", opening.height, shown),
        _field("Depth", opening.depth, shown),
        _sides(fitted.drawer.side, shown),
        {"name": "Contents", "value": mass_text(contents, shown), "unit": mass_unit(shown)},
    ]


def also_told(fitted: FittedDrawer, shown: Shown) -> list[str]:
    """Three or four short lines: the width as it is used, construction and mount, front, box."""
    drawer = fitted.drawer
    mount = mount_words(fitted)
    used = used_width_text(fitted, shown)
    return [
        *([used] if used else []),
        f"{drawer.construction.replace('-', ' ')}{_frame(fitted, shown)}" + (f", {mount}" if mount else ""),
        _front(drawer, shown),
        f"{drawer.box.joint} joints, {BOTTOM_WORDS[drawer.box.bottom]}",
    ]


def _frame(fitted: FittedDrawer, shown: Shown) -> str:
    frame = fitted.drawer.frame_in_use
    if frame is None:
        return ""
    left, right, proof = (
        length_text(frame.left, shown),
        length_text(frame.right, shown),
        frame_proof_text(fitted),
    )
    return f" standing in {left} left, {right} right" + (f" ({proof})" if proof else "")


def _front(drawer: Drawer, shown: Shown) -> str:
    subfront = f"subfront {thick_text(drawer.subfront_thickness, shown)}"
    if drawer.front.style == "none":
        return f"no front, {subfront}"
    kind = "integral " if drawer.box.front == "integral" else ""
    front = f"{kind}{drawer.front.style} front {thick_text(drawer.front.thickness, shown)}"
    return front if drawer.box.front == "integral" else f"{front}, {subfront}"
