"""Computes reference values for the statistics of the core with general-purpose libraries.

Every value is found in two ways: by a library, and by a second library or by counting with exact fractions. The two
must agree before a case is accepted. Without an option the committed file is recomputed and compared; with --write it
is written anew.
"""

import argparse
import itertools
import json
import math
import pathlib
import platform
import random
import statistics
import sys
import warnings
from collections import Counter
from fractions import Fraction

import numpy as np
import pymannkendall
import scipy
import statsmodels
from scipy import special, stats
from statsmodels.api import OLS, add_constant
from statsmodels.stats.contingency_tables import StratifiedTable
from statsmodels.stats.descriptivestats import sign_test
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint
from statsmodels.stats.rates import test_poisson_2indep

GOLDEN = pathlib.Path(__file__).resolve().parents[2] / "data" / "golden" / "statistics.json"
TOLERANCE = 1e-9
DRAW = random.Random(20260825)
CASES = []


def main():
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--write", nargs="?", const=GOLDEN, type=pathlib.Path, help="write the file instead of comparing")
    path = options.parse_args().write
    # Libraries warn about small samples and ties, which are the point of the cases.
    warnings.simplefilter("ignore")
    for family in FAMILIES:
        family()
    if path:
        path.write_text(render(), encoding="utf-8", newline="\n")
        print(f"wrote {len(CASES)} cases to {path.name}")
        return 0
    return compare(json.loads(GOLDEN.read_text(encoding="utf-8")))


def compare(committed):
    passed, failed = 0, 0
    pairs = itertools.zip_longest(committed["cases"], json.loads(json.dumps(CASES)), fillvalue={})
    for number, (old, new) in enumerate(pairs):
        same_question = (old.get("function"), old.get("input")) == (new.get("function"), new.get("input"))
        if same_question and agree(old["output"], new["output"]):
            passed += 1
            continue
        failed += 1
        print(f"case {number} differs\n  committed  {json.dumps(old)}\n  recomputed {json.dumps(new)}")
    if committed["libraries"] != libraries():
        print(f"note: the committed file was made with {committed['libraries']}, this run with {libraries()}")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


def agree(a, b, key=""):
    """Equal within the tolerance; probabilities must agree in their digits however small they are."""
    if isinstance(a, dict):
        return isinstance(b, dict) and a.keys() == b.keys() and all(agree(a[k], b[k], k) for k in a)
    if isinstance(a, list):
        return isinstance(b, list) and len(a) == len(b) and all(agree(x, y, key) for x, y in zip(a, b))
    if a is None or b is None or isinstance(a, bool) or isinstance(b, bool):
        return a is b
    floor = 0.0 if key.startswith("p") else 1e-12
    return abs(a - b) <= max(floor, TOLERANCE * max(abs(a), abs(b)))


def case(function, given, call, output, check):
    """Accepts a case when the library and the second way agree."""
    output, check = plain(output), plain(check)
    for key, value in check.items():
        assert agree(output[key], value, key), f"{function} {given}: {key} is {output[key]} by {call}, but {value} by the second way"
    assert check, f"{function} has no second way"
    CASES.append({"function": function, "input": plain(given), "output": output, "by": call})


def plain(value):
    """Numbers of Python instead of those of numpy or fractions."""
    if isinstance(value, dict):
        return {key: plain(item) for key, item in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(item) for item in value]
    if isinstance(value, (bool, np.bool_)):
        return bool(value)
    if isinstance(value, (int, np.integer)):
        return int(value)
    if isinstance(value, (float, np.floating, Fraction)):
        return None if math.isnan(value) else float(value)
    return value


def libraries():
    return {
        "numpy": np.__version__,
        "scipy": scipy.__version__,
        "statsmodels": statsmodels.__version__,
        "pymannkendall": pymannkendall.__version__,
    }


def render():
    head = {
        "what": "Reference values for the statistics of the core, by tests/peers/statistics/run.py --write",
        "libraries": libraries(),
        "python": platform.python_version(),
    }
    lines = ",\n".join("  " + json.dumps(item, allow_nan=False) for item in CASES)
    return json.dumps(head, indent=1)[:-2] + ',\n "cases": [\n' + lines + "\n ]\n}\n"


# Distributions


