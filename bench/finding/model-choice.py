"""Figures that core/src/finding/evidence.test.ts holds the model choice against, by an independent program: SciPy's multivariate normal density.

Data as printed in R's documentation: `cars` (Ezekiel 1930) and `anscombe` (Anscombe 1973). Run with Python 3, NumPy and SciPy.
A constant has a prior so wide (1e7) that it is as good as free; the noise is the residual deviation of the full straight line, given beforehand.
"""
import numpy as np
from scipy.stats import multivariate_normal as mvn
import scipy

cars = np.array([4,2,4,10,7,4,7,22,8,16,9,10,10,18,10,26,10,34,11,17,11,28,12,14,12,20,12,24,12,28,13,26,13,34,13,34,13,46,14,26,14,36,14,60,14,80,15,20,15,26,15,54,16,32,16,40,17,32,17,40,17,50,18,42,18,56,18,76,18,84,19,36,19,46,19,68,20,32,20,48,20,52,20,56,20,64,22,66,23,54,24,70,24,92,24,93,24,120,25,85], float).reshape(-1, 2)
x = np.array([10,8,13,9,11,14,6,4,12,7,5], float)
y1 = np.array([8.04,6.95,7.58,8.81,8.33,9.96,7.24,4.26,10.84,4.82,5.68])
y2 = np.array([9.14,8.14,8.74,8.77,9.26,8.10,6.13,3.10,9.13,7.26,4.74])

def log_bf(y, column, sigma, prior):
    n = len(y)
    free = sigma**2*np.eye(n) + 1e7*np.ones((n, n))
    return mvn.logpdf(y, np.zeros(n), free + prior**2*np.outer(column, column)) - mvn.logpdf(y, np.zeros(n), free)

print('scipy', scipy.__version__)
speed, dist = cars[:, 0], cars[:, 1]
print('cars slope, intercept', np.polyfit(speed, dist, 1))
for name, col, s in [('speed', speed, 5.0), ('speed^2', speed**2, 0.2), ('fast (over 15)', (speed > 15)*1.0, 30.0)]:
    print('cars', name, repr(log_bf(dist, col, 15.38, s)))
for name, y in [('1', y1), ('2', y2)]:
    print('anscombe', name, np.polyfit(x, y, 1))
    for what, col, s in [('x', x, 1.0), ('(x-9)^2', (x-9)**2, 0.2), ('last', (x == 5)*1.0, 3.0)]:
        print('anscombe', name, what, repr(log_bf(y, col, 1.237, s)))
