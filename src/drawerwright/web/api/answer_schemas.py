"""The schemas of what is answered: the keys that are always there; more may come with any release."""

from __future__ import annotations

from typing import Final

from drawerwright.web.api.schema_parts import (
    COUNT,
    MOMENT,
    NUMBER,
    STATE,
    TABLE,
    TEXT,
    TRUTH,
    VERDICT,
    Schema,
    answered,
    maybe,
    numbers,
    ref,
    some,
)

_REVISION_OF: Final[dict[str, Schema]] = {
    "id": TEXT,
    "revision": COUNT,
    "how": {"type": "string", "enum": ["saved", "merged", "undo", "redo", "kept"]},
    "saved_at": MOMENT,
    "by": TEXT,
    "what": TEXT,
    "can_undo": TRUTH,
    "can_redo": TRUTH,
    "binned_at": maybe(MOMENT),
    "values": TABLE,
}
_CHECK: Final = answered(
    "One check with its margin in its unit; below zero it stops.",
    id=TEXT,
    state=STATE,
    margin=NUMBER,
    unit=TEXT,
    says=TEXT,
    working=TEXT,
    source=TEXT,
)

_FITTED: Final = answered(
    "One drawer's answer; mm, kg. `slide` and `box` are null where it does not fit.",
    id=TEXT,
    verdict=VERDICT,
    slide=maybe(
        answered(
            "The pair of slides that is taken.",
            family=TEXT,
            nominal=NUMBER,
            mount=TEXT,
            spacers=answered("Spacers a bracket face.", side=some(NUMBER), subfront=some(NUMBER)),
        )
    ),
    latch=maybe(numbers("How far the bracket sits off its seat.", "side", "along")),
    box=maybe(numbers("The box.", "outside_width", "inside_width", "height", "length", "side", "side_gap")),
    mounting=maybe(TABLE),
    front=maybe(numbers("The applied front.", "width", "height", "stands_out")),
    parts=some(
        answered(
            "A part to cut.",
            part=TEXT,
            count=COUNT,
            length=NUMBER,
            width=NUMBER,
            thickness=NUMBER,
            grain=TEXT,
        )
    ),
    mass=maybe(numbers("Masses.", "box", "front", "hardware", "contents", "moving")),
    capacity=maybe(NUMBER),
    checks=some(ref("Check")),
    changes=some(answered("A smallest change that would do.", change=TEXT, by=NUMBER, unit=TEXT, says=TEXT)),
    rejected=some(
        answered(
            "A candidate that was stopped.",
            family=TEXT,
            nominal=NUMBER,
            mount=TEXT,
            because=TEXT,
            margin=NUMBER,
        )
    ),
)

