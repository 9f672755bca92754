"""The task in numpy and in numba: the scheme of scalar.rs, f32, a fixed step of 5e-5 s, droplets drawn by number.

    python arrays.py [--runs N] [--droplets N] [--step SECONDS]

Prints droplets/s of each, core seconds of one thread, and the means weighed by volume. `scalar.rs` tells the equations.
"""

import argparse
import math
import statistics
import time

import numpy as np
from numba import njit

MOMENTUM, EXIT_SPEED, FROM, TO = 0.5, 280.0, 0.03, 0.2
NUMBER_MEDIAN, SIGMA_G, RAY = 35e-6, 1.6, 0.1
DENSITY, AIR_DENSITY, AIR_VISCOSITY = 1000.0, 1.2, 1.81e-5
ALOFT, PICK_UP, PICK_UP_SIZE = 0.5, 0.35, 40e-6
SPREAD, STEP, DISC = 0.112905, 5e-5, 0.02
STRENGTH = math.sqrt(2.0 * MOMENTUM / math.pi)
CORE4, GROWTH = (STRENGTH / EXIT_SPEED) ** 4, SPREAD**4
TIME = 0.95 * 0.8325546
STOKES, PER_SPEED = DENSITY / (18.0 * AIR_VISCOSITY), AIR_DENSITY / AIR_VISCOSITY
F = np.float32


def starts(rng, n):
    """Diameter, position and velocity."""
    diameter = (NUMBER_MEDIAN * np.exp(math.log(SIGMA_G) * rng.standard_normal(n))).astype(F)
    slope = np.zeros((n, 3), F)
    slope[:, :2] = RAY * rng.standard_normal((n, 2))
    slope[:, 2] = 1.0
    axis = PICK_UP * STRENGTH / (CORE4 + GROWTH * FROM**4) ** 0.25
    speed = axis / np.sqrt(1.0 + diameter / PICK_UP_SIZE)
    velocity = slope * (speed / np.sqrt((slope**2).sum(axis=1)))[:, None]
    return diameter, slope * F(FROM), velocity.astype(F)


def air(p):
    """Mean velocity, sigma, its slope and T_L at many points."""
    x, y, z = p.T
    z3 = z * z * z
    b4 = F(CORE4) + F(GROWTH) * z3 * z
    b = np.sqrt(np.sqrt(b4))
    alpha, centre = F(GROWTH) * z3 / b4, F(STRENGTH) / b
    q = (x * x + y * y) / (b * b)
    eq = np.exp(-q)
    safe = np.maximum(q, F(0.05))
    near = q < F(0.05)
    k = (1 - eq) / safe
    k_slope = np.where(near, F(-0.5) + q * (F(1 / 3) - q * (F(0.125) - q * F(1 / 30))), (eq - k) / safe)
    k = np.where(near, 1 - q * (F(0.5) - q * (F(1 / 6) - q * F(1 / 24))), k)
    uz = centre * eq
    lateral = uz * alpha - centre * alpha * k * F(0.5)
    sixth = q / F(6)
    sixth3 = sixth**3
    tail = 1 + sixth3 * sixth
    sigma = F(0.23) * centre * np.sqrt(k / tail)
    g = F(0.5) * sigma * (k_slope / k - F(4 / 6) * sixth3 / tail)
    side = 2 * g / (b * b)
    slope = np.stack([side * x, side * y, -2 * g * q * alpha - sigma * alpha], axis=1)
    return np.stack([x * lateral, y * lateral, uz], axis=1), sigma, slope, F(TIME) * b / centre


