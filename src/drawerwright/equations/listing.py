"""The pages of docs that are made from the equations: every quantity with its source, every check."""

from __future__ import annotations

import re
from collections.abc import Iterator

from drawerwright.equations.equation import Equation, collect
from drawerwright.equations.given import GIVEN
from drawerwright.equations.trade import CHECK_ORDER, ERRORS, LAYERS
from drawerwright.equations.working import formula, words_of

_NO_ERRORS = frozenset(ERRORS)
_FIELD = re.compile(r"\{(?P<name>\w+)(?::(?P<signs>[^}]*))?\}")


def equations_page() -> str:
    """`docs/equations.md`: what is given, then every equation by layer."""
    return "\n".join([*_head(), *_given(), *_layers()]) + "\n"


def checks_page() -> str:
    """`docs/checks.md`: every check in the order in which it is told."""
    rows = sorted(
        ((item.check, item) for layer in LAYERS for item in collect(layer) if item.check is not None),
        key=lambda row: CHECK_ORDER.index(row[0].id),
    )
    lines = [
        "# Checks",
        "",
        "Made from the equations by `tools/write_pages.py`; do not edit. A check gives a margin: negative",
        "means the rule is broken, and the check *stops*, or *watches* where it says so. The numbers are the",
        "slide family's data.",
        "",
    ]
    seen = ""
    for rule, item in rows:
        if rule.id != seen:
            lines += [f"## {rule.id}", ""]
            seen = rule.id
        lines += [
            f"- **{item.title}** [{item.unit or '1'}]{_when(item)}",
            f"  - margin: {formula(item, item.parameters, _NO_ERRORS)}",
            f"  - says: {_spoken(rule.says)}",
        ]
        for cure in rule.cures:
            sign = "over" if cure.sign > 0 else "under"
            lines.append(f"  - cure, where {words_of(cure.quantity)} is {sign} 0: {_spoken(cure.says)}")
        if rule.cure:
            lines.append(f"  - cure: {_spoken(rule.cure)}")
        if rule.care_says:
            lines.append(f"  - to watch: {_spoken(rule.care_says)}")
        lines += [f"  - state: {_state(item)}", f"  - source: {item.source}", ""]
    return "\n".join(lines)


def _head() -> list[str]:
    return [
        "# Equations",
        "",
        "Made from the code by `tools/write_pages.py`; do not edit. Lengths mm, masses kg; depths count into",
        "the cabinet, heights above its floor. Each equation names the quantities it needs, so the sheet",
        "orders itself.",
        "",
    ]


def _given() -> Iterator[str]:
    yield from (
        "## Given",
        "",
        "| quantity | unit | what it is | where it comes from |",
        "| --- | --- | --- | --- |",
    )
    for item in GIVEN.values():
        yield f"| `{item.name}` | {item.unit or '1'} | {item.title} | {item.origin} |"
    yield ""


def _layers() -> Iterator[str]:
    for layer in LAYERS:
        title, _, rest = (layer.__doc__ or "").partition(":")
        yield f"## {layer.__name__.rpartition('.')[2].capitalize()}"
        yield ""
        yield f"{title.strip()}:{rest.strip().partition(chr(10))[0]}".rstrip(":")
        yield ""
        yield "| quantity | unit | equation | when | source |"
        yield "| --- | --- | --- | --- | --- |"
        for item in collect(layer):
            name = f"{item.quantity} (left, right)" if item.hands else item.quantity
            words = formula(item, item.parameters, _NO_ERRORS).replace("|", "\\|")
            row = (f"`{name}`<br>{item.title}", item.unit or "1", words, _when(item, ""), item.source)
            yield f"| {' | '.join(row)} |"
        yield ""


def _when(item: Equation, lead: str = ", when ") -> str:
    words = "; ".join(f"{key} {' or '.join(allowed)}" for key, allowed in item.conditions.items())
    return f"{lead}{words}" if words else ""


def _spoken(sentence: str) -> str:
    return _FIELD.sub(_field, sentence)


def _field(match: re.Match[str]) -> str:
    signs = (match["signs"] or "").strip("|")
    return f"*{words_of(match['name'])}*" + (f" {signs.replace('|', ' or ')}" if signs else "")


def _state(item: Equation) -> str:
    rule = item.check
    assert rule is not None
    words = ["only watches" if rule.only_watches else "stops below 0"]
    if rule.watch_below is not None:
        words.append(f"watches below {rule.watch_below:g}")
    if rule.care is not None:
        words.append(f"watches when {words_of(rule.care)} is negative")
    return ", ".join(words)
