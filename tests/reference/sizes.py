"""Lengths in millimetres, and headings that are intervals of length."""

import re
from dataclasses import dataclass
from decimal import Decimal
from typing import Optional

# Millimetres in one. The inch is exactly 25.4 mm (NIST Special Publication 811, appendix B).
MILLIMETRES = {"mm": Decimal(1), "cm": Decimal(10), "in": Decimal("25.4")}

_NUMBER = r"(?:\d+ )?\d+/\d+|\d+(?:[.,]\d+)?"


def unit_in(text):
    """The unit of length that a text holds as a word, or None. `in` is one only behind a number or at the end."""
    text = str(text).lower()
    found = re.search(r"(?<![a-z])(mm|cm)(?![a-z])", text) or re.search(r"(?<=\d) ?(in)(?![a-z])|(?<= )(in)$", text)
    return found and (found.group(1) or found.group(2))


def _value(text):
    """A number with a decimal point or comma, or a whole number with a fraction. Fractions here end in decimals."""
    whole = Decimal(0)
    if "/" in text:
        if " " in text:
            head, text = text.split(" ")
            whole = Decimal(head)
        over, under = text.split("/")
        return whole + Decimal(over) / Decimal(under)
    return Decimal(text.replace(",", "."))


def _last_digit(text):
    """The worth of one in the last printed digit; nothing for fractions, which are exact."""
    if "/" in text:
        return Decimal(0)
    digits = re.search(r"[.,](\d+)", text)
    return Decimal(1).scaleb(-len(digits.group(1))) if digits else Decimal(1)


def length_of(text, unit=None):
    """A length in millimetres; the unit in the cell goes before that of the heading."""
    text = str(text).strip()
    scale = MILLIMETRES[unit_in(text) or unit]
    return _value(re.match(_NUMBER, text).group(0)) * scale


@dataclass(frozen=True)
class SizeInterval:
    """A size heading: its words, its edges in millimetres, and the worth of the last printed digit of each."""

    words: str
    low: Decimal
    high: Optional[Decimal]  # None is open-ended
    low_digit: Decimal
    high_digit: Decimal


def size_of(text, unit=None):
    """The interval that a heading states, or None where it states none."""
    words = str(text).strip()
    unit = unit_in(words) or unit
    if unit not in MILLIMETRES:
        return None
    scale = MILLIMETRES[unit]
    bare = re.sub(r"\s*(mm|cm|in)\s*$", "", words.lower()).strip()
    between = re.fullmatch(rf"({_NUMBER})\s*(?:-|–|to)\s*({_NUMBER})", bare)
    if between:
        low, high = between.groups()
        return SizeInterval(
            words, _value(low) * scale, _value(high) * scale, _last_digit(low) * scale, _last_digit(high) * scale
        )
    below = re.fullmatch(rf"up to ({_NUMBER})", bare)
    if below:
        high = below.group(1)
        return SizeInterval(words, Decimal(0), _value(high) * scale, Decimal(0), _last_digit(high) * scale)
    above = re.fullmatch(rf"over ({_NUMBER})", bare) or re.fullmatch(rf"({_NUMBER})\s*\+", bare)
    if above:
        low = above.group(1)
        return SizeInterval(words, _value(low) * scale, None, _last_digit(low) * scale, Decimal(0))
    return None