def normal():
    for p in [1e-300, 1e-10, 1e-6, 0.001, 0.025, 0.074, 0.2, 0.5, 0.7, 0.975, 0.995, 0.999999]:
        z = special.ndtri(p)
        case("normal_quantile", {"p": p}, "scipy.special.ndtri", {"z": z}, {"z": statistics.NormalDist().inv_cdf(p)})
    for z in [0.0, 1e-6, 0.5, -1.0, 1.96, 2.999, 3.001, 4.5, -8.0, 20.0, 37.0]:
        p = 2 * stats.norm.sf(abs(z))
        case("normal_two_sided_p", {"z": z}, "2 * scipy.stats.norm.sf", {"p": p}, {"p": math.erfc(abs(z) / math.sqrt(2))})


def student():
    for degrees in [1, 2, 3, 4, 7, 12, 29, 60, 365]:
        for t in [0.0, 0.1, -1.0, 2.5, 6.0, 40.0]:
            p = 2 * stats.t.sf(abs(t), degrees)
            check = special.betainc(degrees / 2, 0.5, degrees / (degrees + t * t))
            case("student_two_sided_p", {"t": t, "degrees": degrees}, "2 * scipy.stats.t.sf", {"p": p}, {"p": check})
        for confidence in [0.5, 0.9, 0.95, 0.99, 0.999]:
            t = stats.t.ppf(1 - (1 - confidence) / 2, degrees)
            given = {"confidence": confidence, "degrees": degrees}
            case("student_critical", given, "scipy.stats.t.ppf", {"t": t}, {"t": special.stdtrit(degrees, 1 - (1 - confidence) / 2)})


# Proportions


def wilson():
    counts = [(0, 20, 0.95), (1, 29, 0.95), (15, 148, 0.95), (81, 263, 0.95), (10, 10, 0.95), (7, 12, 0.9)]
    counts += [(6, 32, 0.95), (23, 60, 0.95), (29, 272, 0.95), (10, 23, 0.95), (4, 16, 0.95), (0, 1, 0.95), (1, 1, 0.99)]
    for _ in range(12):
        n = DRAW.randint(1, 400)
        counts.append((DRAW.randint(0, n), n, DRAW.choice([0.8, 0.9, 0.95, 0.99])))
    for events, n, confidence in counts:
        low, high = proportion_confint(events, n, alpha=1 - confidence, method="wilson")
        check = stats.binomtest(events, n).proportion_ci(confidence, method="wilson")
        given = {"events": events, "n": n, "confidence": confidence}
        call = "statsmodels proportion_confint(method='wilson')"
        case("wilson", given, call, {"low": low, "high": high}, {"low": check.low, "high": check.high})


def newcombe():
    pairs = [(56, 70, 48, 80, 0.95), (9, 10, 3, 10, 0.95), (10, 10, 0, 20, 0.95), (5, 56, 0, 29, 0.95), (0, 7, 0, 9, 0.95)]
    for _ in range(12):
        a, b = DRAW.randint(1, 60), DRAW.randint(1, 60)
        pairs.append((DRAW.randint(0, a), a, DRAW.randint(0, b), b, DRAW.choice([0.9, 0.95, 0.99])))
    for x1, n1, x2, n2, confidence in pairs:
        low, high = confint_proportions_2indep(x1, n1, x2, n2, method="newcomb", compare="diff", alpha=1 - confidence)
        one = stats.binomtest(x1, n1).proportion_ci(confidence, method="wilson")
        two = stats.binomtest(x2, n2).proportion_ci(confidence, method="wilson")
        p1, p2 = x1 / n1, x2 / n2
        check = {
            "low": p1 - p2 - math.sqrt((p1 - one.low) ** 2 + (two.high - p2) ** 2),
            "high": p1 - p2 + math.sqrt((one.high - p1) ** 2 + (p2 - two.low) ** 2),
        }
        given = {"a": [x1, n1], "b": [x2, n2], "confidence": confidence}
        call = "statsmodels confint_proportions_2indep(method='newcomb', compare='diff')"
        case("newcombe", given, call, {"low": low, "high": high}, check)


# Exact tests


def table_probabilities(x1, n1, x2, n2):
    """The exact probability of every first cell with these margins."""
    marked, population = x1 + x2, n1 + n2
    cells = range(max(0, marked - n2), min(n1, marked) + 1)
    ways = math.comb(population, n1)
    return {k: Fraction(math.comb(marked, k) * math.comb(population - marked, n1 - k), ways) for k in cells}


