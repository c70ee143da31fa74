"""Random data sets with the values that general statistics libraries give for them.

    python -m venv VENV && VENV/bin/pip install -r tests/compare/requirements.txt
    VENV/bin/python tests/compare/reference.py 500 1 > all.jsonl
    STIPPLE_REFERENCE=all.jsonl cargo test --test compare reference -- --nocapture

The first argument is the number of sets of each kind, the second the seed. `reference.jsonl` beside this file holds 20
of each kind with seed 20 and is what the ordinary test runs.

One line is one set: kind, input, and the values expected, null where there is no number. What a library gives for
data on which we deliberately say that there is no number is replaced by null; how often and why is printed to
standard error.
"""

import collections
import json
import math
import sys
import warnings
from fractions import Fraction
from itertools import product

import krippendorff
import mpmath
import numpy as np
import pandas as pd
import pingouin
from scipy import special, stats
from sklearn.metrics import cohen_kappa_score
from statsmodels.regression.linear_model import OLS
from statsmodels.stats import inter_rater
from statsmodels.stats.multitest import multipletests
from statsmodels.stats.proportion import proportion_confint

warnings.simplefilter("ignore")
np.seterr(all="ignore")
pingouin.options["round.column.CI95"] = None
mpmath.mp.dps = 40
TAIL = 0.025
# Chances that equal a tail but for rounding are within it.
WITHIN = TAIL * (1 + 1e-12)
Z = stats.norm.ppf(1 - TAIL)
replaced = collections.Counter()


def say_nothing(out, names, reason):
    """Replaces values that a library gives where we say that there is no number."""
    for name in names:
        if out.get(name) is not None and math.isfinite(out[name]):
            replaced[f"{name}: {reason}"] += 1
        out[name] = None


def counts(rng, n, high=None):
    """Counts of dents: small ones with many ties, or a wide range; sometimes all alike."""
    high = high or rng.choice([2, 4, 10, 60, 400])
    if rng.random() < 0.05:
        return np.full(n, rng.integers(0, high))
    return rng.negative_binomial(1.2, 1 / (1 + high / 3), n)


def size(rng, fewest=0):
    return int(rng.choice([fewest, fewest + 1, fewest + 2, 3, 4, 5, 7, 10, 15, 25, 40]))


def pairs(rng, fewest=0):
    n = size(rng, fewest)
    first = counts(rng, n)
    kind = rng.integers(0, 4)
    second = [counts(rng, n), rng.poisson(first * 1.1 + 0.3), first + rng.integers(-1, 2, n), first + 2][kind]
    return first.astype(float), np.maximum(second, 0).astype(float)


def as_pairs(a, b):
    return [[float(x), float(y)] for x, y in zip(a, b)]


def exactly(values):
    return [Fraction(float(v)) for v in values]


def constant(values):
    return len(set(values)) <= 1


# ---- distributions: SciPy, and mpmath to 40 digits where SciPy loses digits at large parameters


def gamma_lower(a, x):
    """The power series of the incomplete gamma function (NIST DLMF 8.7.1)."""
    a, x = mpmath.mpf(a), mpmath.mpf(x)
    term = total = mpmath.mpf(1)
    k = 1
    while term > total * mpmath.eps:
        term *= x / (a + k)
        total += term
        k += 1
    return mpmath.exp(a * mpmath.log(x) - x - mpmath.loggamma(a + 1)) * total


