#!/usr/bin/env python3
"""Times CoolProp's bicubic tables from density and energy: the neighbour of `cargo bench --bench state`.

Optional: needs the packages coolprop and numpy. The states are like those of `state.rs`: two phases from nearly dry to
nearly full, superheated vapour, compressed liquid. CoolProp's tables take pressure and enthalpy, so density and energy
go through its own search; pressure and enthalpy are timed beside it, which is the least its tables can cost.
"""
import time

import CoolProp
from CoolProp.CoolProp import AbstractState


def states(gas):
    eos = AbstractState("HEOS", gas)
    out = []
    for i in range(24):
        t = 233.15 + 5.2 * i
        if t > 0.985 * eos.T_critical():
            break
        for x in (0.002, 0.05, 0.2, 0.5, 0.8, 0.97, 0.998):
            eos.update(CoolProp.QT_INPUTS, x, t)
            out.append((eos.rhomass(), eos.umass(), eos.p(), eos.hmass()))
        for dt in (4.0, 15.0, 30.0):
            p = AbstractState("HEOS", gas)
            p.update(CoolProp.QT_INPUTS, 1, t)
            eos.update(CoolProp.PT_INPUTS, 0.9 * p.p(), t + dt)
            out.append((eos.rhomass(), eos.umass(), eos.p(), eos.hmass()))
    return out


def main():
    for gas in ("R134a", "R12", "R1234yf"):
        points = states(gas)
        row = []
        for name, backend, pair, pick in (
            ("tables, p and h", "BICUBIC&HEOS", CoolProp.HmassP_INPUTS, lambda s: (s[3], s[2])),
            ("equation, rho and u", "HEOS", CoolProp.DmassUmass_INPUTS, lambda s: (s[0], s[1])),
        ):
            state = AbstractState(backend, gas)
            args = [pick(s) for s in points]
            done = failed = 0
            start = time.perf_counter()
            while time.perf_counter() - start < 1.0:
                for a in args:
                    try:
                        state.update(pair, *a)
                        done += 1
                    except ValueError:
                        failed += 1
            ns = (time.perf_counter() - start) / max(done + failed, 1) * 1e9
            row.append(f"{name}: {ns:,.0f} ns a state ({failed} refused of {done + failed})")
        print(f"{gas:8}", "; ".join(row))


if __name__ == "__main__":
    main()
