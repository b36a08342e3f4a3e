"""Figures that core/src/progress/course.test.ts holds the course of a clean tempo against, by an independent program: SciPy's quad and minimize.

The data are made up here: twelve days, runs at one or two tempi each. Odds of a clean run at a tempo fall as a logistic of log tempo with 2 % lapses;
the course is where they are 85 %. The form of a day is normal about it and integrated out by quad; every model is fitted without a grid.
"""
import numpy as np, scipy
from scipy.integrate import quad
from scipy.optimize import minimize
from scipy.stats import norm

SLOPE, NIGHT, LAPSE = 0.055, 0.025, 0.02
DAYS = [[(72, 18, 20)], [(75, 15, 20), (68, 12, 12)], [(72, 19, 22)], [(75, 14, 18)], [(74, 16, 20)], [(76, 15, 21)],
        [(80, 19, 20)], [(84, 18, 21), (68, 12, 12)], [(86, 17, 20)], [(88, 14, 20)], [(86, 18, 21)], [(87, 16, 20)]]

def odds(x, c):
    threshold = c + SLOPE * np.log(0.85 / (1 - LAPSE - 0.85))
    return (1 - LAPSE) / (1 + np.exp((x - threshold) / SLOPE))

def given(day, c):
    return sum(k * np.log(odds(np.log(t), c)) + (n - k) * np.log(1 - odds(np.log(t), c)) for t, k, n in day)

def day_log(day, c):
    top = max(given(day, c + u) for u in np.linspace(-.15, .15, 61))
    whole, _ = quad(lambda u: np.exp(given(day, c + u) - top) * norm.pdf(u, 0, NIGHT), -.2, .2, epsabs=1e-12, epsrel=1e-10, limit=200)
    return top + np.log(whole)

def fit(course, start):
    best = min((minimize(lambda p: -sum(day_log(d, course(p, i)) for i, d in enumerate(DAYS)), s, method='Nelder-Mead', options=dict(xatol=1e-6, fatol=1e-8, maxiter=4000)) for s in start), key=lambda r: r.fun)
    return -best.fun, best.x

print('scipy', scipy.__version__)
for d, bpm in [(0, 70), (0, 80), (1, 75), (9, 84)]:
    print('day', d, 'at', bpm, repr(float(day_log(DAYS[d], np.log(bpm)))))
flat, at = fit(lambda p, i: p[0], [[np.log(78)]])
line, pl = fit(lambda p, i: p[0] + p[1] * i / 11, [[np.log(72), .2]])
print('flat', flat, np.exp(at)); print('line', line, np.exp(pl[0]), pl[1])
for at in range(4, 9):
    step, ps = fit(lambda p, i: p[0] + (p[1] if i >= at else 0), [[np.log(74), .15]])
    print('flat and a step at', at, step, np.exp(ps[0]), ps[1])

# Lines that join: level up to a day and then a line; and a line, level, and a line again, on eighteen days of their own.
for to in (5, 6, 7):
    stood, ps = fit(lambda p, i: p[0] + p[1] * max(0, i - to), [[np.log(74), .03]])
    print('stands to', to, stood, np.exp(ps[0]), ps[1])
LONGER = [[(70 + 1.2 * min(i, 5) + 1.2 * max(0, i - 12), 16 + i % 3, 20)] for i in range(18)]
DAYS = LONGER
three, ps = fit(lambda p, i: p[0] + p[1] * min(0, i - 5) + p[2] * max(0, i - 12), [[np.log(76), .015, .015]])
print('line, level from 5 to 12, line:', three, np.exp(ps[0]), ps[1], ps[2])
straight, pl = fit(lambda p, i: p[0] + p[1] * i / 17, [[np.log(70), .2]])
print('line through the longer days', straight, np.exp(pl[0]), pl[1])
