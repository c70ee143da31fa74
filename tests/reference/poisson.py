"""The exact 95 % limits of a Poisson mean, from their definition and by halving, with chances added up one by one."""

from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from functools import cache

TAIL = Decimal("0.025")
SIX = Decimal("0.000001")


def _at_most(n, mean):
    """The chance of n or fewer where so many are expected."""
    term = (-mean).exp()
    total = term
    for k in range(1, n + 1):
        term = term * mean / k
        total += term
    return total


@cache
def limits(observed):
    """Lower and upper limit, to six decimals: below the lower, so many or more have a chance of less than 2.5 %; above the
    upper, so many or fewer have."""
    with localcontext() as context:
        context.prec = 30

        def halved(is_below):
            low, high = Decimal(0), Decimal(2 * observed + 10)
            while high - low > SIX / 1000:
                middle = (low + high) / 2
                low, high = (middle, high) if is_below(middle) else (low, middle)
            return low.quantize(SIX, rounding=ROUND_HALF_EVEN)

        lower = Decimal(0)
        if observed:
            lower = halved(lambda mean: 1 - _at_most(observed - 1, mean) < TAIL)
        return lower, halved(lambda mean: _at_most(observed, mean) > TAIL)
