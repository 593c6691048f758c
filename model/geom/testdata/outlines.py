"""Makes outlines.json: random garment-sized outlines with their lengths, from
reference libraries, for the checks in lengthref_test.go.

    apt-get install python3-scipy python3-shapely
    /usr/bin/python3 outlines.py > outlines.json

An outline has 4 to 9 edges of 1 to 3 cubics, each edge smooth, and a seam
allowance of 0 to 25 mm per edge. It is kept only when it is sound: its lines
do not cross, no bend is tighter than its allowance, and inside the allowances
there is an outline again. What is worked out for each:

cut    the length of every edge, by adaptive quadrature (scipy.integrate.quad)
sewn   the length of every edge of the line inside the allowances: the parallel
       curve, whose speed is |c'| (1 - a k) for allowance a and curvature k, by
       quadrature between its meetings with its neighbours, and the straight
       line to where the meeting lies past its end. A meeting is a root of two
       equations (scipy.optimize.root); that there is one only, and that the
       line crosses itself nowhere, GEOS says.
whole  the length all round inside an equal allowance of `even` mm, by GEOS
       alone: the outline as a fine polygon, less the strips along its sides
       and the mitres at its hollow corners. Where a curve ends at a mitre, its
       last chord is off its direction by as much as it is long, so the polygon
       is taken with half as many chords too and the error taken off.

Millimetres; x right, y down.
"""

import json
import math
import sys

import numpy as np
import scipy
import shapely
from scipy import integrate, optimize
from shapely import geos, ops
from shapely.geometry import LineString, Polygon

OUTLINES = 200
SEED = 20261128
TIGHT = 0.3  # the parallel line runs at least at this share of the edge's speed
FINE = 64  # chords a cubic where crossings are looked for
FINER = 320  # chords a cubic where GEOS measures, and half as many
OVER = 1e-4  # mm by which its strips overlap, so that rounding leaves no slit

rng = np.random.default_rng(SEED)


class Edge:
    """A run of cubics, seen as one curve with parameter 0 to len(cubics)."""

    def __init__(self, cubics):
        self.c = np.array(cubics, float)
        self.n = len(cubics)

    def part(self, u):
        i = int(min(max(math.floor(u), 0), self.n - 1))
        return self.c[i], u - i

    def at(self, u):
        p, t = self.part(u)
        s = 1 - t
        return s**3 * p[0] + 3 * s * s * t * p[1] + 3 * s * t * t * p[2] + t**3 * p[3]

    def d1(self, u):
        p, t = self.part(u)
        s = 1 - t
        return 3 * (s * s * (p[1] - p[0]) + 2 * s * t * (p[2] - p[1]) + t * t * (p[3] - p[2]))

    def d2(self, u):
        p, t = self.part(u)
        return 6 * ((1 - t) * (p[2] - 2 * p[1] + p[0]) + t * (p[3] - 2 * p[2] + p[1]))

    def speed(self, u):
        return math.hypot(*self.d1(u))

    def bend(self, u):
        a, b = self.d1(u), self.d2(u)
        return (a[0] * b[1] - a[1] * b[0]) / math.hypot(*a) ** 3

    def inside(self, u, a):
        """The point a mm inside; before 0 and past n straight on, by mm."""
        over = min(u, 0) + max(u - self.n, 0)
        v = min(max(u, 0), self.n)
        t = self.d1(v)
        t = t / math.hypot(*t)
        return self.at(v) + a * np.array([-t[1], t[0]]) + over * t

    def fine(self, n):
        return [self.at(u) for u in np.linspace(0, self.n, self.n * n + 1)]

    def kink(self, k):
        """The turn at joint k: what rounding the control points left of none."""
        p, q = self.c[k - 1], self.c[k]
        a, b = p[3] - p[2], q[1] - q[0]
        return math.atan2(a[0] * b[1] - a[1] * b[0], a @ b)

    def length(self, lo, hi, a):
        """Length of the line a mm inside, from parameter lo to hi."""
        sum = max(0, min(0, hi) - lo) + max(0, hi - max(self.n, lo))
        lo, hi = max(lo, 0), min(hi, self.n)
        inner = [k for k in range(1, self.n) if lo < k < hi]
        sum -= 2 * a * math.fsum(math.tan(self.kink(k) / 2) for k in inner)
        cuts = [lo] + inner + [hi]
        for x, y in zip(cuts, cuts[1:]):
            m = (x + y) / 2
            i = int(math.floor(m))
            f = lambda u: self.speed_in(i, u, a)
            sum += integrate.quad(f, x, y, epsabs=1e-10, epsrel=1e-12, limit=200)[0]
        return sum

    def speed_in(self, i, u, a):
        """speed of the parallel line, read on cubic i also at its very end"""
        one = Edge([self.c[i]])
        t = min(max(u - i, 0), 1)
        return one.speed(t) * (1 - a * one.bend(t))


