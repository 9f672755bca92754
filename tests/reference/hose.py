"""Tables of air through hoses by the general-purpose library `fluids` (PyPI).

    python -m venv venv && venv/bin/pip install -r requirements.txt && venv/bin/python hose.py ../data/published/fluids-hose

Air 20 C, drawn-smooth wall of 1.5 um, flow counted at 20 C and 101325 Pa, dry.

isothermal_gas wants the density at the INLET: its docstring says "average density", but its formula divides by P1. With the
average the drop of 6 mm, 10 m, 200 L/min comes out 5 % too large.
"""

import math
import pathlib
import sys

import fluids
from fluids import friction_factor
from fluids.compressible import P_isothermal_critical_flow, isothermal_gas

R, T, MU = 287.058, 293.15, 1.813e-5
WALL = 1.5e-6


def mass_flow(l_min):
    return 101325 / (R * T) * l_min / 60000


def factor(m, bore):
    return friction_factor(Re=4 * m / (math.pi * bore * MU), eD=WALL / bore)


def end(p1, bore, length, m):
    return isothermal_gas(rho=p1 / (R * T), fd=factor(m, bore), P1=p1, L=length, D=bore, m=m)


def choke(p1, bore, length):
    """Mass flow at the critical far pressure, its own friction factor in it."""
    m = mass_flow(500)
    for _ in range(200):
        fd = factor(m, bore)
        p2 = P_isothermal_critical_flow(P=p1, fd=fd, D=bore, L=length)
        m = isothermal_gas(rho=p1 / (R * T), fd=fd, P1=p1, P2=p2, L=length, D=bore)
    return m


def main(folder):
    assert isothermal_gas(rho=11.3, fd=0.00185, P1=1e6, P2=9e5, L=1000, D=0.5) == 145.4847572636031
    head = f"# fluids {fluids.__version__} (PyPI), tests/reference/hose.py; air 20 C, wall 1.5 um, L/min at 20 C 101325 Pa; computed."
    with open(folder / "drops.csv", "w") as out:
        print(head, file=out)
        print("# isothermal_gas(rho=P1/(R*T), fd=friction_factor(Re, eD), P1, L, D, m); rho is the inlet's", file=out)
        print("# P1 Pa abs, bore mm, length m, L/min, Re, friction factor, P2 Pa abs", file=out)
        for p1 in (601325.0, 351325.0):
            for bore in (6, 8, 10, 13):
                for length in (5, 10, 20):
                    most = choke(p1, bore * 1e-3, length)
                    for l_min in (100, 200, 300, 400):
                        m = mass_flow(l_min)
                        if m < 0.98 * most:
                            d = bore * 1e-3
                            re = 4 * m / (math.pi * d * MU)
                            p2 = end(p1, d, length, m)
                            print(f"{p1},{bore},{length},{l_min},{re:.6f},{factor(m, d):.12f},{p2:.4f}", file=out)
    with open(folder / "chokes.csv", "w") as out:
        print(head, file=out)
        print("# P_isothermal_critical_flow(P, fd, D, L), then isothermal_gas at that P2, friction factor of that flow", file=out)
        print("# P1 Pa abs, bore mm, length m, L/min", file=out)
        for p1 in (601325.0, 351325.0):
            for bore in (4, 6, 8, 10):
                for length in (5, 10, 20):
                    m = choke(p1, bore * 1e-3, length)
                    print(f"{p1},{bore},{length},{m / mass_flow(1):.5f}", file=out)
    with open(folder / "friction.csv", "w") as out:
        print(head, file=out)
        print("# friction_factor(Re, eD): 64/Re to 2040, then Colebrook (Clamond's exact solution)", file=out)
        print("# Re, relative roughness, friction factor", file=out)
        for re in (10, 500, 2000, 4000, 1e4, 3e4, 1e5, 1e6):
            for rough in (0, 1e-5, 2.5e-4, 1e-2):
                print(f"{re},{rough},{friction_factor(Re=re, eD=rough):.14f}", file=out)


if __name__ == "__main__":
    main(pathlib.Path(sys.argv[1]))
