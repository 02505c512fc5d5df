#!/usr/bin/env python3
"""Golden numbers of the charge simulation, by scipy's ODE solver: python3 ode.py > ode.csv

An independent statement of the model: a battery of EMF E(q) behind a resistance,
fed through a cable by a source with limits of current, voltage and power; one
stage after another; coulombic efficiency by state of charge. A lead-acid battery
under charge stands at what the model of CIEMAT gives (Copetti, Lorenzo and Chenlo
1993: the rising voltage, bounded by the final one), where that is more; what a held
voltage lets into it is the root of that law, found by Brent's method. The energy is
what the supply gives until the last mark. Needs scipy 1.10.

    python3 ode.py volts > ciemat.csv

prints the law itself for a few cells.
"""
import math
import sys

from scipy.integrate import solve_ivp
from scipy.optimize import brentq

LITHIUM = dict(ah=200, ri=0.008, emf=[(0, 10.8), (5, 12.4), (20, 13.0), (60, 13.2), (95, 13.36), (100, 14.0)],
               eff=[(0, 0.99)], accept=None, rate=100)
TRUCK = dict(ah=100, ri=0.02, emf=[(0, 21.6), (5, 24.8), (20, 26.0), (60, 26.4), (95, 26.72), (100, 28.0)],
             eff=[(0, 0.99)], accept=None, rate=50)
FLOODED = dict(ah=220, ri=0.006, emf=[(0, 11.6), (50, 12.2), (100, 12.7)],
               eff=[(0, 0.95), (80, 0.7), (90, 0.5)], accept=1.0, rate=44, cells=6, strings=2, celsius=15)
POOR = dict(FLOODED, accept=0.2)
SINGLE = dict(FLOODED, strings=1, celsius=35)


def cell_volts(amps, c10, soc, celsius):
    """A cell under charge: rising, gassing, final voltage."""
    x, dt = amps / c10, celsius - 25
    rising = 2 + 0.16 * soc
    if amps > 0:
        steep = 0.48 / (1 - soc) ** 1.2 if soc < 1 else math.inf
        rising += x * (6 / (1 + amps ** 0.86) + steep + 0.036) * (1 - 0.025 * dt)
    return rising, (2.24 + 1.97 * math.log(1 + x)) * (1 - 0.002 * dt), (2.45 + 2.011 * math.log(1 + x)) * (1 - 0.002 * dt)


def terminal(b, q, amps):
    """Volts at the battery's posts at a current into it."""
    behind = emf(b, q) + amps * b["ri"]
    if "cells" not in b or amps <= 0:
        return behind
    rising, _, final = cell_volts(amps / b["strings"], b["ah"] / b["strings"], q / b["ah"], b["celsius"])
    return max(behind, b["cells"] * min(rising, final))


def risen(b, q, high, excess):
    """The current, up to a high one, at which a lead-acid battery's own volts leave
    no excess; nought where they do without current; the high one where they never do."""
    tiny = 1e-12
    if excess(tiny, terminal(b, q, tiny)) >= 0:
        return 0.0
    if excess(high, terminal(b, q, high)) <= 0:
        return high
    return brentq(lambda i: excess(i, terminal(b, q, i)), tiny, high, xtol=1e-13, rtol=1e-13)


def emf(b, q):
    s = 100 * q / b["ah"]
    for (s0, v0), (s1, v1) in zip(b["emf"], b["emf"][1:]):
        if s <= s1:
            return v0 + (v1 - v0) * (s - s0) / (s1 - s0)
    return b["emf"][-1][1]


def kept(b, q):
    s = 100 * q / b["ah"]
    return [e for s0, e in b["eff"] if s >= s0 - 1e-12][-1]


def current(b, c, volts, q):
    """Current into the battery, whether the voltage is at its limit, and the
    battery's volts: where it takes less than it could, it lifts them to the limit."""
    e, ri, rc, load = emf(b, q), b["ri"], c["rc"], c["load"]
    most = {"source": c["amps"] - load}
    if c["remote"]:
        most["volts"] = (volts - e) / ri
    else:
        most["volts"] = (volts - e - load * rc) / (ri + rc)
    if c["own"]:
        most["own"] = (c["own"] - e - load * rc) / (ri + rc)
    if c["watts"]:
        a, k = ri + rc, e - load * ri
        most["watts"] = (-k + math.sqrt(k * k + 4 * a * c["watts"])) / (2 * a) - load
    if "cells" in b:
        drop = lambda i: 0 if c["remote"] else (i + load) * c["rc"]
        if most["volts"] > 0:
            most["volts"] = risen(b, q, most["volts"], lambda i, u: u + drop(i) - volts)
        if most.get("own", 0) > 0:
            most["own"] = risen(b, q, most["own"], lambda i, u: u + (i + load) * rc - c["own"])
        if most.get("watts", 0) > 0:
            most["watts"] = risen(b, q, most["watts"], lambda i, u: (u + (i + load) * rc) * (i + load) - c["watts"])
    if b["accept"]:
        most["accept"] = b["accept"] * (b["ah"] - q)
    by = min(most, key=most.get)
    i = most[by]
    if i > b["rate"]:
        by, i = "rate", b["rate"]
    i = max(i, -load)
    u = terminal(b, q, i)
    if by == "accept":
        reach = (volts, c["own"] or volts) if c["remote"] else (volts - (i + load) * rc, (c["own"] or volts) - (i + load) * rc)
        u = min(reach)
    return i, by in ("volts", "own", "accept"), u


