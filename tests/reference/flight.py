"""A second opinion on the flight: the equations of docs/methods/air-flow.md and flight.md, written again and solved by scipy.

    python -m venv venv && venv/bin/pip install -r requirements.txt && venv/bin/python flight.py ../data/reference/flight

calm.csv: droplets without turbulence, `solve_ivp` (DOP853, relative tolerance 1e-9), to where they meet the part or pass it.
stirred.csv: moments of a cloud in turbulence by the plain Euler scheme at 1e-6 s; the drift of the turbulence from central differences.

Nothing here is taken from the library's code: closed forms from the pages named, numpy's and scipy's own functions.
Pass `--calm` or `--stirred` behind the folder for one of the two.
"""

import csv
import math
import pathlib
import sys

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.special import erf

# Air 1.204 kg/m3 and 1.81e-5 Pa s, paint 1000 kg/m3, gravity down the fan; no drying.
RHO, MU, PAINT = 1.204, 1.81e-5, 1000.0
G = np.array([0.0, -9.80665, 0.0])
NU = MU / RHO
# Spread, turbulence and its time scale as in the table of air-flow.md.
S, INTENSITY, TIME = 0.112905, 0.23, 0.95
SPEED, HALF, ALOFT = 280.0, 0.6, 0.05
ROOT_LN2 = math.sqrt(math.log(2))
SI = math.sqrt(math.pi) / 2


class Jet:
    """Free jet of momentum over density J [m4/s2] and slopes along x and y."""

    def __init__(self, j, tx, ty):
        self.strength = math.sqrt(2 * j / math.pi)
        self.b0 = self.strength / SPEED
        self.tx, self.ty = tx, ty

    def widths(self, z):
        z = np.maximum(z, 1e-3)
        gx, gy = S**2 + self.tx**2, S**2 + self.ty**2
        bx = (self.b0**4 + (gx * z**2) ** 2) ** 0.25
        by = (self.b0**4 + (gy * z**2) ** 2) ** 0.25
        alpha = gx**2 * z**3 / bx**4
        beta = gy**2 * z**3 / by**4
        return bx, by, alpha, beta, self.strength / np.sqrt(bx * by)

    def sigma(self, p):
        bx, by, _, _, uc = self.widths(p[2])
        q = (p[0] / bx) ** 2 + (p[1] / by) ** 2
        k = -np.expm1(-q) / np.maximum(q, 1e-12)
        k = np.where(q < 1e-9, 1.0, k)
        return INTENSITY * uc * np.sqrt(k / (1 + (q / 6) ** 4))

    def time(self, p):
        bx, by, _, _, uc = self.widths(p[2])
        return TIME * ROOT_LN2 * np.minimum(bx, by) / uc


class Panel:
    """Flat face at z = distance."""

    def __init__(self, jet, distance):
        self.jet, self.distance = jet, distance
        bx, by, _, _, uc = jet.widths(distance)
        r = bx / by
        r12 = ROOT_LN2 * bx
        self.delta = uc / ((0.65 + 0.52 * r) * (1 + r * r) * uc / r12)
        self.m = 0.0 if r > 0.95 else (1 - r * r) / (1 + r * r)
        self.damping = 0.5 * r12

    def gap(self, p):
        return self.distance - p[2]

    def passed(self, p):
        return (np.abs(p[0]) > HALF) | (np.abs(p[1]) > HALF)

    def normal(self, p):
        n = np.zeros_like(p)
        n[2] = -1.0
        return n

    def air(self, p):
        x, y, z = p
        bx, by, alpha, beta, uc = self.jet.widths(z)
        q = (x / bx) ** 2 + (y / by) ** 2
        k = np.where(q < 1e-9, 1.0, -np.expm1(-q) / np.maximum(q, 1e-12))
        a = (alpha + beta) / 2
        e = SI * erf(x / bx) * np.exp(-((y / by) ** 2))
        h = np.tanh(np.maximum(self.gap(p), 0) / self.delta)
        slope = (1 - h * h) / self.delta
        feed = uc * (slope - a * h)
        uz = h * uc * np.exp(-q)
        ux = uz * x * alpha + feed * ((1 - self.m) * x * k / 2 + self.m * bx * e)
        uy = uz * y * beta + feed * (1 - self.m) * y * k / 2
        return np.array([ux, uy, uz])


