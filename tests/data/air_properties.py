#!/usr/bin/env python3
"""Writes air_properties.csv beside this file: dry air near the atmosphere.

    pip install coolprop==8.0.0 && python3 air_properties.py
"""
import os

import CoolProp
import CoolProp.CoolProp as cp

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "air_properties.csv"), "w") as f:
    f.write(f"# Dry air at 101 325 Pa, Lemmon et al. 2000 and Lemmon & Jacobsen 2004 by CoolProp {CoolProp.__version__}; SI units\n")
    f.write("T_K,rho,cp,mu,k\n")
    for t in range(220, 461, 20):
        f.write(f"{t}," + ",".join(f"{cp.PropsSI(k, 'T', t, 'P', 101325, 'Air'):.7g}" for k in "DCVL") + "\n")
