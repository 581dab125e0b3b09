"""Runs the tests of a visit with scipy and statsmodels, on the data that the core was timed on, and prints milliseconds.

The data come on standard input as JSON: `tables` (events and number to the right and to the left), `turns` (scores in
the order they were made, right and left in turn), `courses` (numbers in order) and `changes` (events and number then and
now). Importing the libraries is not counted. Every run does each test once; the median of the runs is printed.
"""

import json
import statistics
import sys
import time
import warnings

import numpy as np
import pymannkendall
from scipy import stats
from statsmodels.stats.proportion import confint_proportions_2indep, proportion_confint

RUNS = 7


def main():
    warnings.simplefilter("ignore")
    data = json.load(sys.stdin)
    times = []
    for _ in range(RUNS):
        begun = time.perf_counter()
        run(data)
        times.append(1000.0 * (time.perf_counter() - begun))
    print(f"{statistics.median(times):.3f}")


def run(data):
    for right, n_right, left, n_left in data["tables"]:
        mid_p(right, n_right, left, n_left)
        confint_proportions_2indep(right, n_right, left, n_left, method="newcomb")
        proportion_confint(right, n_right, method="wilson")
        proportion_confint(left, n_left, method="wilson")
    if data["turns"]:
        neighbours(data["turns"])
    for values in data["courses"]:
        stats.theilslopes(values, np.arange(len(values)))
        pymannkendall.original_test(values)
    for then, n_then, now, n_now in data["changes"]:
        confint_proportions_2indep(now, n_now, then, n_then, method="newcomb")


def mid_p(right, n_right, left, n_left):
    """Fisher's exact test, two-sided by probability, with half of the observed table."""
    spread = stats.hypergeom(n_right + n_left, right + left, n_right)
    possible = np.arange(max(0, right + left - n_left), min(n_right, right + left) + 1)
    chances = spread.pmf(possible)
    observed = spread.pmf(right)
    return chances[chances <= observed * (1 + 1e-9)].sum() - observed / 2


def neighbours(turns):
    """Each pair of neighbours in time changes places by itself, all tasks together."""
    steps = []
    for scores in turns:
        scores = np.asarray(scores, dtype=float)
        deviation = scores.std(ddof=1)
        if deviation > 0:
            pairs = scores[: len(scores) // 2 * 2].reshape(-1, 2)
            steps.extend((pairs[:, 0] - pairs[:, 1]) / 2 / deviation)
    steps = np.array([step for step in steps if step != 0])
    if len(steps):
        stats.permutation_test((steps,), np.sum, permutation_type="samples", n_resamples=19_999, vectorized=False)


if __name__ == "__main__":
    main()
