#!/usr/bin/env python3
"""Transport properties: fit the polynomials and write the check tables.

    pip install coolprop==8.0.0 numpy && python3 transport_fit.py > coefficients.txt

Prints the transport coefficients for the files in `crates/fluids/src/refrigerant` with the largest relative error of each
fit, and writes `transport_saturation.csv` and `transport_vapour.csv` beside this file. The tables hold points
that the fit does not: other temperatures along saturation, superheated vapour.
"""
import os

import CoolProp
import CoolProp.CoolProp as cp
import numpy as np

HERE = os.path.dirname(os.path.abspath(__file__))
GASES = ["R134a", "R12", "R1234yf"]
SOURCE = {
    "R134a": "viscosity Huber et al. 2003, conductivity McLinden et al. 2000",
    "R12": "viscosity Klein et al. 1997, conductivity McLinden et al. 2000",
    "R1234yf": "viscosity Bell 2016, conductivity Perkins & Huber 2011",
}
COLUMNS = [("mu_l", "V", 0), ("mu_g", "V", 1), ("k_l", "L", 0), ("k_g", "L", 1), ("sigma", "I", 0), ("cp_l", "C", 0), ("cp_g", "C", 1)]
# What is fitted, of the property y and x = sqrt(1 - T/Tc): the form that is smoothest up to the critical point
FORM = {
    "mu_l": lambda y, x: 1 / y,
    "mu_g": lambda y, x: y * x,
    "k_l": lambda y, x: y * x,
    "k_g": lambda y, x: y * x,
    "sigma": lambda y, x: y,
    "cp_l": lambda y, x: y * x * x,
    "cp_g": lambda y, x: 1 / y,
}
DEGREE, T_LEAST, BELOW_CRITICAL = 8, 193.15, 2.0
DILUTE = [("mu", "V"), ("k", "L"), ("cp", "C")]


def prop(*args):
    try:
        return cp.PropsSI(*args)
    except ValueError:
        return None


def saturation_fit(gas):
    tc = cp.PropsSI("Tcrit", gas)
    x0, x1 = np.sqrt(BELOW_CRITICAL / tc), np.sqrt(1 - T_LEAST / tc)
    mid, half = (x0 + x1) / 2, (x1 - x0) / 2
    z = np.cos(np.pi * (np.arange(600) + 0.5) / 600)
    x = mid + half * z
    t = tc * (1 - x * x)
    print(f"// {gas}: T_c {tc:.4f} K, mid {mid:.8f}, half {half:.8f}")
    for name, key, q in COLUMNS:
        g = FORM[name](np.array([cp.PropsSI(key, "T", v, "Q", q, gas) for v in t]), x)
        c = np.polyfit(z, g, DEGREE, w=1 / np.abs(g))
        c32 = np.array([float(f"{v:.8e}") for v in c])
        err = np.max(np.abs(np.polyval(c32, z) / g - 1))
        print(f"    {name}: [{', '.join(f'{v:.8e}' for v in c[::-1])}], // {err:.1e}")


def dilute_fit(gas):
    t = np.linspace(193.15, 463.15, 271)
    for name, key in DILUTE:
        pairs = [(v, prop(key, "T", v, "P", 1.0, gas)) for v in t]
        pairs = [(a, b) for a, b in pairs if b is not None]
        z = np.array([a for a, _ in pairs]) / 300 - 1
        y = np.array([b for _, b in pairs])
        c = np.polyfit(z, y, 4, w=1 / y)
        print(f"    {name}: [{', '.join(f'{v:.8e}' for v in c[::-1])}], // {np.max(np.abs(np.polyval(c, z) / y - 1)):.1e}")


def tables():
    with open(os.path.join(HERE, "transport_saturation.csv"), "w") as f:
        f.write(f"# Along saturation, by CoolProp {CoolProp.__version__} ({'; '.join(f'{g}: {s}' for g, s in SOURCE.items())}; surface tension Mulero et al. 2012; cp from the equations of state); SI units\n")
        f.write("gas,T_K," + ",".join(c[0] for c in COLUMNS) + "\n")
        for gas in GASES:
            t, tc = 194.4, cp.PropsSI("Tcrit", gas)
            while t < tc - BELOW_CRITICAL:
                f.write(f"{gas},{t:.9g}," + ",".join(f"{cp.PropsSI(k, 'T', t, 'Q', q, gas):.9g}" for _, k, q in COLUMNS) + "\n")
                t += 2.7
    with open(os.path.join(HERE, "transport_vapour.csv"), "w") as f:
        f.write(f"# Superheated vapour, by CoolProp {CoolProp.__version__}; SI units\n")
        f.write("gas,T_K,T_sat_K,p_Pa,mu,k,cp\n")
        for gas in GASES:
            for p in (1e3, 5e4, 1e5, 2e5, 3e5, 5e5, 1e6, 1.5e6, 2e6, 2.5e6):
                ts = cp.PropsSI("T", "P", p, "Q", 1, gas)
                for dt in (2, 5, 10, 20, 30, 50, 70):
                    v = [prop(k, "T", ts + dt, "P", p, gas) for _, k in DILUTE]
                    if T_LEAST < ts + dt < 450 and None not in v:
                        f.write(f"{gas},{ts + dt:.9g},{ts:.9g},{p:.9g}," + ",".join(f"{a:.9g}" for a in v) + "\n")


if __name__ == "__main__":
    for gas in GASES:
        saturation_fit(gas)
        dilute_fit(gas)
    tables()
