#!/usr/bin/env python3
"""Golden numbers of the charge simulation, by scipy's ODE solver: python3 ode.py > ode.csv

An independent statement of the model: a battery of EMF E(q) behind a resistance,
fed through a cable by a source with limits of current, voltage and power; one
stage after another; coulombic efficiency by state of charge. The energy is what
the supply gives until the last mark. Needs scipy 1.10.
"""
import math

from scipy.integrate import solve_ivp

LITHIUM = dict(ah=200, ri=0.008, emf=[(0, 10.8), (5, 12.4), (20, 13.0), (60, 13.2), (95, 13.36), (100, 14.0)],
               eff=[(0, 0.99)], accept=None, rate=100)
TRUCK = dict(ah=100, ri=0.02, emf=[(0, 21.6), (5, 24.8), (20, 26.0), (60, 26.4), (95, 26.72), (100, 28.0)],
             eff=[(0, 0.99)], accept=None, rate=50)
FLOODED = dict(ah=220, ri=0.006, emf=[(0, 11.6), (50, 12.2), (100, 12.7)],
               eff=[(0, 0.95), (80, 0.7), (90, 0.5)], accept=1.0, rate=44)


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
    if b["accept"]:
        most["accept"] = b["accept"] * (b["ah"] - q)
    by = min(most, key=most.get)
    i = most[by]
    if i > b["rate"]:
        by, i = "rate", b["rate"]
    i = max(i, -load)
    u = e + i * ri
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
                unlimited = dict(c, amps=math.inf, watts=None)
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
LEAD = dict(BASE, boost=14.4, float=13.5, tail=4.4, load=3)
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
}

print("case,mark_80_h,mark_90_h,mark_95_h,supply_wh,end_percent")
for name, (battery, charge) in CASES.items():
    times, energy, end = run(battery, charge)
    print(name, *("%.5f" % x for x in times), "%.3f" % energy, "%.4f" % end, sep=",")