def corners():
    n = int(rng.integers(4, 10))
    gaps = rng.uniform(0.6, 1.4, n)
    turn = np.cumsum(gaps) / gaps.sum() * 2 * math.pi + rng.uniform(0, 7)
    r = rng.uniform(0.55, 1.15, n)
    wide, tall = rng.uniform(120, 320), rng.uniform(150, 420)
    return [np.array([wide * k * math.cos(f), tall * k * math.sin(f)]) for k, f in zip(r, turn)]


def edge(a, b):
    k = int(rng.integers(1, 4))
    chord = b - a
    along, across = chord, np.array([-chord[1], chord[0]])
    bow, wave = rng.uniform(-0.14, 0.14), rng.uniform(-0.05, 0.05)
    if rng.random() < 0.2:
        bow = wave = 0.0  # a straight edge
    where = lambda s: a + s * along + (4 * bow * s * (1 - s) + wave * math.sin(2 * math.pi * s)) * across
    way = lambda s: along + (4 * bow * (1 - 2 * s) + 2 * math.pi * wave * math.cos(2 * math.pi * s)) * across
    cut = [0.0] + sorted(rng.uniform(0.25, 0.75, k - 1)) + [1.0]
    cubics = []
    for x, y in zip(cut, cut[1:]):
        h = (y - x) / 3
        p = [where(x), where(x) + h * rng.uniform(0.85, 1.15) * way(x), where(y) - h * rng.uniform(0.85, 1.15) * way(y), where(y)]
        cubics.append([[round(v, 4) for v in q] for q in p])
    for p, q in zip(cubics, cubics[1:]):
        q[0] = p[3]
    return Edge(cubics)


def meeting(p, a, q, b):
    """Parameters where p, a mm inside, meets q, b mm inside; None when in doubt."""
    end, start = p.d1(p.n), q.d1(0)
    turn = math.atan2(end[0] * start[1] - end[1] * start[0], end @ start)
    if not math.radians(25) < abs(turn) < math.radians(130):
        return None
    off = lambda x: p.inside(x[0], a) - q.inside(x[1], b)
    found = []
    for s in (0.0, 0.02, 0.06, 0.12, 0.25):
        for x in ([p.n - s, s], [p.n + a, -b]):
            r = optimize.root(off, x, tol=1e-13)
            if r.success and math.hypot(*off(r.x)) < 1e-9 and not any(np.allclose(r.x, f, atol=1e-6) for f in found):
                found.append(r.x)
    if len(found) != 1 or math.hypot(*(p.inside(found[0][0], a) - p.at(p.n))) > 3.5 * max(a, b):
        return None
    lines = [LineString([e.inside(u, w) for u in np.linspace(0, e.n, FINE * e.n + 1)]) for e, w in ((p, a), (q, b))]
    both = lines[0].intersection(lines[1])
    if not both.is_empty and both.geom_type != "Point":
        return None
    return found[0]


def ring(edges, n):
    return [x for e in edges for x in e.fine(n)[:-1]]