def fisher_by_fractions(x1, n1, x2, n2):
    probabilities = table_probabilities(x1, n1, x2, n2)
    observed = probabilities[x1]
    two_sided = sum(p for p in probabilities.values() if p <= observed)
    return {
        "p_table": observed,
        "p_two_sided": two_sided,
        "p_less": sum(p for k, p in probabilities.items() if k <= x1),
        "p_greater": sum(p for k, p in probabilities.items() if k >= x1),
        "p_mid": two_sided - observed / 2,
    }


def fisher_by_scipy(x1, n1, x2, n2):
    table = [[x1, n1 - x1], [x2, n2 - x2]]
    result = {"p_table": stats.hypergeom.pmf(x1, n1 + n2, x1 + x2, n1)}
    for name, alternative in [("p_two_sided", "two-sided"), ("p_less", "less"), ("p_greater", "greater")]:
        result[name] = stats.fisher_exact(table, alternative=alternative).pvalue
    result["p_mid"] = result["p_two_sided"] - result["p_table"] / 2
    return result


def fisher():
    tables = [(8, 10, 1, 6), (3, 4, 1, 4), (0, 10, 6, 10), (12, 17, 29, 31), (2, 17, 10, 13), (0, 10, 0, 7), (5, 5, 4, 4)]
    # Balanced groups, whose tables come in equally probable pairs.
    tables += [(2, 10, 7, 10), (0, 6, 5, 6), (1, 20, 9, 20), (5, 10, 5, 10)]
    for _ in range(14):
        a, b = DRAW.randint(1, 30), DRAW.randint(1, 30)
        tables.append((DRAW.randint(0, a), a, DRAW.randint(0, b), b))
    for _ in range(6):
        a, b = DRAW.randint(100, 400), DRAW.randint(100, 400)
        tables.append((DRAW.randint(0, a), a, DRAW.randint(0, b), b))
    for x1, n1, x2, n2 in tables:
        given = {"a": [x1, n1], "b": [x2, n2]}
        # scipy loses digits far out in one tail, so the exact fractions are what is kept.
        exact = plain(fisher_by_fractions(x1, n1, x2, n2))
        by_scipy = {name: value for name, value in fisher_by_scipy(x1, n1, x2, n2).items() if exact[name] > 1e-12}
        case("fisher", given, "fractions, checked by scipy.stats.fisher_exact and hypergeom", exact, by_scipy or exact)


def binomial():
    counts = [(0, 3, 0.25), (2, 3, 0.25), (9, 10, 0.5), (5, 10, 0.5), (0, 12, 0.02), (12, 12, 0.9), (1, 1, 0.3)]
    for _ in range(12):
        n = DRAW.randint(1, 150)
        counts.append((DRAW.randint(0, n), n, DRAW.randint(1, 39) / 40))
    for k, n, chance in counts:
        exact = Fraction(chance)
        weights = [math.comb(n, i) * exact**i * (1 - exact) ** (n - i) for i in range(n + 1)]
        # The tie rule of scipy, so that a chance without a finite binary form does not split a tie.
        limit = weights[k] * Fraction(1 + 1e-7)
        by_fractions = {"p": sum(weight for weight in weights if weight <= limit)}
        by_scipy = {"p": stats.binomtest(k, n, chance).pvalue}
        call = "fractions, checked by scipy.stats.binomtest"
        case("binomial_two_sided", {"k": k, "n": n, "p": chance}, call, by_fractions, by_scipy)


def rates():
    spans = [(9, 30.0, 1, 30.0), (12, 20.0, 12, 20.0), (0, 15.0, 8, 15.0), (14, 12.5, 31, 17.5), (3, 60.0, 9, 45.0)]
    for a, seconds_a, b, seconds_b in spans:
        p = test_poisson_2indep(a, seconds_a, b, seconds_b, method="exact-cond").pvalue
        check = stats.binomtest(a, a + b, seconds_a / (seconds_a + seconds_b)).pvalue
        given = {"a": [a, seconds_a], "b": [b, seconds_b]}
        case("rates_two_sided", given, "statsmodels test_poisson_2indep(method='exact-cond')", {"p": p}, {"p": check})


def signs():
    series = [
        [-1, -2, -1, -3, -1, -2],
        [1, -2, -1, -3, -1, -2, -4, 0],
        [1, 1, -1, -1],
        [-1, -1, -1, -1, -1, -1, -1, -1, -1, 1],
    ]
    series += [[DRAW.randint(-2, 3) for _ in range(DRAW.randint(5, 40))] for _ in range(6)]
    for differences in series:
        positive, negative = sum(d > 0 for d in differences), sum(d < 0 for d in differences)
        output = {
            "positive": positive,
            "negative": negative,
            "ties": len(differences) - positive - negative,
            "p": sign_test(np.array(differences))[1],
        }
        check = {"p": stats.binomtest(positive, positive + negative, 0.5).pvalue}
        case("sign_test", {"differences": differences}, "statsmodels sign_test", output, check)


