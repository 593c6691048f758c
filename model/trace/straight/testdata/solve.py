#!/usr/bin/python3
"""Writes solve.csv: noisy places of a photo and of the paper, and where two
libraries then take other places of the photo. Without a lens and with twelve
places or more the perspective is cv2.findHomography's, which takes places as
32-bit numbers. With a lens of one radial term, and with fewer places, where
OpenCV stops after ten rounds short of the least squares, it is that of
scipy.optimize.least_squares."""
import os
import cv2
import numpy as np
import scipy
from scipy.optimize import least_squares

os.chdir(os.path.dirname(os.path.abspath(__file__)))
rng = np.random.default_rng(11)
rows = [f"# OpenCV {cv2.__version__} findHomography (by 0), SciPy {scipy.__version__} least_squares (by 1)",
        "# problem, lens, by, middle x y, scale, given 1 or asked 0, px x y, mm x y"]
W, H = 3000.0, 4000.0
MID, SCALE = np.array([W/2, H/2]), float(np.hypot(W, H)/2)


def through(h, p):
    q = np.c_[p, np.ones(len(p))] @ np.asarray(h).reshape(3, 3).T
    return q[:, :2]/q[:, 2:]


def bend(k1, p):
    v = p-MID
    return MID+v*(1+k1*((v/SCALE)**2).sum(1))[:, None]


def unbend(k1, p):
    q = p.copy()
    for _ in range(200):
        v = q-MID
        q = MID+(p-MID)/(1+k1*((v/SCALE)**2).sum(1))[:, None]
    return q


def coarse(p):
    return np.round(p*64)/64          # the same in 32 bits


def truth():
    """mm of the paper to places without bend"""
    a, s = rng.uniform(-3, 3), rng.uniform(3.5, 6)
    c, n = np.cos(a)*s, np.sin(a)*s
    t = np.array([[c, -n, 0], [n, c, 0], [rng.uniform(-2e-4, 2e-4), rng.uniform(-2e-4, 2e-4), 1]])
    move = np.array([[1, 0, W/2], [0, 1, H/2], [0, 0, 1]])
    back = np.array([[1, 0, -300.0], [0, 1, -400], [0, 0, 1]])
    return move @ t @ back


for number in range(12):
    lens = number % 2
    k1 = rng.uniform(-0.03, 0.03)*lens
    g = truth()
    n = int(rng.integers(5, 25)) if not lens else int(rng.integers(10, 40))
    mm = coarse(rng.uniform([50, 50], [550, 750], (n, 2)))
    px = coarse(bend(k1, through(g, mm))+rng.normal(0, 0.7, (n, 2)))
    ask = bend(k1, through(g, rng.uniform([100, 100], [500, 700], (6, 2))))
    by = int(lens or n < 12)
    if by:
        start = np.linalg.inv(g)
        start /= start[2, 2]
        unit = np.array([1, 1, 100, 1, 1, 100, 1e-4, 1e-4])

        def off(x):
            h = np.append(start.ravel()[:8]+x[:8]*unit*1e-2, 1)
            return (through(h, unbend(x[8]*0.01 if lens else 0.0, px))-mm).ravel()
        x = least_squares(off, np.append(np.zeros(8), k1*100)[:8+lens], jac="3-point", xtol=1e-15, ftol=1e-15, gtol=1e-15, max_nfev=2000).x
        h, k = np.append(start.ravel()[:8]+x[:8]*unit*1e-2, 1), x[8]*0.01 if lens else 0.0
    else:
        h, k = cv2.findHomography(px, mm, 0)[0], 0.0
    put = lambda given, p, q: rows.append(",".join([str(number), str(lens), str(by)]+[repr(float(v)) for v in (*MID, SCALE)]+[str(given)]+[repr(float(v)) for v in (*p, *q)]))
    for p, q in zip(px, mm):
        put(1, p, q)
    for p, q in zip(ask, through(h, unbend(k, ask))):
        put(0, p, q)
open("solve.csv", "w").write("\n".join(rows)+"\n")
