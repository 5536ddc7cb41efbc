"""What was measured and told, as it stands in the strip at the head of a drawer's page."""

from __future__ import annotations

from drawerwright.model.fitted import FittedDrawer
from drawerwright.model.job import Drawer, Readings
from drawerwright.pack.bores import mount_words
from drawerwright.pack.figures import kilograms, length_text
from drawerwright.units import ShownUnits

BOTTOM_WORDS = {
    "groove-4": "bottom grooved all round",
    "groove-3": "back stands on the bottom",
    "under": "bottom under the box",
}


def readings_text(readings: Readings, units: ShownUnits) -> str:
    """All readings in the order told, with their places where they have any; repeats are told once."""
    if readings.labels is None:
        return ", ".join(dict.fromkeys(length_text(value, units) for value in readings.values))
    return ", ".join(
        f"{label.replace('_', ' ')} {length_text(value, units)}"
        for label, value in zip(readings.labels, readings.values, strict=True)
    )


def measured_fields(fitted: FittedDrawer, units: ShownUnits) -> list[dict[str, str]]:
    """Name, value and unit of each field of the strip."""
    drawer = fitted.drawer
    unit = "in" if units == "in" else "mm"
    fields = [
        ("Opening width", readings_text(drawer.opening.width, units), unit),
        ("Height", readings_text(drawer.opening.height, units), unit),
        ("Depth", readings_text(drawer.opening.depth, units), unit),
        ("Sides", length_text(drawer.side, units), unit),
    ]
    contents = fitted.mass.contents if fitted.mass is not None else drawer.contents.mass
    fields.append(("Contents", kilograms(contents), "kg"))
    shown_unit = units != "in"
    return [
        {"name": name, "value": value, "unit": of if of == "kg" or shown_unit else ""} for name, value, of in fields
    ]


def also_told(fitted: FittedDrawer, units: ShownUnits) -> list[str]:
    """Two or three short lines: construction and mount, front, box."""
    drawer = fitted.drawer
    mount = mount_words(fitted)
    return [
        f"{drawer.construction.replace('-', ' ')}{_frame(drawer, units)}" + (f", {mount}" if mount else ""),
        _front(drawer, units),
        f"{drawer.box.joint} joints, {BOTTOM_WORDS[drawer.box.bottom]}",
    ]


def _frame(drawer: Drawer, units: ShownUnits) -> str:
    if drawer.frame is None:
        return ""
    left, right = length_text(drawer.frame.left, units), length_text(drawer.frame.right, units)
    return f" {left} left, {right} right"


def _front(drawer: Drawer, units: ShownUnits) -> str:
    subfront = f"subfront {length_text(drawer.subfront_thickness, units)}"
    if drawer.front.style == "none":
        return f"no front, {subfront}"
    kind = "integral " if drawer.box.front == "integral" else ""
    front = f"{kind}{drawer.front.style} front {length_text(drawer.front.thickness, units)}"
    return front if drawer.box.front == "integral" else f"{front}, {subfront}"