# Permutation tests


def sums(values, chosen):
    """Every sum of `chosen` of the values with the number of ways to reach it, by going through all of them."""
    return Counter(sum(picked) for picked in itertools.combinations(values, chosen))


def far_share(distribution, observed, middle):
    far = sum(ways for total, ways in distribution.items() if abs(total - middle) >= abs(observed - middle))
    return Fraction(far, sum(distribution.values()))


def by_permutation(a, b, statistic):
    result = stats.permutation_test(
        (a, b), statistic, permutation_type="independent", n_resamples=np.inf, alternative="greater", vectorized=False
    )
    return result.pvalue


def two_samples():
    pairs = [([4, 5, 6], [1, 2, 3]), ([2, 3], [1, 1, 2]), ([1, 1, 1, 0, 1], [0, 0, 0, 1, 0]), ([3, 0, 2, 2], [1, 1, 0, 0, 1])]
    for _ in range(6):
        high = DRAW.choice([1, 3, 40])
        pairs.append(tuple([DRAW.randint(0, high) for _ in range(DRAW.randint(2, 7))] for _ in "ab"))
    for a, b in pairs:
        if len(set(a + b)) == 1:
            continue
        given = {"a": a, "b": b}
        middle = Fraction(len(a) * sum(a + b), len(a + b))
        difference = statistics.fmean(a) - statistics.fmean(b)
        output = {"difference": difference, "p": by_permutation(a, b, lambda x, y: abs(np.mean(x) - np.mean(y)))}
        call = "scipy.stats.permutation_test, all arrangements"
        check = {"difference": np.mean(a) - np.mean(b), "p": far_share(sums(a + b, len(a)), sum(a), middle)}
        case("mean_difference", given, call, output, check)

        doubled = [int(2 * rank) for rank in stats.rankdata(a + b)]
        observed, middle = sum(doubled[: len(a)]), Fraction(len(a) * sum(doubled), len(a + b))
        half = len(a) * len(b) / 2
        distance = lambda x, y: abs(stats.mannwhitneyu(x, y, method="asymptotic").statistic - half)
        u = stats.mannwhitneyu(a, b, method="asymptotic").statistic
        output = {"u": u, "superiority": u / (2 * half), "p": by_permutation(a, b, distance)}
        check = {
            "u": sum((x > y) + (x == y) / 2 for x in a for y in b),
            "p": far_share(sums(doubled, len(a)), observed, middle),
        }
        case("mann_whitney", given, call, output, check)
        if len(set(a + b)) == len(a + b):
            # Without ties the exact test of the library is the same test.
            by_library = stats.mannwhitneyu(a, b, method="exact").pvalue
            assert agree(float(by_library), float(output["p"]), "p"), (a, b, by_library, output)


def standard_sums(right, left):
    """Every standardised sum of the right side with its exact probability."""
    scores = right + left
    deviation, middle = statistics.stdev(scores), Fraction(len(right) * sum(scores), len(scores))
    ways = sums(scores, len(right))
    total = sum(ways.values())
    return [(float(value - middle) / deviation, Fraction(count, total)) for value, count in ways.items()]


def strata():
    visits = [
        [([1, 1], [0, 0]), ([1, 1], [0, 0])],
        [([1, 1], [0, 0]), ([0, 0], [1, 1])],
        [([1, 1, 1, 0, 1], [0, 0, 0, 1, 0]), ([2, 3], [0, 1])],
        [([1, 1, 1, 1, 0, 1], [0, 0, 1, 0, 0, 1])],
        [([0, 0], [0, 0]), ([1, 0, 1], [0, 0, 0]), ([2], [0])],
    ]
    for _ in range(6):
        draw = lambda n, high: [DRAW.randint(0, high) for _ in range(n)]
        visits.append([(draw(DRAW.randint(2, 6), high), draw(DRAW.randint(2, 6), high)) for high in DRAW.choices([1, 1, 3], k=3)])
    for visit in visits:
        useful = [(right, left) for right, left in visit if len(set(right + left)) > 1]
        observed, variance = 0.0, 0.0
        for right, left in useful:
            scores = right + left
            observed += np.sum((np.array(right) - np.mean(scores)) / np.std(scores, ddof=1))
            variance += len(right) * len(left) / len(scores)
        outcomes = itertools.product(*(standard_sums(right, left) for right, left in useful))
        p = sum(
            math.prod(chance for _, chance in outcome)
            for outcome in outcomes
            if abs(sum(value for value, _ in outcome)) >= abs(observed) - 1e-9
        )
        z = observed / math.sqrt(variance)
        output = {"strata": len(useful), "z": z, "p": p}
        check = {"p": by_arrangement(useful, observed)}
        if len(useful) == 1 and set(useful[0][0] + useful[0][1]) == {0, 1}:
            right, left = useful[0]
            table = np.array([[sum(right), len(right) - sum(right)], [sum(left), len(left) - sum(left)]], float)
            check["z"] = math.copysign(math.sqrt(StratifiedTable([table]).test_null_odds().statistic), z)
        given = {"strata": [{"right": right, "left": left} for right, left in visit]}
        case("stratified", given, "all arrangements, checked by numpy and the Cochran-Mantel-Haenszel test of statsmodels", output, check)


