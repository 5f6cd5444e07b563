#!/usr/bin/env python3
"""Writes water_properties.csv beside this file: saturated water by CoolProp's IAPWS-95.

    pip install coolprop==8.0.0 && python3 water_properties.py
"""
import os

import CoolProp
import CoolProp.CoolProp as cp

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "water_properties.csv"), "w") as f:
    f.write(f"# Saturated water, IAPWS-95 (Wagner & Pruss 2002) by CoolProp {CoolProp.__version__}; SI units\n")
    f.write("T_K,p_Pa,rho_l,rho_g,latent_Jkg,cp_l\n")
    for t in [273.16, *(275.15 + 7.0 * i for i in range(15)), 413.15, 473.15, 573.15, 643.15]:
        v = [cp.PropsSI(k, "T", t, "Q", q, "Water") for k, q in (("P", 0), ("D", 0), ("D", 1), ("H", 1), ("H", 0), ("C", 0))]
        f.write(",".join(f"{a:.9g}" for a in (t, v[0], v[1], v[2], v[3] - v[4], v[5])) + "\n")