def distribution(rng):
    wide = lambda: float(10 ** rng.uniform(-0.5, 6))
    freedom = lambda: float(rng.choice([1, 2, 3, 7.5, 30, 400, 1e5]))
    chance = lambda: float(rng.choice([0.0005, 0.001, 0.025, 0.05, 0.1, 0.5, 0.9, 0.975, 0.995, 0.9995]))
    name = str(rng.choice(list(DISTRIBUTIONS)))
    if name in ("beta_regularised", "beta_quantile"):
        a, b = wide(), wide()
        m = a / (a + b)
        x = float(np.clip(m + math.sqrt(m * (1 - m) / (a + b + 1)) * rng.uniform(-5, 5), 1e-9, 1 - 1e-9))
        args = [a, b, x] if name == "beta_regularised" else [chance(), a, b]
    elif name in ("gamma_lower", "gamma_upper"):
        a = wide()
        args = [a, max(1e-9, a + math.sqrt(a) * rng.uniform(-5, 5))]
    elif name == "gamma_quantile":
        args = [chance(), wide()]
    elif name == "normal_cdf":
        args = [rng.uniform(-8, 8)]
    elif name == "normal_quantile":
        args = [float(rng.choice([chance(), 10 ** rng.uniform(-12, -1)]))]
    elif name == "t_quantile":
        args = [max(0.5, 1 - chance() / 2), freedom()]
    elif name == "t_two_sided":
        args = [rng.uniform(-9, 9), freedom()]
    elif name == "f_quantile":
        args = [chance(), freedom(), freedom()]
    elif name == "f_upper":
        args = [float(10 ** rng.uniform(-2, 1.5)), freedom(), freedom()]
    elif name == "chi_squared_quantile":
        args = [chance(), freedom()]
    elif name == "chi_squared_upper":
        f = freedom()
        args = [max(0.0, f + math.sqrt(2 * f) * rng.uniform(-5, 7)), f]
    elif name == "noncentral_t_quantile":
        n = int(rng.choice([2, 3, 5, 10, 40, 300]))
        args = [float(rng.choice([0.025, 0.975])), float(n - 1), float(rng.choice([-1, 1]) * Z * math.sqrt(n))]
    elif name.startswith("binomial"):
        n, p = int(10 ** rng.uniform(0, 5)), rng.uniform(0, 1) ** 3
        args = [int(np.clip(n * p + math.sqrt(n * p * (1 - p)) * rng.uniform(-4, 4), 0, n)), n, p]
    elif name.startswith("poisson"):
        m = wide()
        args = [int(max(0, m + math.sqrt(m) * rng.uniform(-4, 4))), m]
    else:
        lot = int(10 ** rng.uniform(0.5, 5))
        marked, sample = int(rng.integers(0, lot + 1)), int(rng.integers(0, lot + 1))
        m = marked * sample / lot
        spread = math.sqrt(m * (1 - marked / lot) * (1 - sample / lot) + 1)
        args = [int(max(0, m + spread * rng.uniform(-4, 4))), lot, marked, sample]
    args = [a if isinstance(a, int) else float(a) for a in args]
    value = float(DISTRIBUTIONS[name](*args))
    return {"name": name, "arguments": args}, {"value": value if math.isfinite(value) else None}


DISTRIBUTIONS = {
    "normal_cdf": stats.norm.cdf,
    "normal_quantile": stats.norm.ppf,
    "t_two_sided": lambda t, f: 2 * stats.t.sf(abs(t), f),
    "t_quantile": stats.t.ppf,
    "f_upper": stats.f.sf,
    "f_quantile": stats.f.ppf,
    "chi_squared_upper": stats.chi2.sf,
    "chi_squared_quantile": stats.chi2.ppf,
    "gamma_lower": gamma_lower,
    "gamma_upper": lambda a, x: 1 - gamma_lower(a, x),
    "gamma_quantile": stats.gamma.ppf,
    "beta_regularised": special.betainc,
    "beta_quantile": stats.beta.ppf,
    "noncentral_t_quantile": stats.nct.ppf,
    "binomial_density": stats.binom.pmf,
    "binomial_lower": stats.binom.cdf,
    "binomial_upper": lambda x, n, p: stats.binom.sf(x - 1, n, p),
    "poisson_density": lambda x, m: mpmath.exp(x * mpmath.log(m) - m - mpmath.loggamma(x + 1)),
    "poisson_lower": stats.poisson.cdf,
    "poisson_upper": lambda x, m: stats.poisson.sf(x - 1, m),
    "hypergeometric_density": lambda x, lot, marked, sample: stats.hypergeom.pmf(x, lot, marked, sample),
    "hypergeometric_lower": lambda x, lot, marked, sample: stats.hypergeom.cdf(x, lot, marked, sample),
    "hypergeometric_upper": lambda x, lot, marked, sample: stats.hypergeom.sf(x - 1, lot, marked, sample),
}

# ---- two assessors: NumPy and SciPy