def by_arrangement(useful, observed):
    """The same share by numpy, from every choice of positions instead of every sum."""
    joint = np.zeros(1)
    for right, left in useful:
        scores = np.array(right + left, float)
        standard = (scores - scores.mean()) / scores.std(ddof=1)
        picks = np.array(list(itertools.combinations(range(len(scores)), len(right))))
        joint = np.add.outer(joint, standard[picks].sum(axis=1)).ravel()
    return np.mean(np.abs(joint) >= abs(observed) - 1e-9)


def steps(task):
    """What changes places in a task, in standard scores, and what is held; by lists and fractions."""
    sides, scores = task["right"], task["scores"]
    deviation = statistics.stdev(scores) if len(set(scores)) > 1 else 1.0
    mean = lambda values: Fraction(sum(values), len(values))
    def step(right, left):
        return float(Fraction(len(right) * len(left), len(right) + len(left)) * (mean(right) - mean(left))) / deviation
    if task["exchange"] != "neighbours":
        whole = step(*([score for side, score in zip(sides, scores) if side == wanted] for wanted in [1, 0]))
        return ([whole], 0.0) if task["exchange"] == "whole" else ([], whole)
    stretches = [(side, [score for _, score in group]) for side, group in itertools.groupby(zip(sides, scores), key=lambda r: r[0])]
    free, held = [], 0.0
    for first, second in zip(stretches[0::2], stretches[1::2]):
        (_, right), (_, left) = (first, second) if first[0] == 1 else (second, first)
        if max(len(right), len(left)) > 2:
            held += step(right, left)
        else:
            free.append(step(right, left))
    return free, held


def neighbours():
    turn = lambda scores, exchange="neighbours": {"right": [1 - i % 2 for i in range(len(scores))], "scores": scores, "exchange": exchange}
    after = lambda right, left, exchange: {"right": [1] * len(right) + [0] * len(left), "scores": right + left, "exchange": exchange}
    visits = [
        [turn([0, 1, 0, 1, 1, 1, 0, 1, 1, 0])],
        [after([1, 1], [0, 0], "whole")] * 5,
        [turn([0, 1] * 3), after([0] * 10, [1] * 10, "held")],
        [{"right": [1, 0, 0, 1, 1, 1, 0, 0, 0, 0, 1], "scores": [0, 1, 1, 0, 0, 1, 1, 1, 0, 1, 0], "exchange": "neighbours"}],
        [after([0, 1, 1], [0, 1], "held")],
    ]
    for _ in range(7):
        draw = lambda n, high: [DRAW.randint(0, high) for _ in range(n)]
        jumps = {"right": draw(14, 1), "scores": draw(14, 1), "exchange": "neighbours"}
        visits.append([turn(draw(8, 2)), jumps, after(draw(2, 3), draw(2, 3), "whole"), after(draw(6, 1), draw(9, 1), "held")])
    for visit in visits:
        taken = [steps(task) for task in visit]
        free = np.array([step for own, _ in taken for step in own])
        held = sum(part for _, part in taken)
        telling = free[free != 0]
        signs = np.array(list(itertools.product([1, -1], repeat=len(telling)))).reshape(2 ** len(telling), -1)
        far = np.abs(signs @ telling + held) >= abs(telling.sum() + held) - 1e-9
        output = {
            "parts": [sum(own) + part for own, part in taken],
            "pairs": len(free),
            "telling": len(telling),
            "p": np.mean(far),
        }
        check = {"pairs": sum(len(own) for own, _ in taken)}
        if held == 0 and len(telling):
            # With nothing held this is the test of paired samples of the library.
            by_library = stats.permutation_test(
                (telling, np.zeros(len(telling))),
                lambda x, y: abs(round(np.sum(x - y), 9)),
                permutation_type="samples",
                n_resamples=np.inf,
                alternative="greater",
                vectorized=False,
            )
            check["p"] = by_library.pvalue
        else:
            # Otherwise one pair after the other, by splitting every sum in two.
            sums = Counter({0.0: Fraction(1)})
            for step in telling:
                split = Counter()
                for total, chance in sums.items():
                    for sign in [1, -1]:
                        split[round(total + sign * step, 10)] += chance / 2
                sums = split
            observed = abs(float(telling.sum()) + held)
            check["p"] = sum(chance for total, chance in sums.items() if abs(total + held) >= observed - 1e-7)
        call = "numpy over all signs, checked by scipy.stats.permutation_test(permutation_type='samples') where nothing is held"
        case("neighbours", {"tasks": visit}, call, output, check)