class Tube:
    """Tube of a radius along x, its face at `distance`, its axis `offset` beside the gun's."""

    def __init__(self, jet, distance, radius, offset):
        self.jet, self.radius = jet, radius
        self.yc, self.zc = offset, distance + radius
        bx, by, _, _, uc = jet.widths(distance)
        narrow, wide = min(bx, by), max(bx, by)
        r = narrow / wide
        across_narrow = (0.65 + 0.52 * r) * uc / (ROOT_LN2 * narrow)
        along, across = across_narrow, across_narrow * r * r
        if bx > by:
            along, across = across, along
        sa, sl = 2 * uc / radius + across, along
        self.p = radius * (sa + sl) / uc
        self.th = sa / (sa + sl)
        self.damping = min(0.5 * ROOT_LN2 * narrow, radius)
        self.behind = 3 * self.damping + radius

    def rad(self, p):
        return np.hypot(p[1] - self.yc, p[2] - self.zc)

    def gap(self, p):
        return self.rad(p) - self.radius

    def passed(self, p):
        return (p[2] - self.zc > self.behind) | (np.abs(p[0]) > HALF) | (np.abs(p[1]) > HALF)

    def normal(self, p):
        n = np.zeros_like(p)
        rad = self.rad(p)
        n[1], n[2] = (p[1] - self.yc) / rad, (p[2] - self.zc) / rad
        return n

    def air(self, p):
        x, y, z = p
        bx, by, alpha, beta, uc = self.jet.widths(z)
        a = (alpha + beta) / 2
        e1, e2 = np.exp(-((x / bx) ** 2)), np.exp(-((y / by) ** 2))
        sx, sy = SI * erf(x / bx), SI * erf(y / by)
        sc = SI * erf(self.yc / self.jet.widths(self.zc)[1])
        w = bx**2 / (bx**2 + by**2)
        rad = np.maximum(self.rad(p), self.radius)
        ny, nz = (p[1] - self.yc) / self.rad(p), (p[2] - self.zc) / self.rad(p)
        shade = (self.radius / rad) ** self.p
        h = 1 - shade
        hy, hz = self.p * shade / rad * ny, self.p * shade / rad * nz
        uz = uc * e1 * e2
        ux = uz * x * alpha - (1 - w) * a * uc * bx * sx * e2
        uy = uz * y * beta - w * a * uc * by * sy * e1
        i = by * (sy - sc)
        psi = uc * e1 * i
        f = i * uc * (x * alpha * e1 - (1 - w) * a * bx * sx)
        jx = uc * bx * sx
        led = hz * jx * e2 + hy * (y * beta * jx * e2 - w * a * by * sy * jx)
        th = self.th
        return np.array([h * ux + th * hy * f - (1 - th) * led, h * uy - th * hz * psi, h * uz + th * hy * psi])


def scenes():
    fan = Jet(1.2, 0.0, 0.45)
    spot = Jet(0.6, 0.0, 0.0)
    return [
        ("panel", 1.2, 0.45, Panel(fan, 0.19)),
        ("panel round", 0.6, 0.0, Panel(spot, 0.15)),
        ("tube", 1.2, 0.45, Tube(fan, 0.19, 0.011, 0.0)),
        ("tube beside", 0.6, 0.0, Tube(spot, 0.15, 0.021, 0.008)),
    ]


def stokes(d):
    return PAINT * d * d / (18 * MU)


def tau(d, slip2):
    re = np.sqrt(slip2) * d / NU
    return stokes(d) / (1 + 0.15 * re**0.687)


def starts(rng, count, slope, smallest):
    """Droplets on rays from the tip at 20 mm, volume median 40 um; any start would do, the same goes into both."""
    d = np.exp(rng.normal(math.log(40e-6), 0.6, 4 * count))
    d = d[(d > smallest) & (d < 160e-6)][:count]
    ty = 1.25 * slope * (2 * rng.beta(2.5, 2.5, count) - 1) + rng.normal(0, 0.06, count)
    tx = rng.normal(0, 0.06, count)
    ray = np.array([tx, ty, np.ones(count)]) / np.sqrt(1 + tx**2 + ty**2)
    return 0.02 * np.array([tx, ty, np.ones(count)]), rng.uniform(20, 60, count) * ray, d


def calm(out):
    rows = []
    for number, (name, j, slope, scene) in enumerate(scenes()):
        rng = np.random.default_rng(100 + number)
        position, velocity, size = starts(rng, 250, slope, 8e-6)
        for k in range(size.size):
            d = size[k]

            def rate(_, s, d=d):
                slip = scene.air(s[:3]) - s[3:]
                return np.concatenate([s[3:], slip / tau(d, slip @ slip) + G])

            def met(_, s):
                return scene.gap(s[:3])

            def by(_, s):
                p = s[:3]
                left = HALF - max(abs(p[0]), abs(p[1]))
                return left if isinstance(scene, Panel) else min(left, scene.behind - (p[2] - scene.zc))

            met.terminal = by.terminal = True
            start = np.concatenate([position[:, k], velocity[:, k]])
            way = solve_ivp(rate, (0, ALOFT), start, "DOP853", events=(met, by), rtol=1e-9, atol=1e-12)
            end = "hit" if way.t_events[0].size else "passed" if way.t_events[1].size else "aloft"
            closest = float(np.min(scene.gap(way.y[:3])))
            last = way.y[:, -1]
            speed = float(np.linalg.norm(last[3:]))
            rows.append([name, d, *start, end, way.t[-1], *last[:3], speed, closest])
    head = "scene,diameter,x,y,z,vx,vy,vz,end,time,end_x,end_y,end_z,speed,closest".split(",")
    write(out / "calm.csv", head, rows)