def run_numpy(seed, n):
    """Ends: landed, place, speed, time; and diameters. Droplets that have landed are taken out every 16 steps."""
    rng = np.random.default_rng(seed)
    diameter, position, velocity = starts(rng, n)
    calm, omega = velocity.copy(), rng.standard_normal((n, 3), F)
    out = np.full((n, 4), np.nan)
    who, dt, now = np.arange(n), F(STEP), 0.0
    stokes, per_speed = F(STOKES) * diameter**2, diameter * F(PER_SPEED)
    step = 0
    while who.size and now < ALOFT:
        u, sigma, slope, lasting = air(position)
        felt = u + sigma[:, None] * omega
        slip = velocity - felt
        reynolds = np.sqrt((slip * slip).sum(axis=1)) * per_speed
        fade = np.exp(-dt / (stokes / (1 + F(0.15) * reynolds ** F(0.687))))[:, None]
        old, old_velocity = position, velocity
        velocity = felt + slip * fade
        position = old + (old_velocity + velocity) * (F(0.5) * dt)
        lag = calm - u
        lag2 = (lag * lag).sum(axis=1)
        cross = lag2 / (sigma * sigma + F(1e-8))
        along = np.exp(-dt * np.sqrt(1 + cross) / lasting)
        across = np.exp(-dt * np.sqrt(1 + 4 * cross) / lasting)
        along_noise, across_noise = np.sqrt(1 - along * along), np.sqrt(1 - across * across)
        noise = rng.standard_normal(omega.shape, F)
        e = lag / (np.sqrt(lag2) + F(1e-6))[:, None]
        part = (omega * e).sum(axis=1) * (along - across) + (noise * e).sum(axis=1) * (along_noise - across_noise)
        heavy = dt / (1 + stokes / lasting)
        omega = omega * across[:, None] + noise * across_noise[:, None] + e * part[:, None] + slope * heavy[:, None]
        calm = u + lag * fade
        now, step = now + STEP, step + 1
        hit = np.flatnonzero((position[:, 2] > TO) & np.isnan(out[who, 0]))
        if hit.size:
            share = (F(TO) - old[hit, 2]) / (position[hit, 2] - old[hit, 2])
            met = old_velocity[hit] + (velocity[hit] - old_velocity[hit]) * share[:, None]
            place = old[hit] + (position[hit] - old[hit]) * share[:, None]
            out[who[hit]] = np.stack(
                [place[:, 0], place[:, 1], np.sqrt((met * met).sum(axis=1)), now - STEP * (1 - share)], axis=1
            )
        if step % 16 == 0:
            left = np.flatnonzero(np.isnan(out[who, 0]))
            who, position, velocity, calm, omega = who[left], position[left], velocity[left], calm[left], omega[left]
            stokes, per_speed = stokes[left], per_speed[left]
    return diameter, out