def sound(edges, widths):
    poly = Polygon(ring(edges, FINE))
    if not poly.is_valid or poly.area < 20000 or not poly.exterior.is_ccw:
        return False
    for e, a in zip(edges, widths):
        for u in np.linspace(1e-9, e.n - 1e-9, 40 * e.n):
            if 1 - a * e.bend(u) < TIGHT or e.speed(u) < 5:
                return False
    return True


def sewn(edges, widths):
    n = len(edges)
    ends = [meeting(edges[k], widths[k], edges[(k + 1) % n], widths[(k + 1) % n]) for k in range(n)]
    if any(x is None for x in ends):
        return None
    inner, lengths = [], []
    for k, e in enumerate(edges):
        lo, hi = ends[k - 1][1], ends[k][0]
        if hi - lo < 0.05:
            return None
        inner += [e.inside(u, widths[k]) for u in np.linspace(lo, hi, FINE * e.n)][:-1]
        lengths.append(e.length(lo, hi, widths[k]))
    poly, outer = Polygon(inner), Polygon(ring(edges, FINE))
    if not poly.is_valid or not poly.exterior.is_ccw or not outer.buffer(0.05).contains(poly):
        return None
    return lengths


def whole(edges, a):
    """Round the inside by GEOS alone; None where it falls into parts."""
    fine, coarse = polygon_inside(edges, a, FINER), polygon_inside(edges, a, FINER // 2)
    return None if fine is None or coarse is None else 2 * fine - coarse


def polygon_inside(edges, a, chords):
    pts = ring(edges, chords)
    n, strips = len(pts), []
    for i in range(n):
        p, q, r = pts[i - 1], pts[i], pts[(i + 1) % n]
        u, v = (q - p) / math.hypot(*(q - p)), (r - q) / math.hypot(*(r - q))
        nu, nv = np.array([-u[1], u[0]]), np.array([-v[1], v[0]])
        p0, p1 = q - OVER * v, r + OVER * v
        strips.append(Polygon([p0, p1, p1 + a * nv, p0 + a * nv]))
        if u[0] * v[1] - u[1] * v[0] < 0:  # hollow: the strips gape
            m = (nu + nv) / (1 + nu @ nv)
            strips.append(Polygon([q, q + a * nv, q + a * m, q + a * nu]))
    left = Polygon(pts).difference(ops.unary_union([s.buffer(0) for s in strips]))
    if left.geom_type == "MultiPolygon":
        parts = sorted(left.geoms, key=lambda g: -g.area)
        if parts[1].area > 1e-6:
            return None
        left = parts[0]
    return left.exterior.length


def main():
    out, tried = [], 0
    while len(out) < OUTLINES:
        tried += 1
        at = corners()
        edges = [edge(p, at[(k + 1) % len(at)]) for k, p in enumerate(at)]
        for k, e in enumerate(edges):
            e.c[0][0] = edges[k - 1].c[-1][3]
        widths = [float(rng.choice([0, 6, 10, 15, 15.875, 20, 25])) for _ in edges]
        even = float(rng.choice([6, 10, 15, 15.875, 20]))
        if not sound(edges, widths) or not sound(edges, [even] * len(edges)):
            continue
        lengths = sewn(edges, widths)
        if lengths is None or sewn(edges, [even] * len(edges)) is None:
            continue
        round_ = whole(edges, even)
        if round_ is None:
            continue
        out.append({
            "edges": [[round(v, 4) for v in np.concatenate([e.c[0][:1].ravel()] + [c[1:].ravel() for c in e.c])] for e in edges],
            "allowances": widths,
            "cut": [round(e.length(0, e.n, 0), 7) for e in edges],
            "sewn": [round(v, 7) for v in lengths],
            "even": even,
            "whole": round(round_, 5),
        })
        print(f"{len(out)} of {tried}", file=sys.stderr)
    made = f"scipy {scipy.__version__}, numpy {np.__version__}, shapely {shapely.__version__} with GEOS {'.'.join(map(str, geos.geos_version))}"
    rows = ",\n".join(json.dumps(o, separators=(",", ":")) for o in out)
    print(f'{{"made":{json.dumps(made)},"seed":{SEED},"outlines":[\n{rows}\n]}}')


main()