def limits(rng):
    a, b = pairs(rng)
    ratio = bool(rng.integers(0, 2))
    factor = float(rng.choice([Z, 2.0, 1.96]))
    kept = (a > 0) & (b > 0) if ratio else np.full(len(a), True)
    d = np.log(a[kept]) - np.log(b[kept]) if ratio else a - b
    n = len(d)
    names = "bias bias_low bias_high sd sd_low sd_high".split()
    names += [f"{side}{part}" for side in ("lower", "upper") for part in ("", "_low", "_high", "_also_low", "_also_high")]
    out = dict.fromkeys(names)
    if n > 0:
        out["bias"] = d.mean()
    if n > 1:
        even = constant([Fraction(int(x), int(y)) if ratio else x - y for x, y in zip(a[kept], b[kept])])
        sd = 0.0 if even else d.std(ddof=1)
        out |= {"sd": sd, "lower": d.mean() - factor * sd, "upper": d.mean() + factor * sd}
        if not even:
            out["bias_low"], out["bias_high"] = stats.t.interval(1 - 2 * TAIL, n - 1, d.mean(), sd / math.sqrt(n))
            out["sd_low"] = sd * math.sqrt((n - 1) / stats.chi2.ppf(1 - TAIL, n - 1))
            out["sd_high"] = sd * math.sqrt((n - 1) / stats.chi2.ppf(TAIL, n - 1))
            for side, sign in (("lower", -1), ("upper", 1)):
                exact = [stats.nct.ppf(p, n - 1, sign * factor * math.sqrt(n)) for p in (TAIL, 1 - TAIL)]
                out[f"{side}_low"], out[f"{side}_high"] = [d.mean() + e * sd / math.sqrt(n) for e in exact]
                error = sd * math.sqrt(1 / n + factor**2 / (2 * (n - 1)))
                usual = stats.t.interval(1 - 2 * TAIL, n - 1, out[side], error)
                out[f"{side}_also_low"], out[f"{side}_also_high"] = usual
    if ratio:
        out = {name: None if value is None else math.exp(value) for name, value in out.items()}
    return {"pairs": as_pairs(a, b), "ratio": ratio, "factor": factor}, out


def scale(rng):
    a, b = pairs(rng)
    out = {}
    both = (a > 0) & (b > 0)
    for name, x, y, ratio in (("difference", a, b, False), ("ratio", a[both], b[both], True)):
        out[f"{name}_rho"] = out[f"{name}_p"] = None
        if len(x) < 3:
            continue
        if ratio:
            d = np.log(x) - np.log(y)
            # Rounded so that equal ratios keep equal ranks.
            apart = np.round(np.abs(d - d.mean()), 10)
        else:
            d = exactly(x - y)
            apart = [float(abs(v - sum(d) / len(d))) for v in d]
        if constant(apart) or constant(x + y):
            continue
        found = stats.spearmanr(apart, x + y)
        out[f"{name}_rho"], out[f"{name}_p"] = found.statistic, found.pvalue
    out |= dict.fromkeys(("slope", "slope_low", "slope_high", "slope_p"))
    if len(a) > 2 and not constant(a + b):
        fit = stats.linregress((a + b) / 2, a - b)
        reach = stats.t.ppf(1 - TAIL, len(a) - 2) * fit.stderr
        out |= {"slope": fit.slope, "slope_low": fit.slope - reach, "slope_high": fit.slope + reach, "slope_p": fit.pvalue}
        x, y = exactly((a + b) / 2), exactly(a - b)
        mx, my = sum(x) / len(x), sum(y) / len(y)
        sxx = sum((v - mx) ** 2 for v in x)
        sxy = sum((v - mx) * (w - my) for v, w in zip(x, y))
        if sum((w - my) ** 2 for w in y) == sxy**2 / sxx:
            say_nothing(out, ("slope_low", "slope_high", "slope_p"), "all points on the line")
    return {"pairs": as_pairs(a, b)}, out


def concordance(rng):
    a, b = pairs(rng)
    n = len(a)
    out = dict.fromkeys("concordance low high correlation correlation_low correlation_high factor".split())
    if n > 1:
        va, vb, shift = a.var(), b.var(), (a.mean() - b.mean()) ** 2
        cov = ((a - a.mean()) * (b - b.mean())).mean()
        if va + vb + shift > 0:
            out["concordance"] = c = 2 * cov / (va + vb + shift)
        if va > 0 and vb > 0:
            out["correlation"] = r = float(np.clip(np.corrcoef(a, b)[0, 1], -1, 1))
            out["factor"] = c / r if abs(r) > 1e-9 else 2 * math.sqrt(va * vb) / (va + vb + shift)
            if n > 3 and abs(r) < 1 - 1e-12:
                out["correlation_low"], out["correlation_high"] = stats.pearsonr(a, b).confidence_interval(1 - 2 * TAIL)
            if n > 2 and abs(c) < 1 - 1e-12 and abs(r) > 1e-12:
                u = math.sqrt(shift) / (va * vb) ** 0.25
                variance = (
                    (1 - r**2) * c**2 / ((1 - c**2) * r**2)
                    + 2 * c**3 * (1 - c) * u**2 / (r * (1 - c**2) ** 2)
                    - c**4 * u**4 / (2 * r**2 * (1 - c**2) ** 2)
                ) / (n - 2)
                if variance > 1e-14:
                    reach = Z * math.sqrt(variance)
                    out["low"], out["high"] = np.tanh([np.arctanh(c) - reach, np.arctanh(c) + reach])
    return {"pairs": as_pairs(a, b)}, out