@njit(cache=False)
def fly_all(seed, diameter, places, velocities, out):
    """One droplet after another, compiled."""
    np.random.seed(seed)
    dt = F(STEP)
    p, v, c, w = np.empty(3, F), np.empty(3, F), np.empty(3, F), np.empty(3, F)
    u, s, g, e, lag = np.empty(3, F), np.empty(3, F), np.empty(3, F), np.empty(3, F), np.empty(3, F)
    r, p0, v0 = np.empty(3, F), np.empty(3, F), np.empty(3, F)
    one = F(1)
    for n in range(diameter.size):
        d = diameter[n]
        stokes, per_speed = F(STOKES) * d * d, d * F(PER_SPEED)
        for i in range(3):
            p[i], v[i], c[i], w[i] = places[n, i], velocities[n, i], velocities[n, i], F(np.random.normal())
        now = F(0)
        while now < F(ALOFT):
            z3 = p[2] * p[2] * p[2]
            b4 = F(CORE4) + F(GROWTH) * z3 * p[2]
            b = F(math.sqrt(F(math.sqrt(b4))))
            alpha, centre = F(GROWTH) * z3 / b4, F(STRENGTH) / b
            q = (p[0] * p[0] + p[1] * p[1]) / (b * b)
            eq = F(math.exp(-q))
            if q < F(0.05):
                k = one - q * (F(0.5) - q * (F(1 / 6) - q * F(1 / 24)))
                k_slope = F(-0.5) + q * (F(1 / 3) - q * (F(0.125) - q * F(1 / 30)))
            else:
                k = (one - eq) / q
                k_slope = (eq - k) / q
            uz = centre * eq
            lateral = uz * alpha - centre * alpha * k * F(0.5)
            sixth = q / F(6)
            sixth3 = sixth * sixth * sixth
            tail = one + sixth3 * sixth
            sigma = F(0.23) * centre * F(math.sqrt(k / tail))
            gg = F(0.5) * sigma * (k_slope / k - F(4 / 6) * sixth3 / tail)
            side = F(2) * gg / (b * b)
            g[0], g[1], g[2] = side * p[0], side * p[1], -F(2) * gg * q * alpha - sigma * alpha
            u[0], u[1], u[2] = p[0] * lateral, p[1] * lateral, uz
            lasting = F(TIME) * b / centre
            slip2, lag2 = F(0), F(0)
            for i in range(3):
                s[i] = v[i] - u[i] - sigma * w[i]
                lag[i] = c[i] - u[i]
                slip2 += s[i] * s[i]
                lag2 += lag[i] * lag[i]
                p0[i], v0[i] = p[i], v[i]
                r[i] = F(np.random.normal())
            reynolds = F(math.sqrt(slip2)) * per_speed
            fade = F(math.exp(-dt / (stokes / (one + F(0.15) * reynolds ** F(0.687)))))
            cross = lag2 / (sigma * sigma + F(1e-8))
            along = F(math.exp(-dt * F(math.sqrt(one + cross)) / lasting))
            across = F(math.exp(-dt * F(math.sqrt(one + F(4) * cross)) / lasting))
            along_noise, across_noise = F(math.sqrt(one - along * along)), F(math.sqrt(one - across * across))
            inverse = one / (F(math.sqrt(lag2)) + F(1e-6))
            w_along, r_along = F(0), F(0)
            for i in range(3):
                e[i] = lag[i] * inverse
                w_along += w[i] * e[i]
                r_along += r[i] * e[i]
            part = w_along * (along - across) + r_along * (along_noise - across_noise)
            heavy = dt / (one + stokes / lasting)
            for i in range(3):
                v[i] = u[i] + sigma * w[i] + s[i] * fade
                p[i] += (v0[i] + v[i]) * F(0.5) * dt
                w[i] = w[i] * across + r[i] * across_noise + e[i] * part + g[i] * heavy
                c[i] = u[i] + lag[i] * fade
            now += dt
            if p[2] > F(TO):
                share = (F(TO) - p0[2]) / (p[2] - p0[2])
                speed2 = F(0)
                for i in range(3):
                    met = v0[i] + (v[i] - v0[i]) * share
                    speed2 += met * met
                out[n, 0] = p0[0] + (p[0] - p0[0]) * share
                out[n, 1] = p0[1] + (p[1] - p0[1]) * share
                out[n, 2] = math.sqrt(speed2)
                out[n, 3] = now - dt * (one - share)
                break


def run_numba(seed, n):
    diameter, position, velocity = starts(np.random.default_rng(seed), n)
    out = np.full((n, 4), np.nan)
    fly_all(seed, diameter, position, velocity, out)
    return diameter, out


def figures(diameter, out):
    """Speed [m/s], time [ms] and landed share, by volume."""
    weight = diameter.astype(float) ** 3
    met = ~np.isnan(out[:, 0])
    near = met & (out[:, 0] ** 2 + out[:, 1] ** 2 < DISC**2)
    of = weight[met]
    return (of @ out[met, 2]) / of.sum(), 1e3 * (of @ out[met, 3]) / of.sum(), weight[near].sum() / weight.sum()


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("--runs", type=int, default=7)
    ask.add_argument("--droplets", type=int, default=20000)
    ask.add_argument("--step", type=float, default=STEP)
    asked = ask.parse_args()
    # Compiled in at the first call.
    globals()["STEP"] = asked.step
    contenders = [("numpy", run_numpy), ("numba", run_numba)]
    for _, run in contenders:
        run(0, 100)
    seconds, ends = {n: [] for n, _ in contenders}, {n: [] for n, _ in contenders}
    for seed in range(1, asked.runs + 1):
        for name, run in contenders:
            begun = time.thread_time()
            ends[name].append(run(seed, asked.droplets))
            seconds[name].append((time.thread_time() - begun) / asked.droplets)
    print("| contender | droplets/s | impact speed | flight time | landed |")
    print("|---|---|---|---|---|")
    for name, _ in contenders:
        diameter, out = (np.concatenate(of) for of in zip(*ends[name]))
        speed, flight, landed = figures(diameter, out)
        rate = 1.0 / statistics.median(seconds[name])
        print(f"| {name} | {rate:.3e} | {speed:.2f} m/s | {flight:.3f} ms | {landed:.4f} |")


if __name__ == "__main__":
    main()