def run(b, c):
    """Times at which the marks are reached, in h, the energy taken until the
    last of them, in Wh, and the state after 24 h."""
    t, q, wh, marks, energy = 0.0, b["ah"] * c["start"] / 100, 0.0, {}, None
    stages = [("I", c["boost"], None), ("U", c["boost"], c["tail"]), ("U", c["float"], None)]
    for letter, volts, tail in stages:
        def rate(_, y):
            i, _, u = current(b, c, volts, y[0])
            through = i + c["load"]
            supply = through * (u + through * c["rc"]) / c["efficiency"]
            return [i * kept(b, y[0]) if i > 0 else i, supply]

        def over(_, y):
            """Falls through nought at the stage's end."""
            if letter == "I":
                unlimited = dict(c, amps=1e6, watts=None)
                held, *_ = current(dict(b, rate=math.inf), unlimited, volts, y[0])
                capped, *_ = current(dict(b, accept=None), dict(c, own=None), 1e6, y[0])
                return held - capped
            i, *_ = current(b, c, volts, y[0])
            return i - tail if tail is not None else 1.0
        over.terminal, over.direction = True, -1
        edges = sorted({b["ah"] * s / 100 for s, _ in b["emf"] + b["eff"]} | {b["ah"] * m / 100 for m in c["marks"]})
        while t < c["hours"] - 1e-12:
            if over(t, [q]) <= 0:
                break
            top = next((x for x in edges if x > q + 1e-9), b["ah"])
            below = [x for x in edges if x < q - 1e-9]
            crossing = lambda _, y: y[0] - top
            falling = lambda _, y: y[0] - (below[-1] if below else 0.0)
            crossing.terminal = falling.terminal = True
            crossing.direction, falling.direction = 1, -1
            out = solve_ivp(rate, (t, c["hours"]), [q, wh], method="LSODA", rtol=1e-10, atol=1e-10,
                            max_step=0.02, events=[over, crossing, falling])
            t, q, wh = out.t[-1], out.y[0][-1], out.y[1][-1]
            if len(out.t_events[1]):
                q = top
            elif len(out.t_events[2]):
                q = below[-1] if below else 0.0
            for m in c["marks"]:
                if abs(b["ah"] * m / 100 - q) < 1e-6:
                    marks.setdefault(m, t)
                    if m == c["marks"][-1] and energy is None:
                        energy = wh
            if len(out.t_events[0]) or q >= b["ah"] - 1e-9:
                break
    return [marks.get(m) for m in c["marks"]], energy, 100 * q / b["ah"]


BASE = dict(amps=60, own=None, watts=None, rc=0.004, remote=False, efficiency=0.9, load=0,
            boost=14.2, float=13.5, tail=10, start=20, hours=24, marks=[80, 90, 95])
LEAD = dict(BASE, boost=14.4, float=13.5, tail=4.4, load=3, marks=[60, 80, 88])
CASES = {
    "lithium": (LITHIUM, BASE),
    "lithium sensing": (LITHIUM, dict(BASE, remote=True)),
    "lithium power": (LITHIUM, dict(BASE, watts=500, load=5)),
    "lithium own": (LITHIUM, dict(BASE, own=14.0, load=5)),
    "lithium thin cable": (LITHIUM, dict(BASE, rc=0.03, load=5)),
    "lithium thin cable sensing": (LITHIUM, dict(BASE, rc=0.03, load=5, remote=True)),
    "lithium empty": (LITHIUM, dict(BASE, start=1, amps=150, watts=1500)),
    "lithium 24 V": (TRUCK, dict(BASE, amps=30, rc=0.02, boost=28.4, float=27.0, tail=5, load=2)),
    "lead": (FLOODED, LEAD),
    "lead half full": (FLOODED, dict(LEAD, start=50, amps=20, rc=0.02)),
    "lead own": (FLOODED, dict(LEAD, own=13.9, load=8)),
    "lead sensing": (FLOODED, dict(LEAD, rc=0.02, remote=True)),
    "lead power": (FLOODED, dict(LEAD, watts=300)),
    "lead poor": (POOR, LEAD),
    "lead one string": (SINGLE, dict(LEAD, amps=12, start=50, boost=14.0)),
}

if sys.argv[1:] == ["volts"]:
    print("ten_hour_ah,current_a,soc_percent,battery_c,rising_v,gassing_v,final_v")
    for c10 in (30, 100, 110, 700, 2000):
        for share, soc, celsius in ((0, 0.5, 25), (0.02, 0.9, 10), (0.05, 0.2, 25), (0.1, 0.75, 25), (0.1, 0.5, 0), (0.3, 0.6, 45), (1, 0.1, -20)):
            print(c10, "%g" % (share * c10), "%g" % (100 * soc), celsius, *("%.6f" % v for v in cell_volts(share * c10, c10, soc, celsius)), sep=",")
    sys.exit()

print("case,first_mark_h,second_mark_h,third_mark_h,supply_wh,end_percent")
for name, (battery, charge) in CASES.items():
    times, energy, end = run(battery, charge)
    print(name, *("%.5f" % x for x in times), "%.3f" % energy, "%.4f" % end, sep=",")
