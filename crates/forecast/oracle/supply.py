"""Prints the values that the tests of the supply half hold, with the versions that computed them.

Needs numpy, scipy and stockpyl (scipy 1.17.1 and stockpyl 1.0.2 gave the values in the tests).
Run: python3 supply.py
"""

import math
from collections import defaultdict
from fractions import Fraction
from importlib.metadata import version

from scipy.optimize import brentq
from scipy.stats import nbinom, norm, poisson
from stockpyl import eoq, loss_functions, newsvendor, rq, ss


def show(row, what, *values):
    print(f"{row:>3}  {what}: " + "  ".join(f"{v:.12g}" if isinstance(v, float) else str(v) for v in values))


def loss(k):
    return norm.pdf(k) - k * norm.sf(k)


def loss_inverse(g):
    return brentq(lambda k: loss(k) - g, -g - 1, 8, xtol=1e-14)


print("   ", ", ".join(f"{name} {version(name)}" for name in ("numpy", "scipy", "stockpyl")))

# 30 to 33: the unit normal
for p in (0.8, 0.85, 0.9, 0.95, 0.975, 0.98, 0.99, 0.995, 0.999):
    show(30, f"quantile {p}", float(norm.ppf(p)))
for p in (1e-12, 1e-9, 1e-6, 0.3):
    show(30, f"quantile {p}", float(norm.ppf(p)))
for k in (-1, 0, 0.5, 1, 1.25, 1.5, 1.645, 2, 2.33, 2.5, 3, 4):
    show(31, f"loss {k}", float(loss(k)), float(loss_functions.standard_normal_loss(k)[0]))
for g in (0.1, 0.05, 0.02, 0.01, 0.001):
    show(32, f"inverse loss {g}", float(loss_inverse(g)))

# 34 to 37: levels
show(34, "safety, point", 12 * norm.ppf(0.95), 90 + 12 * norm.ppf(0.95))
sd = math.sqrt(4 * 25 + 400 * 2.25)
show(35, "sd, safety, point", sd, sd * norm.ppf(0.95), 80 + sd * norm.ppf(0.95))
show(36, "order up to", 1.2 * 21 + norm.ppf(0.98) * 0.9 * math.sqrt(21))
k = 40 / 31.6227766
show(37, "k, cycle", k, float(norm.cdf(k)))
show(37, "fill, one and both terms", 1 - 31.6227766 * loss(k) / 60, 1 - 31.6227766 * (loss(k) - loss(k + 60 / 31.6227766)) / 60)

# 38 to 44: lots
show(38, "EOQ, cost", *map(float, eoq.economic_order_quantity(8, 0.225, 1300)))
show(38, "EOQ, cost (problem 3.1)", *map(float, eoq.economic_order_quantity(2250, 275, 182500)))
show(39, "EOQ", math.sqrt(2 * 12 * 3120 / 0.005))
show(41, "EOQ, cost, cost at 25 and 50", *map(float, eoq.economic_order_quantity(9.5, 1.05, 52)), 9.5 * 52 / 25 + 1.05 * 12.5, 9.5 * 52 / 50 + 1.05 * 25)
show(42, "newsvendor", *map(float, newsvendor.newsvendor_normal(0.18, 0.70, 50, 8)))
show(42, "profit", *map(float, newsvendor.newsvendor_normal_explicit(1, 0.3, 0.12, 50, 8)))
show(42, "problem 4.1", *map(float, newsvendor.newsvendor_normal(43, 79, 900, 60)))
show(42, "problem 4.3b", *map(float, newsvendor.newsvendor_normal_explicit(7, 2.5, 1.5, 50, 10)))
show(43, "ratio, z, quantity", 0.5 / 0.65, float(norm.ppf(0.5 / 0.65)), float(11.73 + 4.74 * norm.ppf(0.5 / 0.65)))
show(44, "problem 4.8a", *map(float, newsvendor.newsvendor_poisson(200, 270, 18)))
pmf = {1: 0.25, 2: 0.05, 3: 0.1, 4: 0.2, 5: 0.15, 6: 0.1, 7: 0.1, 8: 0.05}
show(44, "problem 4.7b", *map(float, newsvendor.newsvendor_discrete(500000, 1000000, demand_pmf=pmf)))

# 45 to 49: policies
q = math.sqrt(2 * 50 * 200 / 2)
show(45, "first point", float(100 + 25 * norm.isf(q * 2 / (25 * 200))))
for _ in range(200):
    z = norm.isf(q * 2 / (25 * 200))
    q = math.sqrt(2 * 200 * (50 + 25 * 25 * loss(z)) / 2)
z = norm.isf(q * 2 / (25 * 200))
show(45, "quantity, point, z, wanting", q, float(100 + 25 * z), float(z), float(25 * loss(z)))
show(46, "type 1; type 2", float(100 + 25 * norm.ppf(0.98)), float(loss_inverse(0.08)), float(100 + 25 * loss_inverse(0.08)))
show(47, "example 5.1, expected level", *map(float, rq.r_q_eil_approximation(0.225, 7.5, 8, 1300, 150, 1 / 12, tol=1e-12)))
show(47, "example 5.1, EOQ and point", *map(float, rq.r_q_eoqss_approximation(0.225, 7.5, 8, 1300, 150, 1 / 12)))
show(47, "problem 5.1, expected level", *map(float, rq.r_q_eil_approximation(3.1, 45, 50, 800, 40, 4 / 365, tol=1e-12)))
show(48, "example 5.8", *map(float, rq.r_q_poisson_exact(20, 150, 100, 1.5, 2)))
show(48, "problem 5.2", *map(float, rq.r_q_poisson_exact(4, 28, 4, 12, 0.5)))
show(49, "example 4.7", *map(float, ss.s_s_discrete_exact(1, 4, 5, True, 6)))
show(49, "problem 4.31", *map(float, ss.s_s_discrete_exact(40, 125, 150, True, 4)))

