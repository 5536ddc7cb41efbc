"""The schemas of what is sent: bodies of requests. Jobs and families come from the models themselves."""

from __future__ import annotations

from typing import Final

from drawerwright.web.api.schema_parts import (
    MOMENT,
    NUMBER,
    TABLE,
    TEXT,
    TRUTH,
    UNITS,
    Schema,
    maybe,
    ref,
    sent,
    some,
)

_ASKING: Final[dict[str, Schema]] = {
    "job": ref("Job"),
    "slides": {**some(ref("SlideFamily")), "minItems": 1, "description": "The shipped families unless told."},
    "own_slides": {**TRUTH, "description": "Take the store's own families too."},
    "materials": {**some(TABLE), "description": "Each with the keys of a file of materials."},
    "units": {**UNITS, "description": "Units of the sentences; as the job has them unless told."},
}
LENGTH: Final[Schema] = {"type": ["number", "string"]}

_WORDS: Final[dict[str, Schema]] = {
    "by": {**TEXT, "description": "Who saves."},
    "what": {**TEXT, "description": "What was changed, in a few words; found out unless told."},
}
_BASED_ON: Final[Schema] = {
    "type": "integer",
    "minimum": 1,
    "description": "The revision that the values were made of.",
}
BODIES: Final[dict[str, Schema]] = {
    "FitRequest": sent(
        "A job, the slides it may use, and the options of `drawerwright fit`.",
        ("job",),
        **_ASKING,
        fewest_lengths=TRUTH,
        cheapest=TRUTH,
        fewest_setups=TRUTH,
        lose_at_most={"type": ["number", "string"], "description": "A length, with one of the three aims."},
    ),
    "CompareRequest": sent(
        "A job, and the slides to fit it on side by side.",
        ("job", "compare"),
        **_ASKING,
        compare={**some(TEXT), "minItems": 2, "description": "Families, each alone or as family/length."},
    ),
    "CarryRequest": sent(
        "A job, and the options of `drawerwright carry`.",
        ("job",),
        **_ASKING,
        drawer={**TEXT, "description": "Only this drawer."},
        tilt={**NUMBER, "description": "How far the cabinet leans forward, degrees; negative, back."},
        positions={"type": "integer", "description": "How many extensions, from closed to fully out."},
        off_centre={**LENGTH, "description": "How far right of the middle the load's middle lies."},
        sag_limit={**LENGTH, "description": "How far a front may sag."},
        compare={
            **some(TEXT),
            "description": "Slides side by side: families, each alone or as family/length; two at least.",
        },
    ),
    "AlignRequest": sent(
        "A job, the gaps around its fronts, and the options of `drawerwright align`.",
        ("job", "gaps"),
        **_ASKING,
        gaps={**some(ref("GapRow")), "minItems": 1},
        target={"type": "string", "enum": ["even", "house", "line"]},
        line={
            "type": "object",
            "additionalProperties": LENGTH,
            "description": "Readings to be met, by `drawer.reading`.",
        },
        first_round={**some(ref("GapRow")), "description": "The gaps before the moves told for them."},
        grade={"type": "string", "enum": ["premium", "custom", "economy"]},
    ),
    "SeasonRequest": sent(
        "A job, and the options of `drawerwright season`.",
        ("job", "species"),
        **_ASKING,
        species={**TEXT, "description": "Species of the solid fronts."},
        cut={"type": "string", "enum": ["flat", "quarter"]},
        across={"type": "string", "enum": ["height", "width"]},
        workshop={**TEXT, "description": "Air where the fronts were cut: `20C/45`, `68F/45`."},
        now={**TEXT, "description": "Air of the house now."},
        dry={**TEXT, "description": "Air of its driest month."},
        wet={**TEXT, "description": "Air of its dampest month."},
        limit={**LENGTH, "description": "The smallest gap that is allowed."},
        fresh={**TRUTH, "description": "The fronts have the workshop's moisture still."},
        drawer={**TEXT, "description": "Only this drawer."},
    ),
    "GapRow": {
        "type": "object",
        "description": "A row of the gaps file: `drawer`, and readings by column.",
        "properties": {"drawer": TEXT},
        "required": ["drawer"],
        "additionalProperties": {"type": ["number", "string", "null"]},
    },
    "NewJob": sent("Values with the keys of a job file, whole or not.", ("values",), values=TABLE, **_WORDS),
    "SavedJob": sent(
        "All values of a job, and the revision they were made of.",
        ("values", "based_on"),
        values=TABLE,
        based_on=_BASED_ON,
        **_WORDS,
    ),
    "SavedDrawer": sent(
        "All keys of one drawer, and the revision they were made of.",
        ("values", "based_on"),
        values=TABLE,
        based_on=_BASED_ON,
        **_WORDS,
    ),
    "AddedDrawers": sent(
        "Drawers to add behind the drawer `after`; at the end without.",
        ("drawers", "based_on"),
        drawers=some(TABLE),
        after=maybe(TEXT),
        based_on=_BASED_ON,
        **_WORDS,
    ),
    "DrawerOrder": sent(
        "The ids of all drawers, each once, in their new order.",
        ("order", "based_on"),
        order=some(TEXT),
        based_on=_BASED_ON,
        **_WORDS,
    ),
    "Said": sent("Who does it.", (), **_WORDS),
    "SlidesSeen": sent(
        "The families with which slides are taken, as they were looked at.",
        ("seen",),
        seen={**TEXT, "description": "What the question for the slides answered."},
        **_WORDS,
    ),
    "TakenBack": sent(
        "The revision whose change is taken back or brought back.",
        ("based_on",),
        based_on=_BASED_ON,
        **_WORDS,
    ),
    "MeasuredGaps": sent(
        "Gaps around one front, by the columns of the gaps file.",
        ("drawer", "readings"),
        drawer=TEXT,
        readings={"type": "object", "additionalProperties": {"type": ["number", "string", "null"]}},
        units={"type": "string", "enum": ["mm", "in"]},
        token={**TEXT, "description": "Of the sender's own: what comes twice with it is kept once."},
        for_both={
            "type": "boolean",
            "description": "Shared gaps hold for the neighbours too, in place of what was told there.",
        },
        **_WORDS,
    ),
    "SetTicks": sent(
        "Steps that are done, or not any more.",
        ("ticks",),
        ticks={
            **some(
                sent(
                    "One tick, and when the bench said so by its own clock.",
                    ("drawer", "step", "done", "at"),
                    drawer=TEXT,
                    step=TEXT,
                    done=TRUTH,
                    at=MOMENT,
                )
            ),
            "minItems": 1,
        },
        **_WORDS,
    ),
    "CheckedSlides": sent(
        "Families to check.", ("slides",), slides={**some(ref("SlideFamily")), "minItems": 1}
    ),
    "SavedSlide": sent(
        "A family of the shop's own; without `based_on` it is new.",
        ("values",),
        values=ref("SlideFamily"),
        based_on=maybe(_BASED_ON),
        **_WORDS,
    ),
}
