"""What a drawer's slide does, in groups of names and figures: load, sag, forces, closing, racking, bottom."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any, Final

from drawerwright.carry.carried import CarriedDrawer, Slide
from drawerwright.carry.closing import Closing, Homeward
from drawerwright.carry.words import Words
from drawerwright.pack.carry_figures import capacity_name
from drawerwright.pack.lettering import for_sheets

Row = tuple[str, str]

SAG_SHARES: Final = (
    ("Cabinet member", "cabinet_sag"),
    ("Intermediate member", "intermediate_sag"),
    ("Drawer member", "drawer_sag"),
    ("Rollers", "roller_sag"),
    ("Play", "play_sag"),
    ("Fixings", "mount_sag"),
)
"""What makes up the sag, and where it stands."""
FIXING_NAMES: Final = {
    "screw-front": "Front, each of",
    "screw-bracket": "Locking bracket, each of",
    "screw-mount": "Cabinet member, rearmost of",
}
UPRIGHT: Final = 90.0
"""A lean [degrees] that says: however it leans."""


def row_groups(one: CarriedDrawer, words: Words) -> list[dict[str, Any]]:
    """Titled groups of rows; those that nothing is known of are left out.

    Of a drawer that fits nothing they are told as if it ran on the slide that came nearest.
    """
    groups: list[tuple[str, Sequence[Row]]] = [("May move, the least first", _capacities(one, words))]
    slide = one.figured
    if slide is not None:
        groups += [
            ("Sag at full out", _sag(slide, words)),
            ("Forces of one slide, fixings full out", [*_rollers(slide, words), *_screws(slide, words)]),
            ("Stress of the members at its most", _stresses(slide)),
            ("Closing", _closing(slide.closing, words)),
            ("Racking by play", _racking(slide, words)),
            ("Bottom under its contents", _bottom(slide, words)),
            ("Screws: pull, and how often it is held", _fixings(slide, words)),
            ("Drawn against its stop", _slam(slide, words)),
            ("Shelf, if it lies loose", _shelf(slide, words)),
        ]
    return [
        {
            "kind": "working",
            "title": title,
            "rows": [{"title": for_sheets(name), "figures": for_sheets(value)} for name, value in rows],
        }
        for title, rows in groups
        if rows
    ]


def _capacities(one: CarriedDrawer, words: Words) -> list[Row]:
    return [
        (_capitalised(capacity_name(each)), words.mass(each.moving))
        for each in sorted(one.capacities, key=lambda each: each.moving)
    ]


def _sag(slide: Slide, words: Words) -> list[Row]:
    if not slide.data.has_sag:
        return []
    rows = [(name, words.length(float(getattr(slide.drawn, key)[-1]), 2)) for name, key in SAG_SHARES]
    return [*rows, ("Together", words.length(float(slide.drawn.sag[-1]), 2))]


def _rollers(slide: Slide, words: Words) -> Iterator[Row]:
    rollers = slide.rollers
    if rollers is None:
        return
    group = rollers.group.replace("_", " ")
    yield f"Most, {group}, {words.length(rollers.at)} out", words.force(rollers.largest)
    if rollers.each is not None:
        yield "Of it on each roller", words.force(rollers.each)
    for name, lifts in (("Lower", rollers.lifts_lower), ("Upper", rollers.lifts_upper)):
        if lifts is not None:
            yield f"{name} rear lifts beyond", words.length(lifts)
    yield "Rail left beyond the rollers", words.length(rollers.room)


def _screws(slide: Slide, words: Words) -> Iterator[Row]:
    if slide.data.has_screws:
        for name, forces in (("Rearmost", slide.drawn.screw_rear), ("Foremost", slide.drawn.screw_front)):
            yield f"{name} fixing", screw_words(float(forces[-1]), words)


def screw_words(force: float, words: Words) -> str:
    """What a fixing of the cabinet member gets [N]; a negative force pulls it out of its seat."""
    return f"{'pulled' if force < 0.0 else 'pressed'}, {words.force(abs(force))}"


def _stresses(slide: Slide) -> list[Row]:
    return [
        (
            f"{_capitalised(one.section.member)} member{', cold-worked' if one.section.cold_worked else ''}",
            f"{one.stress:.0f} of {one.yields:.0f} N/mm²",
        )
        for one in slide.stresses
    ]


def _closing(closing: Closing | None, words: Words) -> list[Row]:
    if closing is None:
        return []
    caught = min(closing.capture, closing.travel)
    return [
        (f"Let go {words.length(caught)} from home", ends_words(closing.let_go, words)),
        (f"Pushed at {words.speed(closing.push)}", ends_words(closing.pushed, words)),
        *(
            ()
            if closing.pushed.slam_speed is None
            else (("It then meets home at", words.speed(closing.pushed.slam_speed)),)
        ),
        (
            "Least push that closes it",
            "none: it would not stay" if closing.least_push is None else words.speed(closing.least_push),
        ),
        ("Drawn home up to a lean of", lean_words(closing.limit_tilt)),
        ("Opening pulls at most", words.force(closing.opening_force)),
    ]


def lean_words(lean: float) -> str:
    """Up to which lean to the front [degrees] a drawer at rest in its unit is drawn home."""
    if lean >= UPRIGHT:
        return "any lean"
    return f"{lean:.1f}°" if lean >= 0.0 else "none, only leaning back"


def ends_words(run: Homeward, words: Words) -> str:
    """How one run ends."""
    if run.closes:
        return f"shut in {run.time:.1f} s"
    if run.outcome == "open":
        return "rolls open"
    assert run.stall_at is not None
    return f"stays {words.length(run.stall_at)} open"


def _racking(slide: Slide, words: Words) -> list[Row]:
    racking = slide.racking
    if racking is None:
        return []
    gap = words.length(racking.side_gap)
    return [
        ("Turns, seen from above", f"{racking.yaw_deg:.2f}°".replace("-", "−")),
        (f"Ends swing, of a gap of {gap}", words.length(racking.sideways, 2)),
        ("One side stands higher by", words.length(racking.lifted, 2)),
        ("Width to length", f"{racking.ratio:.2f} of {racking.allowed_ratio:g}"),
        *((("Stabiliser", "fitted"),) if racking.stabiliser else ()),
        *((("Stabiliser", "due"),) if racking.stabiliser_due else ()),
    ]


def _bottom(slide: Slide, words: Words) -> list[Row]:
    bottom = slide.bottom
    if bottom is None:
        return []
    rows = [
        ("Sags, edges held fast", words.length(bottom.clamped)),
        ("Sags, edges free to turn", words.length(bottom.supported)),
        ("Above the sides' lower edge", words.length(bottom.recess)),
    ]
    stress = max(bottom.supported_stress, bottom.clamped_stress)
    if bottom.stock.rupture is not None:
        rows.append(("Stress", f"{stress:.1f} of {bottom.stock.rupture:.1f} N/mm²"))
    return rows


def _fixings(slide: Slide, words: Words) -> list[Row]:
    rows = []
    for each in slide.fixings:
        name = FIXING_NAMES[each.id].removesuffix(" of" if each.count == 1 else "")
        count = f" {each.count}" if each.count > 1 else ""
        times = "" if each.ratio is None else f", {each.ratio:.1f} ×"
        rows.append((f"{name}{count}", f"{words.force(each.pull)}{times}"))
    return rows


def _slam(slide: Slide, words: Words) -> list[Row]:
    slam = slide.slam
    return [
        (f"From {words.speed(slam.speed)} within {words.length(slam.give)}", f"{slam.deceleration:.1f} g"),
        ("Force along one slide", words.force(slam.force)),
        *(
            (f"{name} front rollers", words.force(force))
            for name, force in (("Upper", slam.upper_front), ("Lower", slam.lower_front))
            if force is not None
        ),
    ]


def _shelf(slide: Slide, words: Words) -> list[Row]:
    shelf = slide.shelf
    if shelf is None:
        return []
    fixed = {True: "screwed or locked down", False: "loose", None: "not told"}[shelf.fixed]
    return [("Its rear lifts from a moving mass of", words.mass(shelf.lifts_at)), ("It is", fixed)]


def _capitalised(text: str) -> str:
    return text[:1].upper() + text[1:]
