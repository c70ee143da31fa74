"""The one place of the reference that rounds."""

from decimal import ROUND_DOWN, ROUND_HALF_EVEN, ROUND_HALF_UP, ROUND_UP, Decimal, getcontext

# Far more digits than any amount here needs, so that only the rounding below is seen.
getcontext().prec = 60

# Python's ROUND_HALF_UP is half away from zero; ROUND_UP and ROUND_DOWN are away from and towards zero.
MODES = {
    "half away from zero": ROUND_HALF_UP,
    "half to even": ROUND_HALF_EVEN,
    "up": ROUND_UP,
    "down": ROUND_DOWN,
}

# Digits after the decimal mark (ISO 4217, the currencies used here).
MINOR_DIGITS = {"EUR": 2, "GBP": 2, "USD": 2, "JPY": 0, "KWD": 3}


class Money:
    """Rounds to a currency's minor unit, or to a step, in a schedule's mode."""

    def __init__(self, currency, mode):
        self.digits = MINOR_DIGITS[currency]
        self.minor = Decimal(1).scaleb(-self.digits)
        self.mode = MODES[mode]

    def round(self, amount):
        """To the minor unit."""
        return Decimal(amount).quantize(self.minor, rounding=self.mode)

    def percent(self, percentage, amount):
        """A percentage of an amount, rounded."""
        return self.round(percentage * amount / 100)

    def to_step(self, amount, step):
        """To a multiple of a step."""
        return ((amount / step).quantize(Decimal(1), rounding=self.mode) * step).quantize(self.minor)

    def split(self, amount, weights):
        """An amount split by the largest remainder: each share cut down to the minor unit, then one minor unit more for
        the largest remainders. Of equal remainders the earlier one comes first."""
        whole = sum(weights)
        if whole == 0:
            return [Decimal(0).quantize(self.minor) for _ in weights]
        exact = [amount * weight / whole for weight in weights]
        shares = [share.quantize(self.minor, rounding=ROUND_DOWN) for share in exact]
        left = int((amount - sum(shares)) / self.minor)
        by_remainder = sorted(range(len(weights)), key=lambda i: (shares[i] - exact[i], i))
        for i in by_remainder[:left]:
            shares[i] += self.minor
        return shares
