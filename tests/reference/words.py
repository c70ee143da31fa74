"""The words that the reference's tables are written in, and how texts are compared.

Only what the demonstration and the random storms use; the tool knows many more. A word that is not here is an error, so
that nothing is passed over silently.
"""

KINDS = {
    "front bumper cover": [],
    "hood": ["bonnet"],
    "fender": ["wing", "front wing", "front fender"],
    "A-pillar": [],
    "roof": [],
    "roof rail": ["cant rail"],
    "mirror cap": [],
    "front door": [],
    "B-pillar": [],
    "rear door": [],
    "sliding door": [],
    "rocker": ["sill"],
    "C-pillar": [],
    "quarter panel": ["rear wing"],
    "cab corner": [],
    "bed side": [],
    "front van side": ["van side front"],
    "rear van side": ["van side rear"],
    "fuel flap": [],
    "trunk lid": ["boot lid"],
    "tailgate": [],
    "rear cargo door": [],
    "rear bumper cover": [],
}

METHODS = ["paintless", "paintless, then refinish", "conventional repair", "replace", "refer to a person"]
NO_REPAIR = "no repair"

# Kinds and causes of marks, in the order in which marks are listed; of a blank cause, this event is meant.
MARKS = ["dent", "oversize dent", "crease", "crown", "brace mark", "broken paint", "not damage"]
CAUSES = ["", "this event", "another event", "earlier damage", "not damage"]

# Marks that are priced one by one. A mark of kind "dent" joins the count instead.
RATED_MARKS = ["oversize dent", "crease", "crown", "brace mark"]


def folded(text):
    """A text as it is compared: lower case, punctuation and spaces as one space."""
    return " ".join("".join(c.lower() if c.isalnum() else " " for c in str(text)).split())


def same(one, other):
    """Whether two texts are one word."""
    return folded(one) == folded(other)


_KIND_OF = {folded(word): kind for kind, more in KINDS.items() for word in [kind, *more]}


def kind_named(text):
    """The panel kind that a text names, or None."""
    return _KIND_OF.get(folded(text))


def panel_named(text, side=""):
    """`(side, kind)` of a panel as people write it: `left front door`, `Wing, right`, `LF door`."""
    words = folded(text).split()
    side = {"l": "left", "r": "right"}.get(folded(side), folded(side))
    corner = {"lf": "left front", "rf": "right front", "lr": "left rear", "rr": "right rear"}
    words = " ".join(corner.get(word, word) for word in words).split()
    for word in ("left", "right"):
        if word in words:
            words.remove(word)
            side = word
    kind = kind_named(" ".join(words))
    if kind is None:
        raise ValueError(f"unknown panel: {text!r}")
    return (side, kind)


def panel_text(panel):
    """`left front door`, `hood`."""
    return " ".join(part for part in panel if part)