def deming_line(a, b, ratio):
    x, y = exactly(a), exactly(b)
    mx, my = sum(x) / len(x), sum(y) / len(y)
    sxx, syy = sum((v - mx) ** 2 for v in x), sum((v - my) ** 2 for v in y)
    sxy = sum((v - mx) * (w - my) for v, w in zip(x, y))
    if sxy == 0:
        return None
    # The direction of least weighted distance is an eigenvector.
    scale = math.sqrt(ratio)
    matrix = np.array([[float(sxx), float(sxy) / scale], [float(sxy) / scale, float(syy) / ratio]])
    direction = np.linalg.eigh(matrix)[1][:, 1]
    slope = scale * direction[1] / direction[0]
    return slope, float(my) - slope * float(mx)


def deming(rng):
    a, b = pairs(rng)
    n = len(a)
    ratio = float(rng.choice([1.0, 0.5, 4.0]))
    out = dict.fromkeys("slope slope_low slope_high intercept intercept_low intercept_high".split())
    whole = deming_line(a, b, ratio) if n > 1 else None
    if whole:
        out["slope"], out["intercept"] = whole
        left = [deming_line(np.delete(a, i), np.delete(b, i), ratio) for i in range(n)] if n > 2 else [None]
        if all(left):
            pseudo = n * np.array(whole) - (n - 1) * np.array(left)
            centre, error = pseudo.mean(axis=0), pseudo.std(axis=0, ddof=1) / math.sqrt(n)
            reach = stats.t.ppf(1 - TAIL, n - 2) * error
            for i, name in enumerate(("slope", "intercept")):
                out[f"{name}_low"], out[f"{name}_high"] = centre[i] - reach[i], centre[i] + reach[i]
            x, y = exactly(a), exactly(b)
            if len({(y[i] - y[0]) * (x[j] - x[0]) == (y[j] - y[0]) * (x[i] - x[0]) for i in range(n) for j in range(n)} - {True}) == 0:
                say_nothing(out, ("slope_low", "slope_high", "intercept_low", "intercept_high"), "all points on the line")
    return {"pairs": as_pairs(a, b), "ratio": ratio}, out