def drift(scene, p):
    """d S_ij/dx_j with S = sigma (I - (1 - tanh(gap/l)) n n), by central differences."""
    step = 1e-6
    total = np.zeros_like(p)
    for axis in range(3):
        for sign in (1, -1):
            at = p.copy()
            at[axis] += sign * step
            sigma = scene.jet.sigma(at)
            n = scene.normal(at)
            left = np.tanh(np.maximum(scene.gap(at), 0) / scene.damping)
            column = -sigma * (1 - left) * n * n[axis]
            column[axis] += sigma
            total += sign * column / (2 * step)
    return total


def stirred(out, count=6000, dt=1e-6):
    rows = []
    for number, (name, _, slope, scene) in enumerate(scenes()):
        rng = np.random.default_rng(200 + number)
        x, v, d = starts(rng, count, slope, 15e-6)
        c, omega = v.copy(), rng.normal(size=(3, count))
        landed = []
        for step in range(int(ALOFT / dt)):
            u, sigma, time = scene.air(x), scene.jet.sigma(x), scene.jet.time(x)
            n = scene.normal(x)
            left = np.tanh(np.maximum(scene.gap(x), 0) / scene.damping)
            free = sigma * (omega - (1 - left) * n * np.sum(n * omega, 0))
            slip = u + free - v
            t = tau(d, np.sum(slip * slip, 0))
            lag = c - u
            lag2 = np.sum(lag * lag, 0)
            cross = lag2 / (sigma * sigma + 1e-12)
            along, across = time / np.sqrt(1 + cross), time / np.sqrt(1 + 4 * cross)
            w = rng.normal(size=omega.shape)
            way = lag / np.sqrt(lag2 + 1e-18)

            def split(a):
                part = way * np.sum(way * a, 0)
                return part, a - part

            (po, qo), (pw, qw) = split(omega), split(w)
            change = -(po / along + qo / across) * dt + pw * np.sqrt(2 * dt / along) + qw * np.sqrt(2 * dt / across)
            change += drift(scene, x) * time / (time + stokes(d)) * dt
            nx = x + v * dt
            nv = v + (slip / t + G[:, None]) * dt
            nc = c + ((u - c) / t + G[:, None]) * dt
            hit = scene.gap(nx) < 0
            over = hit | scene.passed(nx)
            for k in np.flatnonzero(hit):
                landed.append([*nx[:, k], np.linalg.norm(nv[:, k]), (step + 1) * dt])
            keep = ~over
            x, v, c, omega, d = nx[:, keep], nv[:, keep], nc[:, keep], (omega + change)[:, keep], d[keep]
            if d.size == 0:
                break
        a = np.array(landed)
        share = len(landed) / count
        for label, value in (
            ("landed", None),
            ("x", a[:, 0]),
            ("y", a[:, 1]),
            ("speed", a[:, 3]),
            ("time", a[:, 4]),
        ):
            if value is None:
                rows.append([name, label, share, math.sqrt(share * (1 - share) / count), "", ""])
            else:
                spread = value.std(ddof=1)
                kurt = np.mean((value - value.mean()) ** 4) / spread**4
                error = spread * math.sqrt(max(kurt - 1, 0.1) / (4 * value.size))
                rows.append([name, label, value.mean(), spread / math.sqrt(value.size), spread, error])
        print(name, share, flush=True)
    write(out / "stirred.csv", "scene,figure,mean,mean_error,spread,spread_error".split(","), rows)


def write(path, head, rows):
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", newline="") as file:
        file.write(f"# scipy {scipy.__version__}, numpy {np.__version__}: tests/reference/flight.py. SI units.\n")
        file.write(f"# {','.join(head)}\n")
        table = csv.writer(file, lineterminator="\n")
        table.writerows([[f"{v:.9g}" if isinstance(v, float) else v for v in row] for row in rows])


if __name__ == "__main__":
    folder = pathlib.Path(sys.argv[1])
    if "--stirred" not in sys.argv:
        calm(folder)
    if "--calm" not in sys.argv:
        stirred(folder)
