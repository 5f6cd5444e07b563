#!/usr/bin/env python3
"""Writes r12_r134a_saturation.csv and r12_r134a_single_phase.csv beside this file: CoolProp's mixture model.

    pip install coolprop==8.0.0 scipy && python3 r12_r134a.py

Bubble and dew pressure are CoolProp's phase equilibrium. The third pressure is that of one composition in both phases: the
densities at which CoolProp's mixture, its phase imposed, has equal pressure and equal Gibbs energy.
"""
import math
import os

import CoolProp
import CoolProp.CoolProp as cp
from scipy.optimize import fsolve

HERE = os.path.dirname(os.path.abspath(__file__))
HEAD = f"# R-12 with R-134a: Kunz & Wagner 2012 with Bell & Lemmon 2016 by CoolProp {CoolProp.__version__}; SI units\n"


def state(x):
    s = cp.AbstractState("HEOS", "R12&R134a")
    s.set_mole_fractions([x, 1 - x])
    return s


def residual(s, rho, t):
    """Pressure, and Gibbs energy over R T up to a function of temperature."""
    s.specify_phase(cp.iphase_gas)
    s.update(cp.DmolarT_INPUTS, rho, t)
    d = s.delta() * s.dalphar_dDelta()
    # by hand: CoolProp's own pressure is the same (1 + d) rho R T
    return rho * s.gas_constant() * t * (1 + d), s.alphar() + d + math.log(rho)


def one_composition(x, t, liquid, vapour):
    s = state(x)

    def gap(logs):
        (pl, gl), (pg, gg) = (residual(s, math.exp(v), t) for v in logs)
        return (pl - pg) / 1e5, gl - gg

    roots, _, ok, why = fsolve(gap, [math.log(liquid), math.log(vapour)], xtol=1e-13, full_output=True)
    assert ok == 1 or max(abs(g) for g in gap(roots)) < 1e-9, why
    rho_l, rho_g = (math.exp(v) for v in roots)
    return residual(s, rho_g, t)[0], rho_l, rho_g


with open(os.path.join(HERE, "r12_r134a_saturation.csv"), "w") as f:
    f.write(HEAD)
    f.write("x_R12,T_K,p_bubble,p_dew,p_one,rho_liq,rho_vap,latent\n")
    for x in (0.05, 0.1, 0.25, 0.5, 0.8):
        for t in (233.15, 253.15, 273.15, (75 + 459.67) / 1.8, 308.15, 323.15, 338.15, 353.15):
            s = state(x)
            s.update(cp.QT_INPUTS, 0, t)
            bubble, liquid = s.p(), s.rhomolar()
            s.update(cp.QT_INPUTS, 1, t)
            dew, vapour = s.p(), s.rhomolar()
            p, rho_l, rho_g = one_composition(x, t, liquid, vapour)
            assert dew <= p * (1 + 1e-9) and p <= bubble * (1 + 1e-9)
            s = state(x)
            s.specify_phase(cp.iphase_gas)
            m = s.molar_mass()
            s.update(cp.DmolarT_INPUTS, rho_l, t)
            h_l = s.hmass()
            s.update(cp.DmolarT_INPUTS, rho_g, t)
            latent = s.hmass() - h_l
            f.write(",".join(f"{v:.9g}" for v in (x, t, bubble, dew, p, rho_l * m, rho_g * m, latent)) + "\n")

with open(os.path.join(HERE, "r12_r134a_single_phase.csv"), "w") as f:
    f.write(HEAD)
    f.write("x_R12,T_K,rho,p,cv,cp,w,h_above\n")
    for x in (0.05, 0.1, 0.25, 0.5, 0.8):
        s = state(x)
        s.specify_phase(cp.iphase_gas)
        m = s.molar_mass()
        s.update(cp.DmolarT_INPUTS, 10 / m, 300)
        zero = s.hmass()
        for t in (253.15, 293.15, 333.15, 393.15):
            for rho in (0.01, 3, 15, 60, 1150, 1250):
                if rho == 15 and t < 260 or rho == 60 and t < 340 or rho == 1150 and t < 310:
                    continue
                if rho > 1000 and t > 340:
                    continue
                s.update(cp.DmolarT_INPUTS, rho / m, t)
                values = (x, t, rho, s.p(), s.cvmass(), s.cpmass(), s.speed_sound(), s.hmass() - zero)
                f.write(",".join(f"{v:.9g}" for v in values) + "\n")