def common_differences():
    visits = [
        [((1, 10), (6, 10)), ((0, 2), (2, 2))],
        [((9, 10), (3, 10))],
        [((0, 10), (0, 10)), ((4, 7), (1, 12)), ((2, 2), (0, 2))],
    ]
    for _ in range(5):
        part = lambda n: (DRAW.randint(0, n), n)
        visits.append([(part(DRAW.randint(1, 20)), part(DRAW.randint(1, 20))) for _ in range(3)])
    for visit in visits:
        weights = np.array([m * n / (m + n) for (_, m), (_, n) in visit])
        weights = weights / weights.sum()
        own = np.array([a / m - b / n for (a, m), (b, n) in visit])
        limits = np.array([confint_proportions_2indep(a, m, b, n, method="newcomb", compare="diff") for (a, m), (b, n) in visit])
        difference = np.average(own, weights=weights)
        output = {
            "difference": difference,
            "low": difference - np.sqrt(np.sum((weights * (own - limits[:, 0])) ** 2)),
            "high": difference + np.sqrt(np.sum((weights * (limits[:, 1] - own)) ** 2)),
        }
        exact = [(Fraction(m * n, m + n), Fraction(a, m), Fraction(b, n), m, n) for (a, m), (b, n) in visit]
        total = sum(weight for weight, *_ in exact)
        below = above = 0.0
        for weight, p, q, m, n in exact:
            (low_p, high_p), (low_q, high_q) = wilson_limits(p, m), wilson_limits(q, n)
            below += float(weight / total) ** 2 * ((float(p) - low_p) ** 2 + (high_q - float(q)) ** 2)
            above += float(weight / total) ** 2 * ((high_p - float(p)) ** 2 + (float(q) - low_q) ** 2)
        middle = sum(weight * (p - q) for weight, p, q, *_ in exact) / total
        check = {"difference": middle, "low": float(middle) - math.sqrt(below), "high": float(middle) + math.sqrt(above)}
        given = {"tasks": [[list(right), list(left)] for right, left in visit], "confidence": 0.95}
        case("common_difference", given, "statsmodels confint_proportions_2indep(method='newcomb'), combined by numpy", output, check)


def wilson_limits(p, n):
    z = statistics.NormalDist().inv_cdf(0.975)
    p = float(p)
    middle, reach = p + z * z / (2 * n), z * math.sqrt(p * (1 - p) / n + z * z / (4 * n * n))
    low, high = (middle - reach) / (1 + z * z / n), (middle + reach) / (1 + z * z / n)
    return (0.0 if p == 0 else low), (1.0 if p == 1 else high)


# Order and time


def halves():
    series = [[0, 0, 0, 0, 1, 1, 1, 1], [1, 0, 1, 0, 0], [0, 0], [0, 0, 0, 1, 0, 1, 1, 0, 1, 1, 1]]
    series += [[DRAW.randint(0, 1) for _ in range(DRAW.randint(6, 50))] for _ in range(5)]
    for events in series:
        half = len(events) // 2
        early, late = sum(events[:half]), sum(events[-half:])
        by_scipy, exact = fisher_by_scipy(early, half, late, half), fisher_by_fractions(early, half, late, half)
        output = {"early": [early, half], "late": [late, half], "p": by_scipy["p_mid"]}
        given = {"events": [bool(event) for event in events]}
        case("early_late", given, "scipy.stats.fisher_exact and hypergeom", output, {"p": exact["p_mid"]})