ANSWERS: Final[dict[str, Schema]] = {
    "Fault": answered(
        "One thing wrong: where, what was found, what is wrong and allowed, what would do.",
        where=TEXT,
        value=TEXT,
        says=TEXT,
        **{"try": TEXT},
    ),
    "Errors": answered("Every fault of what was sent, together.", errors=some(ref("Fault"))),
    "Conflict": answered(
        "Both versions of what was changed on two sides.",
        errors=some(ref("Fault")),
        conflict=answered(
            "`mine` is kept as revision `kept_revision`; save what is wanted, based on `theirs_revision`.",
            base=TABLE,
            mine=TABLE,
            theirs=TABLE,
            base_revision=COUNT,
            kept_revision=COUNT,
            theirs_revision=COUNT,
            keys=some(TEXT),
            parts=some(TABLE),
        ),
    ),
    "Check": _CHECK,
    "FittedDrawer": _FITTED,
    "Fit": answered(
        "The document of `drawerwright fit --json`.",
        schema={"const": "drawerwright/fit/1"},
        title=TEXT,
        columns=some(TABLE),
        drawers=some(ref("FittedDrawer")),
    ),
    "Comparison": answered(
        "The document of `drawerwright fit --compare --json`.",
        schema={"const": "drawerwright/compare/1"},
        title=TEXT,
        slides=some(answered("A slide compared.", slide=TEXT, fitting=COUNT, cost=maybe(NUMBER))),
        drawers=some(answered("One drawer.", id=TEXT, answers=some(TABLE), differing=some(TABLE))),
    ),
    "Carried": answered(
        "The document of `drawerwright carry --json`; kg, mm, N.",
        schema={"const": "drawerwright/carry/1"},
        drawers=some(
            answered(
                "What one drawer carries; null where its slide's data are missing.",
                id=TEXT,
                load=maybe(NUMBER),
                capacity=maybe(NUMBER),
                limited_by=maybe(TEXT),
                slide=maybe(TABLE),
                nearest=maybe(TABLE),
                extension=some(NUMBER),
                sag=maybe(some(NUMBER)),
                reactions=answered(
                    "Forces of the roller groups of one slide, N.",
                    **dict.fromkeys(
                        ("upper_rear", "upper_front", "lower_rear", "lower_front"), maybe(some(NUMBER))
                    ),
                ),
                closing=maybe(TABLE),
                tipping=maybe(TABLE),
                checks=some(ref("Check")),
            )
        ),
    ),
    "CarriedComparison": answered(
        "The document of `drawerwright carry --compare --json`; kg, mm, N, °, s.",
        schema={"const": "drawerwright/carry-compare/1"},
        title=TEXT,
        slides=some(TEXT),
        drawers=some(
            answered(
                "One drawer on each slide: figures in the slides' order, and the whole answers.",
                id=TEXT,
                figures=some(
                    answered("A figure.", figure=TEXT, title=TEXT, unit=TEXT, values=some(maybe(NUMBER)))
                ),
                answers=some(TABLE),
            )
        ),
    ),
    "CarriedOrCompared": {"oneOf": [ref("Carried"), ref("CarriedComparison")]},
    "Aligned": answered(
        "The document of `drawerwright align --json`.",
        schema={"const": "drawerwright/align/1"},
        fronts=some(
            answered(
                "One front: how it stands, what to turn, what follows.",
                drawer=TEXT,
                pose=TABLE,
                moves=some(answered("A move.", side=TEXT, adjuster=TEXT, marks=NUMBER, mm=NUMBER, says=TEXT)),
                expected=TABLE,
                left_over=some(TABLE),
            )
        ),
    ),
    "Seasons": answered(
        "The document of `drawerwright season --json`; mm, °C, humidity 0 to 1, moisture in percent.",
        schema={"const": "drawerwright/season/1"},
        species=TEXT,
        cut=TEXT,
        across=TEXT,
        limit=NUMBER,
        settled=TRUTH,
        source=TEXT,
        moisture=TABLE,
        moisture_months=some(NUMBER),
        fronts=some(
            answered(
                "One front over the year.",
                drawer=TEXT,
                size=NUMBER,
                lacks=NUMBER,
                shift=NUMBER,
                grown=numbers("Its growth.", "today", "to_dry", "to_wet"),
                gaps=some(
                    answered(
                        "One gap: what to set today, the smallest and largest of the year, month by month.",
                        edge=TEXT,
                        set_today=NUMBER,
                        smallest=NUMBER,
                        largest=NUMBER,
                        as_cut=NUMBER,
                        months=some(NUMBER),
                    )
                ),
            )
        ),
    ),
    "Slides": answered("All slide families.", schema=TEXT, families=some(ref("SlideFamily")), own=some(TEXT)),
    "Slide": answered(
        "One family, and how it is kept.",
        schema=TEXT,
        family=ref("SlideFamily"),
        stored=maybe(ref("StoredSlide")),
    ),
    "SlidesCheck": answered(
        "What is odd in families that can be used.",
        schema=TEXT,
        families=some(answered("One family.", id=TEXT, remarks=some(TABLE))),
    ),
    "StoredSlide": answered("One revision of a family.", **_REVISION_OF),
    "StoredJob": answered("One revision of a job.", **_REVISION_OF),
    "ImportedJob": answered(
        "A job made of a file, and what its reader remarked.",
        **_REVISION_OF,
        remarks=some(answered("A remark.", where=TEXT, says=TEXT)),
    ),
    "Jobs": answered(
        "All jobs.",
        schema=TEXT,
        jobs=some(
            answered(
                "A job.",
                id=TEXT,
                title=TEXT,
                units=TEXT,
                drawers=COUNT,
                revision=COUNT,
                saved_at=MOMENT,
                by=TEXT,
                binned_at=maybe(MOMENT),
            )
        ),
    ),
    "Done": answered("What was done.", done=TEXT),
    "StoredDrawer": answered(
        "A drawer of a stored job, and its answer or its faults.",
        schema=TEXT,
        job=TEXT,
        revision=COUNT,
        id=TEXT,
        values=TABLE,
        fit=maybe(ref("FittedDrawer")),
        errors=some(ref("Fault")),
        waits=TRUTH,
    ),
    "Answers": answered(
        "Every drawer as far as it reads.",
        schema=TEXT,
        job=TEXT,
        revision=COUNT,
        drawers=some(
            answered(
                "A drawer.", id=TEXT, fit=maybe(ref("FittedDrawer")), errors=some(ref("Fault")), waits=TRUTH
            )
        ),
        errors=some(ref("Fault")),
    ),
    "Revisions": answered(
        "A history, the newest first.",
        schema=TEXT,
        revisions=some(
            answered(
                "A save.",
                revision=COUNT,
                how=_REVISION_OF["how"],
                saved_at=MOMENT,
                by=TEXT,
                what=TEXT,
                based_on=maybe(COUNT),
                shows=COUNT,
            )
        ),
    ),
    "SlidesSince": answered(
        "Drawers whose slides, or what is cut for them, changed since the slides of the job were taken.",
        schema=TEXT,
        revision=COUNT,
        seen={
            **maybe(TEXT),
            "description": "Stands for the families of now; null where all are those of then.",
        },
        drawers=some(
            answered(
                "A drawer: slide and box before and now, and what changed in the data of a slide that stays.",
                drawer=TEXT,
                before=maybe(TABLE),
                now=maybe(TABLE),
                figures=some(TABLE),
            )
        ),
        gone={**some(TEXT), "description": "Families that were deleted for good."},
    ),
    "SlidesWritten": answered(
        "What was written into the job.",
        schema=TEXT,
        revision=COUNT,
        written={**some(TEXT), "description": "Drawers whose slides are told now."},
        not_kept={**some(TEXT), "description": "Drawers that no slide told brings back as they were."},
    ),
    "Difference": answered(
        "What differs between two revisions.",
        schema=TEXT,
        old=COUNT,
        new=COUNT,
        parts=some(answered("A part.", kind=TEXT, id=TEXT, change=TEXT, keys=some(TABLE))),
        moved=TABLE,
    ),
    "StoredGap": answered("One measuring.", id=COUNT, drawer=TEXT, readings=TABLE, saved_at=MOMENT, by=TEXT),
    "StoredGaps": answered("Measurings in their order.", schema=TEXT, gaps=some(ref("StoredGap"))),
    "Ticks": answered(
        "Ticks of steps.",
        schema=TEXT,
        ticks=some(answered("A tick.", drawer=TEXT, step=TEXT, done=TRUTH, at=MOMENT, by=TEXT)),
    ),
    "Pack": answered(
        "A pack's files.",
        schema=TEXT,
        title=TEXT,
        files=some(answered("A file.", path=TEXT, bytes=COUNT, sha256=TEXT)),
    ),
}