# 50 to 52: counts
for mean in (0.5, 2.4, 3.6):
    show(50, f"Poisson {mean}", *(int(poisson.ppf(p, mean)) for p in (0.9, 0.95, 0.99)))
show(51, "negative binomial 4, 10", int(nbinom.ppf(0.95, 8 / 3, 0.4)), float(nbinom.cdf(9, 8 / 3, 0.4)), float(nbinom.cdf(10, 8 / 3, 0.4)))


def wanting(dist, x, top):
    return math.fsum((k - x) * float(dist.pmf(k)) for k in range(x + 1, top))


show(51, "loss at 6", wanting(nbinom(8 / 3, 0.4), 6, 400))
show(50, "Poisson 18 loss at 19", wanting(poisson(18), 19, 400))
for mean in (1e-9, 1e3, 1e5, 1e6):
    d = poisson(mean)
    at = int(mean + 1.5 * math.sqrt(mean))
    show(50, f"Poisson {mean:g}: share, up to {at}; 0.95 quantile", float(d.pmf(at)), float(d.cdf(at)), int(d.ppf(0.95)))
for mean, variance in ((1e4, 2e4), (1e4, 1e8), (1e4, 1e12), (3, 3.001), (0.01, 5.0), (500.0, 530.0)):
    r, p = mean * mean / (variance - mean), mean / variance
    d = nbinom(r, p)
    at = int(mean + 1.5 * math.sqrt(variance))
    show(51, f"nb {mean:g} {variance:g}: share, up to {at}; 0.95 quantile", float(d.pmf(at)), float(d.cdf(at)), int(d.ppf(0.95)))

# 53 to 55: lead-time demand of FPP2's productC, in exact fractions
C = [0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0]


def chain(length, markov):
    moves = [[0, 0], [0, 0]]
    for a, b in zip(C, C[1:]):
        moves[a > 0][b > 0] += 1
    sizes = [x for x in C if x]
    state = {(C[-1] > 0, 0): Fraction(1)}
    for _ in range(length):
        following = defaultdict(Fraction)
        for (at, total), share in state.items():
            use = Fraction(moves[at][1], sum(moves[at])) if markov else Fraction(len(sizes), len(C))
            following[False, total] += share * (1 - use)
            for x in sizes:
                following[True, total + x] += share * use / len(sizes)
        state = following
    sums = defaultdict(Fraction)
    for (_, total), share in state.items():
        sums[total] += share
    return moves, sums


def levels(row, name, sums):
    mean = sum(x * p for x, p in sums.items())
    variance = sum((x - mean) ** 2 * p for x, p in sums.items())
    up_to = lambda v: sum(p for x, p in sums.items() if x <= v)
    quantile = lambda p: min(v for v in sums if up_to(v) >= Fraction(p))
    show(row, f"{name}: mean, variance, nothing", float(mean), float(variance), float(sums[0]))
    show(row, f"{name}: quantiles", *(quantile(p) for p in ("0.9", "0.95", "0.99")))
    show(row, f"{name}: up to", *(f"{v}: {float(up_to(v)):.12g}" for v in (5, 11, 13, 18, 19)))
    show(row, f"{name}: wanting beyond 5", float(sum((x - 5) * p for x, p in sums.items() if x > 5)))


moves, sums = chain(4, True)
show(53, "moves", moves)
levels(54, "Markov, 4", sums)
levels(55, "independent, 4", chain(4, False)[1])
mixed = defaultdict(Fraction)
for length in (2, 4, 4, 5):
    for x, p in chain(length, True)[1].items():
        mixed[x] += p / 4
levels(54, "Markov, lead times 2, 4, 4, 5", mixed)

# one seed, drawn by another hand: SplitMix64, a move by the chain, then a size in the order of time
def splitmix(seed):
    mask = 2**64 - 1
    while True:
        seed = (seed + 0x9E3779B97F4A7C15) & mask
        z = seed
        z = ((z ^ (z >> 30)) * 0xBF58476D1CE4E5B9) & mask
        z = ((z ^ (z >> 27)) * 0x94D049BB133111EB) & mask
        yield z ^ (z >> 31)


dice = splitmix(20261104)
below = lambda bound: next(dice) * bound >> 64
sizes = [x for x in C if x]
sums = defaultdict(int)
for _ in range(1000):
    at, total = C[-1] > 0, 0
    for _ in range(4):
        at = below(sum(moves[at])) < moves[at][1]
        if at:
            total += sizes[below(len(sizes))]
    sums[total] += 1
show(54, "seed 20261104, 1000 draws", *(f"{x}: {n}" for x, n in sorted(sums.items())))

# 56: the smoothed level
show(56, "factor, sd", 1 + 1.2**2 + 1.4**2 + 1.6**2, math.sqrt(1 + 1.2**2 + 1.4**2 + 1.6**2))
