"""A level is told by shape and word as well as by colour: a diamond, a triangle, a disc, a tick."""

_DIAMOND = '<path d="M8 1l7 7-7 7-7-7z"/>'
_SHAPES = {
    "error": _DIAMOND,
    "blocks": _DIAMOND,
    "warning": '<path d="M8 1.5l7 12.5H1z"/>',
    "note": '<circle cx="8" cy="8" r="5.5"/>',
    "clear": '<path class="line" d="M2.5 8.5l4 4 7-9"/>',
}
_MARKS = {
    state: f'<svg class="mark mark-{state}" viewBox="0 0 16 16" aria-hidden="true">{shape}</svg>'
    for state, shape in _SHAPES.items()
}


def mark(state: str) -> str:
    """The mark of a level or of a chart's state, as HTML."""
    return _MARKS[state]