def spread(rng):
    a, b = pairs(rng)
    d = np.sort(np.abs(a - b))
    out = dict.fromkeys(("median", "low", "high"))
    if len(d):
        out["median"] = float(np.median(d))
        inside = [r for r in range(1, len(d) // 2 + 1) if stats.binom.cdf(r - 1, len(d), 0.5) <= WITHIN]
        if inside:
            out["low"], out["high"] = float(d[inside[-1] - 1]), float(d[-inside[-1]])
    return {"pairs": as_pairs(a, b)}, out


def clustered(rng):
    cars = [(rng.normal() + rng.integers(-3, 4, rng.integers(0, 8))).round(2).tolist() for _ in range(size(rng))]
    rows = [(c, v) for c, car in enumerate(cars) for v in car]
    out = dict.fromkeys(("mean", "mean_low", "mean_high"))
    if rows:
        groups, values = map(np.array, zip(*rows))
        out["mean"] = values.mean()
        if len(set(groups)) > 1 and len(values) > 1:
            fit = OLS(values, np.ones(len(values))).fit(cov_type="cluster", cov_kwds={"groups": groups}, use_t=True)
            out["mean_low"], out["mean_high"] = fit.conf_int(2 * TAIL)[0]
            sums = {sum(Fraction(str(v)) - sum(Fraction(str(w)) for _, w in rows) / len(rows) for v in car) for car in cars}
            if sums == {0}:
                say_nothing(out, ("mean_low", "mean_high"), "no spread between clusters")
    return {"clusters": cars}, out


def paired(rng):
    a, b = pairs(rng)
    d = a - b
    nonzero = d[d != 0]
    out = dict.fromkeys(("signed_rank_p", "sign_p"))
    if len(nonzero):
        out["sign_p"] = stats.binomtest(int((nonzero > 0).sum()), len(nonzero), 0.5).pvalue
        ranks = stats.rankdata(np.abs(nonzero))
        found = min(ranks[nonzero > 0].sum(), ranks[nonzero < 0].sum())
        if len(nonzero) <= 14:
            # Every way of giving signs, one by one.
            sums = np.array([np.dot(signs, ranks) for signs in product((0, 1), repeat=len(ranks))])
            out["signed_rank_p"] = min(1.0, 2 * float((sums <= found + 1e-9).mean()))
        elif len(set(ranks)) == len(ranks):
            out["signed_rank_p"] = stats.wilcoxon(nonzero, method="exact").pvalue
        else:
            # The distribution of the sum of these ranks by multiplying out its generating function.
            polynomial = np.array([1.0])
            for rank in np.rint(2 * ranks).astype(int):
                factor = np.zeros(rank + 1)
                factor[0] = factor[rank] = 0.5
                polynomial = np.convolve(polynomial, factor)
            out["signed_rank_p"] = min(1.0, 2 * float(polynomial[: int(round(2 * found)) + 1].sum()))
    return {"differences": d.tolist()}, out


# ---- many assessors: pingouin, krippendorff, statsmodels


def matrix(rng, missing):
    n, k = size(rng), int(rng.integers(2, 6))
    base = counts(rng, n)
    rows = np.stack([np.maximum(base + rng.integers(-2, 3, n), 0) if rng.random() < 0.8 else counts(rng, n) for _ in range(k)], axis=1) if n else np.zeros((0, k))
    if rng.random() < 0.05 and n:
        rows = np.repeat(base[:, None], k, axis=1)
    rows = rows.astype(float)
    if missing:
        rows[rng.random(rows.shape) < rng.choice([0.0, 0.05, 0.3])] = np.nan
    return rows


def as_units(rows):
    return [[None if math.isnan(v) else float(v) for v in row] for row in rows]


def icc(rng):
    rows = matrix(rng, True)
    k = rows.shape[1]
    complete = rows[~np.isnan(rows).any(axis=1)]
    n = len(complete)
    forms = ["ICC(1,1)", "ICC(2,1)", "ICC(3,1)", "ICC(1,k)", "ICC(2,k)", "ICC(3,k)"]
    out = dict.fromkeys(f"{form}{part}" for form in forms for part in ("", "_low", "_high"))
    if n > 1 and not constant(complete.ravel()):
        long = pd.DataFrame([(i, j, complete[i, j]) for i in range(n) for j in range(k)], columns=["t", "r", "s"])
        try:
            found = pingouin.intraclass_corr(long, "t", "r", "s")
        except Exception:
            return None
        for form, (_, row) in zip(forms, found.iterrows()):
            out[form] = row["ICC"]
            out[f"{form}_low"], out[f"{form}_high"] = row["CI95"]
        # The mean squares as exact fractions.
        x = [exactly(row) for row in complete]
        grand = sum(map(sum, x)) / (n * k)
        units = [sum(row) / k for row in x]
        people = [sum(row[j] for row in x) / n for j in range(k)]
        between = k * sum((u - grand) ** 2 for u in units) / (n - 1)
        judges = n * sum((p - grand) ** 2 for p in people) / (k - 1)
        residual = sum((x[i][j] - units[i] - people[j] + grand) ** 2 for i in range(n) for j in range(k)) / ((n - 1) * (k - 1))
        within = (judges * (k - 1) + residual * (n - 1) * (k - 1)) / (n * (k - 1))
        if between == 0:
            say_nothing(out, [f"{form}{part}" for form in ("ICC(1,k)", "ICC(3,k)") for part in ("", "_low", "_high")], "units do not vary: division by zero")
            say_nothing(out, [f"{form}{part}" for form in forms for part in ("_low", "_high")], "units do not vary: no width")
        if residual == 0:
            for form in ("ICC(2,1)", "ICC(3,1)", "ICC(2,k)", "ICC(3,k)"):
                say_nothing(out, (f"{form}_low", f"{form}_high"), "residual variance of zero")
            for form in ("ICC(3,1)", "ICC(3,k)"):
                out[form] = 1.0 if between > 0 else None
            out["ICC(2,1)"] = float(between / (between + k * judges / n))
            out["ICC(2,k)"] = float(between / (between + judges / n))
        if within == 0:
            for form in ("ICC(1,1)", "ICC(1,k)"):
                say_nothing(out, (f"{form}_low", f"{form}_high"), "no variance within units")
        if between + (k - 1) * residual == 0:
            say_nothing(out, ("ICC(3,1)", "ICC(3,1)_low", "ICC(3,1)_high"), "units do not vary: division by zero")
        if between + (judges - residual) / n <= 0:
            say_nothing(out, ("ICC(2,k)", "ICC(2,k)_low", "ICC(2,k)_high"), "divided by a negative variance")
        if between + (k - 1) * residual + k * (judges - residual) / n <= 0:
            say_nothing(out, ("ICC(2,1)", "ICC(2,1)_low", "ICC(2,1)_high"), "divided by a variance of zero")
        low, high = out["ICC(2,1)_low"], out["ICC(2,1)_high"]
        for limit in (low, high):
            if limit is not None and 1 + (k - 1) * limit <= 0:
                say_nothing(out, ("ICC(2,k)_low", "ICC(2,k)_high"), "divided by a negative variance")
    return {"units": as_units(rows), "assessors": k}, out


def alpha(rng):
    rows = matrix(rng, True)
    pairable = rows[(~np.isnan(rows)).sum(axis=1) > 1]
    out = {}
    for level in ("nominal", "ordinal", "interval", "ratio"):
        out[level] = None
        values = pairable[~np.isnan(pairable)]
        if len(values) and not constant(values):
            out[level] = krippendorff.alpha(reliability_data=pairable.T, level_of_measurement=level)
    return {"units": as_units(rows)}, out


def precision(rng):
    units = []
    for _ in range(size(rng)):
        level = counts(rng, 1)[0]
        people = int(rng.integers(0, 4))
        shift = rng.integers(-2, 3, people)
        units.append([np.maximum(0, level + shift[i] + rng.integers(-1, 2, rng.integers(0, 4))).astype(float).tolist() for i in range(people)])
    factor = 1.96
    out = dict.fromkeys("repeatability repeatability_low repeatability_high repeatability_limit reproducibility reproducibility_limit".split())
    rows = [(u, p, v) for u, unit in enumerate(units) for p, values in enumerate(unit) for v in values]
    frame = pd.DataFrame(rows, columns=["unit", "person", "value"])
    cells = frame.groupby(["unit", "person"])["value"]
    freedom = len(frame) - cells.ngroups
    if freedom > 0:
        variance = ((frame["value"] - cells.transform("mean")) ** 2).sum() / freedom
        out["repeatability"] = math.sqrt(variance)
        out["repeatability_limit"] = factor * math.sqrt(2 * variance)
        if variance > 0:
            out["repeatability_low"], out["repeatability_high"] = [math.sqrt(variance * freedom / stats.chi2.ppf(p, freedom)) for p in (1 - TAIL, TAIL)]
        sums = cells.agg(["count", "mean"]).reset_index()
        between = between_freedom = repeats = 0.0
        for _, unit in sums.groupby("unit"):
            centre = np.average(unit["mean"], weights=unit["count"])
            between += (unit["count"] * (unit["mean"] - centre) ** 2).sum()
            between_freedom += len(unit) - 1
            repeats += unit["count"].sum() - (unit["count"] ** 2).sum() / unit["count"].sum()
        if between_freedom > 0:
            person = max(0.0, (between / between_freedom - variance) / (repeats / between_freedom))
            out["reproducibility"] = math.sqrt(variance + person)
            out["reproducibility_limit"] = factor * math.sqrt(2 * (variance + person))
    return {"units": units, "factor": factor}, out


# ---- categories: scikit-learn and statsmodels


def kappa(rng):
    k = int(rng.integers(2, 6))
    n = size(rng)
    first = rng.integers(0, k, n) if rng.random() < 0.8 else np.full(n, rng.integers(0, k))
    second = np.where(rng.random(n) < rng.choice([0.3, 0.8, 1.0]), first, rng.integers(0, k, n))
    table = np.zeros((k, k), int)
    np.add.at(table, (first, second), 1)
    out = {}
    for weights, wt, name in ((None, None, "plain"), ("linear", "linear", "linear"), ("quadratic", "quadratic", "quadratic")):
        out |= dict.fromkeys((name, f"{name}_low", f"{name}_high", f"{name}_p"))
        margins = table.sum(axis=1), table.sum(axis=0)
        certain = n == 0 or (margins[0].max() == n and margins[1].max() == n and margins[0].argmax() == margins[1].argmax())
        if not certain:
            out[name] = cohen_kappa_score(first, second, labels=range(k), weights=weights)
            found = inter_rater.cohens_kappa(table, wt=wt)
            out[f"{name}_low"], out[f"{name}_high"] = found.kappa - Z * found.std_kappa, found.kappa + Z * found.std_kappa
            out[f"{name}_p"] = found.pvalue_two_sided if found.std_kappa0 > 1e-6 else None
            if not found.std_kappa > 1e-6:
                say_nothing(out, (f"{name}_low", f"{name}_high"), "standard error of zero")
    out |= dict.fromkeys(("same", "wilson_low", "wilson_high", "exact_low", "exact_high"))
    if n:
        same = int(np.trace(table))
        out["same"] = same / n
        out["wilson_low"], out["wilson_high"] = proportion_confint(same, n, 2 * TAIL, "wilson")
        out["exact_low"], out["exact_high"] = proportion_confint(same, n, 2 * TAIL, "beta")
        out["exact_low"] = 0.0 if same == 0 else out["exact_low"]
        out["exact_high"] = 1.0 if same == n else out["exact_high"]
    return {"table": table.tolist()}, out


def fleiss(rng):
    k, m, n = int(rng.integers(2, 5)), int(rng.integers(2, 7)), size(rng)
    shares = rng.dirichlet(np.full(k, rng.choice([0.2, 1.0, 5.0])), n)
    table = np.array([rng.multinomial(m, share) for share in shares]).reshape(n, k)
    incomplete = rng.random(n) < 0.1
    if n:
        table[incomplete, table[incomplete].argmax(axis=1)] -= 1
    complete = table[table.sum(axis=1) == m]
    out = dict.fromkeys(["kappa"] + [f"category_{c}" for c in range(k)])
    if len(complete):
        shares = complete.sum(axis=0) / complete.sum()
        if shares.max() < 1:
            out["kappa"] = inter_rater.fleiss_kappa(complete, method="fleiss")
        for c in range(k):
            two = np.stack([complete[:, c], m - complete[:, c]], axis=1)
            if 0 < shares[c] < 1:
                out[f"category_{c}"] = inter_rater.fleiss_kappa(two, method="fleiss")
    return {"units": table.tolist(), "categories": k, "assessors": m}, out


# ---- standing: SciPy, statsmodels


def discovery(rng):
    n = size(rng)
    p = np.round(rng.random(n) ** rng.choice([1, 4]), int(rng.choice([2, 6])))
    adjusted = multipletests(p, method="fdr_bh")[1] if n else []
    return {"chances": p.tolist()}, {str(i): float(v) for i, v in enumerate(adjusted)}


def outlier(rng):
    n = size(rng)
    values = counts(rng, n).astype(float)
    out = {str(i): None for i in range(n)}
    if n and not constant(values):
        centre = np.median(values)
        deviation = stats.median_abs_deviation(values)
        unit = deviation / 0.6745 if deviation > 0 else 1.253314 * np.abs(values - centre).mean()
        out = {str(i): float(v) for i, v in enumerate((values - centre) / unit)}
    return {"values": values.tolist()}, out


def interpolated(cdf, ppf, p):
    r = int(ppf(p))
    before = cdf(r - 1) if r > 0 else 0.0
    return max(0.0, r - (cdf(r) - p) / (cdf(r) - before))


def funnel(rng):
    k = int(rng.integers(1, 16))
    expected = rng.choice([5.5, 20.0, 300.0, 4e4], k) if rng.random() < 0.7 else np.full(k, 40.0)
    observed = rng.poisson(expected * rng.gamma(20, 1 / 20, k))
    z = (observed - expected) / np.sqrt(expected)
    phi = (z**2).mean()
    scaled = z / math.sqrt(max(phi, 1.0))
    p = 2 * stats.norm.sf(np.abs(scaled))
    out = {"phi": phi}
    if k > 1:
        weights = expected
        excess = (z**2).sum() - (k - 1)
        out["between"] = math.sqrt(max(0.0, excess / (weights.sum() - (weights**2).sum() / weights.sum())))
    else:
        out["between"] = None
    for i in range(k):
        out[f"z_{i}"] = scaled[i]
        out[f"p_{i}"] = p[i]
        out[f"poisson_{i}"] = min(1.0, 2 * min(stats.poisson.cdf(observed[i], expected[i]), stats.poisson.sf(observed[i] - 1, expected[i])))
        if phi > 1:
            reach = Z * math.sqrt(phi * expected[i])
            out[f"low_{i}"], out[f"high_{i}"] = expected[i] - reach, expected[i] + reach
        else:
            law = stats.poisson(expected[i])
            out[f"low_{i}"], out[f"high_{i}"] = interpolated(law.cdf, law.ppf, TAIL), interpolated(law.cdf, law.ppf, 1 - TAIL)
    return {"observed": observed.tolist(), "expected": expected.tolist()}, out


# ---- sampling: SciPy


def batch(rng):
    lot = int(rng.integers(1, 400))
    sample = int(rng.integers(0, lot + 1))
    off = int(stats.hypergeom.rvs(lot, int(lot * rng.random() ** 3), sample, random_state=rng)) if sample else 0
    marked = np.arange(off, lot - (sample - off) + 1)
    kept = marked[(stats.hypergeom.cdf(off, lot, marked, sample) > WITHIN) & (stats.hypergeom.sf(off - 1, lot, marked, sample) > WITHIN)]
    off_in_lot = int(rng.integers(1, lot + 1))
    sizes = np.arange(1, lot + 1)
    find = sizes[stats.hypergeom.cdf(0, lot, off_in_lot, sizes) <= 1 - 0.95 + 1e-12][0]
    return {"lot": lot, "sample": sample, "off": off, "off_in_lot": off_in_lot}, {"least": float(kept[0]), "most": float(kept[-1]), "find": float(find)}


def characteristic(rng):
    n = int(rng.integers(2, 2000))
    c = int(rng.integers(0, min(n, 22)))
    p = float(rng.random() ** 2 * 0.3)
    chance = float(rng.choice([0.01, 0.1, 0.5, 0.9, 0.95, 0.99]))
    lot = n + int(rng.integers(0, 5000))
    off = int(lot * p)
    out = {
        "long_run": stats.binom.cdf(c, n, p),
        "per_hundred": stats.poisson.cdf(c, n * p),
        "lot": stats.hypergeom.cdf(c, lot, off, n),
        "share": stats.beta.ppf(1 - chance, c + 1, n - c),
    }
    return {"n": n, "c": c, "p": p, "chance": chance, "lot": lot, "off": off}, {k: float(v) for k, v in out.items()}


# ---- bootstrap: the documented generator written again


def draws(seed, n, times):
    state, mask = seed, (1 << 64) - 1
    for _ in range(times):
        drawn = []
        while len(drawn) < n:
            state = (state + 0x9E3779B97F4A7C15) & mask
            z = state
            z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & mask
            z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & mask
            product_ = (z ^ (z >> 31)) * n
            if (product_ & mask) >= (1 << 64) % n:
                drawn.append(product_ >> 64)
        yield drawn


def bootstrap(rng):
    n, seed, times = int(rng.integers(8, 25)), int(rng.integers(0, 1 << 40)), 50
    base = counts(rng, n, 10)
    rows = np.stack([np.maximum(base + rng.integers(-1, 2, n), 0) for _ in range(3)], axis=1).astype(float)
    level = str(rng.choice(["nominal", "ordinal", "interval"]))
    out = {"low": None, "high": None}
    if n >= 10 and not constant(rows.ravel()):
        values = []
        for drawn in draws(seed, n, times):
            resampled = rows[drawn]
            if not constant(resampled.ravel()):
                values.append(krippendorff.alpha(reliability_data=resampled.T, level_of_measurement=level))
        low, high = np.quantile(values, [TAIL, 1 - TAIL]) if values else (0, 0)
        if len(values) >= 0.95 * times and high > low:
            out = {"low": low, "high": high}
    return {"units": as_units(rows), "level": level, "seed": seed, "resamples": times}, out


KINDS = [
    distribution, limits, scale, concordance, deming, spread, clustered, paired, icc, alpha, precision, kappa, fleiss, discovery,
    outlier, funnel, batch, characteristic, bootstrap,
]


def main():
    sets, seed = int(sys.argv[1]), int(sys.argv[2])
    for kind in KINDS:
        rng = np.random.default_rng([seed, sum(map(ord, kind.__name__))])
        done = 0
        while done < sets:
            made = kind(rng)
            if made is None:
                continue
            data, expected = made
            expected = {k: float(v) if v is not None and math.isfinite(v) else None for k, v in expected.items()}
            print(json.dumps({"kind": kind.__name__, "input": data, "expected": expected}, separators=(",", ":")))
            done += 1
    for reason, times in sorted(replaced.items()):
        print(f"{times:5} {reason}", file=sys.stderr)


main()