def taps():
    series = [[0.0, 0.5, 1.0, 1.5, 2.0], [0.0, 0.5, 1.0, 2.0, 2.5], [3.25, 3.5]]
    series.append(list(itertools.accumulate([10.0] + [DRAW.randint(150, 900) / 1000 for _ in range(30)])))
    for times in series:
        gaps = np.diff(times)
        output = {"per_second": 1 / np.mean(gaps), "median_interval": np.median(gaps)}
        check = {
            "per_second": (len(times) - 1) / (times[-1] - times[0]),
            "median_interval": statistics.median(b - a for a, b in itertools.pairwise(times)),
        }
        case("tap_rate", {"times": times}, "numpy.diff, mean and median", output, check)


def summaries():
    series = [[1.0, 2.0, 3.0, 4.0], [6.5, 7.0, 7.0, 8.5, 9.0, 12.0, 13.5], [3.2]]
    series += [[DRAW.randint(0, 300) / 10 for _ in range(n)] for n in [5, 12, 33]]
    levels = [0.0, 0.05, 0.25, 0.5, 0.75, 0.95, 1.0]
    for values in series:
        by_numpy = np.quantile(values, levels, method="linear")
        by_scipy = stats.mstats.mquantiles(values, levels, alphap=1, betap=1)
        given = {"values": values, "levels": levels}
        case("quantile", given, "numpy.quantile(method='linear')", {"q": list(by_numpy)}, {"q": list(by_scipy)})
        if len(values) > 1:
            output = {"mean": np.mean(values), "sd": np.std(values, ddof=1)}
            check = {"mean": statistics.fmean(values), "sd": statistics.stdev(values)}
            case("mean_and_deviation", {"values": values}, "numpy.mean and std(ddof=1)", output, check)


# Trends

WEEKS = ([0, 7, 14, 21, 28], [9.5, 9.0, 8.0, 7.5, 6.0])
UNEVEN = ([0, 3, 10, 17, 24, 31, 45, 60], [12.0, 11.5, 11.8, 9.9, 9.1, 8.4, 8.0, 6.6])
OUTLIER = ([0, 1, 2, 3, 4, 5], [10.0, 9.0, 25.0, 7.0, 6.0, 5.0])
TIES = ([0, 7, 7, 14, 21, 28, 35], [6.0, 6.0, 5.5, 6.0, 5.0, 5.0, 4.5])
THREE = ([1, 2, 3], [2.0, 4.0, 5.0])


def drawn_series(count, same_day):
    for _ in range(count):
        n = DRAW.randint(4, 20)
        days = sorted(DRAW.choices(range(90), k=n) if same_day else DRAW.sample(range(90), n))
        yield days, [DRAW.randint(40, 120) / 10 - day / 30 for day in days]


def least_squares():
    for x, y in [WEEKS, THREE, UNEVEN, OUTLIER, TIES, *drawn_series(5, True)]:
        for confidence in [0.95, 0.8]:
            fit = OLS(y, add_constant(np.array(x, float))).fit()
            low, high = fit.conf_int(1 - confidence)[1]
            output = {
                "slope": fit.params[1],
                "intercept": fit.params[0],
                "slope_error": fit.bse[1],
                "low": low,
                "high": high,
                "degrees": int(fit.df_resid),
                "p": fit.pvalues[1],
                "r_squared": fit.rsquared,
            }
            line = stats.linregress(x, y)
            reach = stats.t.ppf(1 - (1 - confidence) / 2, len(x) - 2) * line.stderr
            check = {
                "slope": line.slope,
                "intercept": line.intercept,
                "slope_error": line.stderr,
                "low": line.slope - reach,
                "high": line.slope + reach,
                "p": line.pvalue,
                "r_squared": line.rvalue**2,
            }
            given = {"x": x, "y": y, "confidence": confidence}
            case("least_squares", given, "statsmodels OLS", output, check)


def theil_sen():
    for x, y in [WEEKS, THREE, UNEVEN, OUTLIER, TIES, *drawn_series(6, True)]:
        for confidence in [0.95, 0.8]:
            line = stats.theilslopes(y, x, alpha=confidence, method="separate")
            pairs = [(i, j) for i, j in itertools.combinations(range(len(x)), 2) if x[i] != x[j]]
            slopes = [(y[j] - y[i]) / (x[j] - x[i]) for i, j in pairs]
            output = {
                "slope": line.slope,
                "intercept": line.intercept,
                "low": line.low_slope,
                "high": line.high_slope,
                "pairs": len(pairs),
            }
            middle = statistics.median(slopes)
            check = {"slope": middle, "intercept": statistics.median(y) - middle * statistics.median(x)}
            given = {"x": x, "y": y, "confidence": confidence}
            case("theil_sen", given, "scipy.stats.theilslopes(method='separate')", output, check)


def score(values):
    return sum((later > earlier) - (later < earlier) for earlier, later in itertools.combinations(values, 2))


def exact_trend_p(values):
    """By going through every order of up to eight values; by the exact test of scipy beyond."""
    size = abs(score(values))
    if len(values) <= 8:
        orders = Counter(abs(score(order)) for order in itertools.permutations(values))
        return Fraction(sum(ways for s, ways in orders.items() if s >= size), math.factorial(len(values)))
    return stats.kendalltau(range(len(values)), values, method="exact").pvalue


def mann_kendall():
    series = [WEEKS[1], TIES[1], [10.0, 9.0, 25.0, 7.0, 6.0, 5.0, 8.0, 4.0], [4.0, 4.0, 4.0, 5.0], [1.0, 2.0, 1.0, 2.0, 1.0]]
    series += [[DRAW.randint(0, 4) / 2 for _ in range(n)] for n in [5, 6, 7, 8]]
    series += [DRAW.sample(range(100), n) for n in [7, 9, 12, 25, 40]]
    for values in series:
        test = pymannkendall.original_test(values)
        n = len(values)
        tied = Counter(values).values()
        variance = Fraction(n * (n - 1) * (2 * n + 5) - sum(t * (t - 1) * (2 * t + 5) for t in tied), 18)
        s = score(values)
        z = (s - (s > 0) + (s < 0)) / math.sqrt(variance)
        p_exact = exact_trend_p(values)
        output = {
            "s": test.s,
            "variance": test.var_s,
            "z": test.z,
            "p_normal": test.p,
            "p_exact": p_exact,
            "tau": test.Tau,
        }
        # Near 1 - cdf the library loses digits of small p, so erfc is what is kept.
        output["p_normal"] = math.erfc(abs(z) / math.sqrt(2))
        check = {"s": s, "variance": variance, "z": z, "tau": Fraction(2 * s, n * (n - 1))}
        if len(set(values)) == n:
            check["p_exact"] = stats.kendalltau(range(n), values, method="exact").pvalue
        if test.p > 1e-6:
            check["p_normal"] = test.p
        call = "pymannkendall.original_test; p_exact by every order or scipy.stats.kendalltau(method='exact')"
        case("mann_kendall", {"values": values}, call, output, check)


# Change


def change():
    people = [
        (9.0, 6.0, 2.0, 0.9, 0.95),
        (5.0, 4.0, 1.5, 0.75, 0.95),
        (12.5, 12.0, 4.2, 0.83, 0.95),
        (47.5, 32.5, 7.5, 0.8, 0.95),
        (20.0, 31.0, 8.4, 0.77, 0.95),
        (20.0, 31.0, 8.4, 0.77, 0.9),
    ]
    for before, after, deviation, reliability, confidence in people:
        z = stats.norm.ppf(1 - (1 - confidence) / 2)
        error = deviation * np.sqrt(1 - reliability)
        both = np.sqrt(error**2 + error**2)
        output = {
            "sem": error,
            "error_of_difference": both,
            "index": (after - before) / both,
            "threshold": z,
            "reliable": abs((after - before) / both) > z,
            "minimal_detectable_change": z * both,
        }
        again = deviation * math.sqrt(2 * (1 - reliability))
        check = {
            "error_of_difference": again,
            "index": (after - before) / again,
            "threshold": statistics.NormalDist().inv_cdf(1 - (1 - confidence) / 2),
            "minimal_detectable_change": z * again,
        }
        given = {
            "before": before,
            "after": after,
            "standard_deviation": deviation,
            "reliability": reliability,
            "confidence": confidence,
        }
        case("change", given, "numpy.sqrt and scipy.stats.norm.ppf", output, check)


FAMILIES = [
    normal,
    student,
    wilson,
    newcombe,
    fisher,
    binomial,
    rates,
    signs,
    two_samples,
    strata,
    halves,
    taps,
    summaries,
    least_squares,
    theil_sen,
    mann_kendall,
    change,
    neighbours,
    common_differences,
]

if __name__ == "__main__":
    sys.exit(main())
