#!/usr/bin/env python3
"""The work of an engine in numpy: every check of one size in one draw.

    pip install numpy
    python3 tests/peers/numpy_engine.py [--columns FILE.json] [--runs 5]

A figure to be held against the program's own engines, in float64, vectorised over
draws, for a muscular outlet defect with an aortic, a pulmonary and a tricuspid
valve: waist, length, lips over AZIMUTHS directions on both faces, signed clearance
of the three valves from tilted discs, leaflet, both tracts, ventricles, conduction,
vessels; which stops and cautions hold, and the draws in which no stop is broken.
Prints millions of candidate-draws a second on one process and on two, best of the
runs; preparing the draws counts, making them does not. A comparison is void unless
two processes reach LEAST_RATE.

FILE.json holds {"columns": {"throat.major": [mm in each draw], ...}, "sizes":
[{"waist": 5, "length": 3, "left": {"radius": 4.5, "thickness": 1.2, "offset_u": 0},
"right": null, "conformability": 0.6, "braid_angle_deg": 45, "sheath_outer": 2.2}]};
either may be left out, and then stands what `own_columns` and `own_sizes` make.
Angles of columns are degrees. No test needs this script.
"""

import argparse
import json
import multiprocessing
import os
import sys
import time
from types import SimpleNamespace

# One process is one thread.
for threads in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
    os.environ.setdefault(threads, "1")

try:
    import numpy as np
except ImportError:
    sys.exit("numpy is needed: pip install numpy")

DRAWS = 4096
LANES = 4096  # draws at once: a column of 32 KiB, and few calls for each
AZIMUTHS = 32
AT_ONCE = 4  # azimuths at once
LEAST_RATE = 0.35  # million candidate-draws a second on two processes

TINY = 1e-9  # no length or sine of these sizes is smaller but by rounding
RING_ACCURACY = 1e-5  # mm, proved by a bound from below
RING_STEPS = 16
DEPTH_STEPS = 17  # halvings of at most a disc: 1e-4 mm

# House rules of the demonstration case: stop and caution, each low and high.
NO = (-np.inf, np.inf)
LIMITS = {
    "waist_fit": ((0, 4), (0.5, 2.5)),
    "waist_ratio": (NO, (-np.inf, 2.1)),
    "length_fit": ((-3, 3), (-1.5, 1.5)),
    "grip": ((1.05, np.inf), (1.15, np.inf)),
    "hold_left": ((0.5, np.inf), (1.0, np.inf)),
    "hold_right": ((0, np.inf), (0.5, np.inf)),
    "hinge_lip_left": ((0, np.inf), (0.25, np.inf)),
    "hinge_lip_right": ((0, np.inf), (0.25, np.inf)),
    "clearance aortic": ((0, np.inf), (1.0, np.inf)),
    "clearance pulmonary": ((-2, np.inf), (0, np.inf)),
    "clearance tricuspid": ((-2, np.inf), (0, np.inf)),
    "leaflet tricuspid": (NO, (-np.inf, 1 / 3)),
    "tract_share_left": ((0.5, np.inf), (0.75, np.inf)),
    "tract_share_right": ((0.5, np.inf), (0.75, np.inf)),
    "tract_gradient_left": ((-np.inf, 20), (-np.inf, 10)),
    "tract_gradient_right": ((-np.inf, 20), (-np.inf, 10)),
    "tract_width_left": ((0, np.inf), NO),
    "tract_width_right": ((0, np.inf), NO),
    "conduction_excess": (NO, (-np.inf, 2.0)),
    "conduction_ratio": (NO, (-np.inf, 1.5)),
    "conduction_clamp": (NO, (-np.inf, 1.0)),
    "chamber_left": ((-np.inf, 1), (-np.inf, 0.8)),
    "chamber_right": ((-np.inf, 1), (-np.inf, 0.8)),
    "passage vein": (NO, (-np.inf, 0.7)),
}
LEFT_SLACK_SHARE = 0.5
HINGE_ARC = np.radians(45)
DEAD_SPACE, CONTRACTION, LEAST_OPEN, SYSTEMIC_RISE = 1.0, 0.8, 0.05, 1.1
STIFF_BELOW = 0.5
FACES = ("left", "right")
VALVES = (("aortic", 0), ("pulmonary", 1), ("tricuspid", 1))
THETA = (np.arange(AZIMUTHS) * (2 * np.pi / AZIMUTHS))[:, None]
COS, SIN = np.cos(THETA), np.sin(THETA)


# ---- draws and sizes of the script's own ------------------------------------

NORMAL = {  # mean, standard deviation, least
    "aortic.rim": (1.7, 0.4, 0), "pulmonary.rim": (3.2, 0.6, 0), "tricuspid.rim": (6.5, 0.6, 0),
    "aortic.sag": (0, 0.5, 0), "pulmonary.sag": (0, 0.5, 0), "tricuspid.sag": (0, 0.5, 0),
    "aortic.azimuth": (0, 10, None), "pulmonary.azimuth": (270, 10, None),
    "tricuspid.azimuth": (90, 10, None), "aortic.lean": (95, 5, None),
    "pulmonary.lean": (90, 15, None), "tricuspid.lean": (90, 15, None),
    "throat.turn": (60, 10, None), "seat.turn": (0, 20, None),
}
LOG_NORMAL = {
    "throat.major": (4.75, 0.4), "throat.minor": (3.9, 0.5), "wall.thickness": (3.4, 0.4),
    "aortic.diameter": (7.2, 0.6), "pulmonary.diameter": (8.1, 0.6), "tricuspid.diameter": (10.5, 0.6),
    "aortic.diameter_across": (7.2, 0.6), "pulmonary.diameter_across": (8.1, 0.6),
    "tricuspid.diameter_across": (10.5, 0.6), "tricuspid.leaflet": (8, 0.6),
    "left_tract.depth": (7.0, 0.6), "left_tract.width": (7.6, 0.8), "left_tract.velocity": (0.9, 0.1),
    "right_tract.depth": (9.0, 0.6), "right_tract.width": (9.5, 0.6), "right_tract.velocity": (1.5, 0.1),
    "left_ventricle.length": (19, 1), "right_ventricle.length": (17, 1), "flow.qp_qs": (2.6, 0.4),
    "vein.diameter": (4.4, 0.4),
}


def own_columns(draws):
    """Draws about the numbers of the demonstration case."""
    random = np.random.default_rng(1)
    columns = {}
    for name, (mean, sd, least) in NORMAL.items():
        drawn = mean + sd * random.standard_normal(draws)
        columns[name] = drawn if least is None else np.maximum(drawn, least)
    for name, (mean, sd) in LOG_NORMAL.items():
        spread = np.log1p((sd / mean) ** 2)
        columns[name] = mean * np.exp(np.sqrt(spread) * random.standard_normal(draws) - spread / 2)
    for name in ("play_radius", "play_angle", "split"):
        columns[f"seat.{name}"] = random.random(draws)
    for face in FACES:
        columns[f"seat.tilt_{face}"] = 5 * np.abs(random.standard_normal(draws))
        columns[f"seat.tilt_direction_{face}"] = 360 * random.random(draws)
    return columns


def own_sizes():
    """Nine waists, two lengths, three kinds of discs: 54 sizes."""
    def disc(waist, wider, thickness=1.2, offset_u=0.0):
        return {"radius": (waist + wider) / 2, "thickness": thickness, "offset_u": offset_u}

    return [
        {"waist": waist, "length": length, "left": left, "right": right, "conformability": soft,
         "braid_angle_deg": 45, "sheath_outer": (3 + 0.4 * waist) / 3 + 0.7}
        for waist in np.arange(3, 7.01, 0.5) for length in (3.0, 4.0)
        for left, right, soft in (
            (disc(waist, 6), disc(waist, 6), 0.6),
            (disc(waist, 4), disc(waist, 4), 0.4),
            (disc(waist, 4, offset_u=-1.0), disc(waist, 3), 0.6),
        )
    ]


# ---- what all sizes share in a block of draws --------------------------------

def fit_diameter(a, b):
    """Diameter of the circle with the ellipse's perimeter, by the AGM."""
    x, y, gathered, power = a, b, a * a, 0.5
    gathered = gathered - power * (a * a - b * b)
    for _ in range(5):
        x, y, apart = 0.5 * (x + y), np.sqrt(x * y), 0.5 * (x - y)
        power *= 2
        gathered = gathered - power * apart * apart
    return 2 * gathered / x


def block_of(columns, first, last):
    """Columns of a range of draws and all that no size changes."""
    take = lambda name: np.ascontiguousarray(columns[name][first:last])
    one, other = take("throat.major"), take("throat.minor")
    a, b = 0.5 * np.maximum(one, other), 0.5 * np.minimum(one, other)
    turn = np.radians(take("throat.turn"))
    block = SimpleNamespace(lanes=len(a), a=a, b=b, fit=fit_diameter(a, b), wall=take("wall.thickness"))
    block.turn = np.cos(turn), np.sin(turn)
    edge = lambda cos, sin: a * b / np.sqrt(
        np.square(b * (cos * block.turn[0] + sin * block.turn[1]))
        + np.square(a * (sin * block.turn[0] - cos * block.turn[1])))
    block.edge = edge(COS, SIN)
    out = np.sqrt(take("seat.play_radius"))
    angle = 2 * np.pi * take("seat.play_angle")
    block.play = out * np.cos(angle), out * np.sin(angle)
    left = LEFT_SLACK_SHARE * take("seat.split")
    block.slack_share = left, 1 - left
    seat_turn = np.radians(take("seat.turn"))
    block.seat_turn = np.cos(seat_turn), np.sin(seat_turn)
    block.tilt = [np.radians(take(f"seat.tilt_{face}")) for face in FACES]
    block.tilts = {}
    direction = [np.radians(take(f"seat.tilt_direction_{face}")) for face in FACES]
    # Added to a lip, infinite where the lip is not asked for: outside, at a hinge.
    beside = [np.zeros((AZIMUTHS, block.lanes), bool) for _ in FACES]
    block.valves = []
    for name, face in VALVES:
        azimuth = np.radians(take(f"{name}.azimuth"))
        lean = np.radians(np.clip(take(f"{name}.lean"), 1, 179))
        cos, sin = np.cos(azimuth), np.sin(azimuth)
        beside[face] |= COS * cos + SIN * sin >= np.cos(HINGE_ARC)
        along, across = 0.5 * take(f"{name}.diameter"), 0.5 * take(f"{name}.diameter_across")
        reach = edge(cos, sin)
        block.valves.append(SimpleNamespace(
            face=face, cos=cos, sin=sin, edge=reach, hinge=reach + take(f"{name}.rim"),
            sag=take(f"{name}.sag"), a=along, b=across, lean=(np.sin(lean), np.cos(lean)),
            cotangent=np.cos(lean) / np.sin(lean), rim=take(f"{name}.rim"),
            towards=(np.cos(direction[face] - azimuth), np.sin(direction[face] - azimuth))))
    block.leaflet = take("tricuspid.leaflet")
    infinite = lambda where: np.where(where, np.inf, 0.0)
    block.outside = [infinite(where) for where in beside]
    block.inside = [infinite(~where) for where in beside]
    block.tract = [0.5 * np.sqrt(take(f"{face}_tract.depth") * take(f"{face}_tract.width"))
                   for face in FACES]
    block.four_v2 = [4 * np.square(take("left_tract.velocity") * SYSTEMIC_RISE),
                     4 * np.square(take("right_tract.velocity") / take("flow.qp_qs"))]
    block.ventricle = [take(f"{face}_ventricle.length") for face in FACES]
    block.vein = take("vein.diameter")
    return block


def tilt_of(block, face, conformability):
    """Cosine and sine of a disc's tilt, made once for all sizes as stiff."""
    key = face, conformability
    if key not in block.tilts:
        angle = (1 - conformability) * block.tilt[face]
        block.tilts[key] = np.cos(angle), np.sin(angle)
    return block.tilts[key]


# ---- lips --------------------------------------------------------------------

def least_lips(block, face, radius, centre, work):
    """Least lips outside and inside the arcs at hinges."""
    u, v = centre
    off = np.sqrt(u * u + v * v)
    square = radius * radius
    widest = off.max() > np.min(radius)
    outside, inside = np.full(block.lanes, np.inf), np.full(block.lanes, np.inf)
    along, across, lip = (array[:, :block.lanes] for array in work)
    for first in range(0, AZIMUTHS, AT_ONCE):
        some = slice(first, first + AT_ONCE)
        cos, sin = COS[some], SIN[some]
        np.multiply(u, sin, out=across)
        np.multiply(v, cos, out=along)
        across -= along
        np.multiply(across, across, out=across)
        np.subtract(square, across, out=across)
        if widest:
            missed = across < 0
            np.maximum(across, 0, out=across)
        np.sqrt(across, out=across)
        np.multiply(u, cos, out=along)
        across += along
        np.multiply(v, sin, out=along)
        across += along
        across -= block.edge[some]
        if widest:
            np.copyto(across, radius - off - block.a, where=missed)
        np.add(across, block.outside[face][some], out=lip)
        np.minimum(outside, lip.min(axis=0), out=outside)
        np.add(across, block.inside[face][some], out=lip)
        np.minimum(inside, lip.min(axis=0), out=inside)
    return outside, inside


# ---- signed clearance --------------------------------------------------------
# All in the directions out of the wall, along the ray to the hinge and along the
# hinge, from the hinge.

def clearance(valve, radius, thickness, height, centre, tilt):
    """Signed clearance of a disc in every draw."""
    u, v = centre
    core = np.maximum(radius - 0.5 * thickness, 0)
    x = u * valve.cos + v * valve.sin - valve.hinge
    y = v * valve.cos - u * valve.sin
    h = height + 0.5 * thickness
    nh, sine = tilt
    nx, ny = sine * valve.towards[0], sine * valve.towards[1]
    apart = np.empty_like(x)
    # Square to the plate, as fast as the disc's own plane allows.
    dot = nx - valve.cotangent * nh
    sh, sx, sy = -valve.cotangent - nh * dot, 1 - nx * dot, -ny * dot
    rate = np.sqrt(sh * sh + sx * sx + sy * sy)
    at_centre = x - valve.cotangent * h
    may_meet = at_centre + rate * core >= 0
    some = np.flatnonzero(may_meet)
    core = np.broadcast_to(core, x.shape)
    far = ~may_meet
    if some.size:
        pick = lambda array: array[some]
        depth, meets = shift(*map(pick, (h, y, nh, nx, ny, sh, sx, sy, rate, at_centre, core)),
                             valve.a[some] * valve.lean[0][some], valve.b[some])
        apart[some] = -depth
        far[some] = ~meets
    distance(valve, h, x, y, nh, nx, ny, core, far, apart)
    apart -= 0.5 * thickness
    apart -= valve.sag
    return apart


def shift(h, y, nh, nx, ny, sh, sx, sy, rate, at_centre, core, tall, wide):
    """The farthest that a disc can be drawn back and still meet the plate."""
    rate = np.maximum(rate, TINY)
    lh, lx, ly = sh / rate, sx / rate, sy / rate
    ch, cy = nx * ly - ny * lx, nh * lx - nx * lh
    c0, c1 = h / tall - 1, y / wide
    a0, a1 = lh / tall, ly / wide
    b0, b1 = ch / tall, cy / wide
    square = np.maximum(b0 * b0 + b1 * b1, TINY * TINY)
    offset, slope = c0 * b1 - c1 * b0, a0 * b1 - a1 * b0
    middle, middle_slope = -(c0 * b0 + c1 * b1) / square, -(a0 * b0 + a1 * b1) / square
    limit = np.sqrt(square)
    steep = np.where(np.abs(slope) < TINY, TINY, slope)
    one, other = (-limit - offset) / steep, (limit - offset) / steep
    low = np.maximum(np.maximum(np.minimum(one, other), -core), -at_centre / rate)
    high = np.minimum(np.maximum(one, other), core)

    def overlap(place):
        away = offset + slope * place
        disc = np.sqrt(np.maximum((core - place) * (core + place), 0))
        landed = np.sqrt(np.maximum(square - away * away, 0)) / square
        return disc + landed - np.abs(middle + middle_slope * place), disc, landed, away

    empty = low > high
    at_high = overlap(high)[0] >= 0
    found = at_high & ~empty
    best = np.where(found, high, -np.inf)
    # The overlap is concave: the slope at a place without says on which side it is.
    open_ = np.flatnonzero(~empty & ~found)
    if open_.size:
        core, offset, slope, square = core[open_], offset[open_], slope[open_], square[open_]
        middle, middle_slope = middle[open_], middle_slope[open_]
        low, high, deep = low[open_], high[open_], np.full(open_.size, -np.inf)
        for _ in range(DEPTH_STEPS):
            place = 0.5 * (low + high)
            value, disc, landed, away = overlap(place)
            rise = (-place / np.maximum(disc, TINY)
                    - away * slope / (square * square * np.maximum(landed, TINY))
                    - middle_slope * np.sign(middle + middle_slope * place))
            meets = value >= 0
            np.copyto(deep, place, where=meets)
            falls = ~meets & (rise < 0)
            step = place - value / np.where(rise == 0, TINY, rise)
            low = np.where(meets, place, np.where(falls, low, np.minimum(step, high)))
            high = np.where(falls, np.maximum(step, low), high)
        best[open_] = deep
        found[open_] = deep > -np.inf
    return np.maximum(at_centre + rate * np.where(found, best, 0), 0), found


def distance(valve, h, x, y, nh, nx, ny, core, wanted, apart):
    """Distance of disc and plate where wanted, into `apart`."""
    lh, lx = valve.lean
    ph, px = valve.a * lh, valve.a * lx
    dh, dx = h - ph, x - px
    # The plate's normal is (lx, -lh, 0).
    height = lx * dh - lh * dx
    dot = nh * lx - nx * lh
    uh, ux, uy = lx - nh * dot, -lh - nx * dot, -ny * dot
    sine = np.sqrt(uh * uh + ux * ux + uy * uy)
    lift = np.abs(height) - core * sine
    down = np.sign(height) * core / np.maximum(sine, TINY)
    along = (dh - uh * down) * lh + (dx - ux * down) * lx
    across = y - uy * down
    covered = np.square(along / valve.a) + np.square(across / valve.b) <= 1
    covered &= lift >= 0
    np.copyto(apart, lift, where=wanted & covered)
    some = np.flatnonzero(wanted & ~covered)
    if some.size:
        pick = lambda array: array[some]
        nh, nx, ny, core, lh, lx, a, b = map(pick, (nh, nx, ny, core, lh, lx, valve.a, valve.b))
        apart[some] = ring_distance(nh, nx, ny, core, -dh[some], -dx[some], -y[some],
                                    a * lh, a * lx, b)


def seen(ring, cos, sin):
    """The plate's edge at an angle, seen from the disc."""
    nh, nx, ny, core, bh, bx, by, fh, fx, b = ring
    rh, rx, ry = bh + fh * cos, bx + fx * cos, by + b * sin
    height = nh * rh + nx * rx + ny * ry
    oh, ox, oy = rh - nh * height, rx - nx * height, ry - ny * height
    axis = np.sqrt(oh * oh + ox * ox + oy * oy)
    curve = np.where(axis > core, 1 / np.maximum(axis, TINY), 0)
    beyond = np.maximum(axis - core, 0)
    oh *= curve
    ox *= curve
    oy *= curve
    far = np.sqrt(height * height + beyond * beyond)
    return rh, rx, ry, height, oh, ox, oy, curve, beyond, far


def ring_distance(*ring):
    """Distance of the disc from the plate's edge, by Newton along it; where a bound
    from below does not prove the end, by going all round."""
    nh, nx, ny, core, bh, bx, by, fh, fx, b = ring
    result = np.empty_like(core)
    open_ = np.arange(core.size)
    side = np.where(nh * bh + nx * bx + ny * by < 0, -1.0, 1.0)
    x, y = -side * (nh * fh + nx * fx), -side * ny * b
    length = np.sqrt(x * x + y * y)
    cos = np.where(length > 0, x / np.maximum(length, TINY), 1)
    sin = y / np.maximum(length, TINY)
    for step in range(RING_STEPS):
        nh, nx, ny, core, bh, bx, by, fh, fx, b = ring
        rh, rx, ry, height, oh, ox, oy, curve, beyond, far = seen(ring, cos, sin)
        scale = 1 / np.maximum(far, TINY)
        ah, ax, ay = nh * height + oh * beyond, nx * height + ox * beyond, ny * height + oy * beyond
        gx, gy = (fh * ah + fx * ax) * scale, b * ay * scale
        length = np.sqrt(gx * gx + gy * gy)
        settled = gx * cos + gy * sin + length <= RING_ACCURACY
        result[open_] = far
        if step == 0:  # the lowest point was a guess; now turn to where the slope points
            scale = 1 / np.maximum(length, TINY)
            cos, sin = np.where(settled, cos, -gx * scale), np.where(settled, sin, -gy * scale)
        else:
            vh, vx, vy = -fh * sin, -fx * sin, b * cos
            climb, spread = nh * vh + nx * vx + ny * vy, oh * vh + ox * vx + oy * vy
            ih, ix, iy = bh - rh, bx - rx, by - ry
            slope = height * climb + beyond * spread
            bend = (oh * ih + ox * ix + oy * iy
                    + curve * (vh * vh + vx * vx + vy * vy - climb * climb - spread * spread))
            second = (climb * climb + height * (nh * ih + nx * ix + ny * iy)
                      + spread * spread + beyond * bend)
            turn = np.where(second > 0, -slope / np.where(second > 0, second, 1), -np.sign(slope))
            np.clip(turn, -1, 1, out=turn)
            scale = 1 / np.sqrt(1 + turn * turn)
            cos, sin = (cos - turn * sin) * scale, (sin + turn * cos) * scale
        left = np.flatnonzero(~settled)
        if left.size == 0:
            return result
        if 4 * left.size < 3 * cos.size:
            open_, cos, sin = open_[left], cos[left], sin[left]
            ring = [array[left] for array in ring]
    result[open_] = all_round(ring)
    return result


def all_round(ring, places=64, rounds=4):
    """The least distance over the whole edge, by finer and finer steps."""
    least, at, width = None, np.zeros_like(ring[0]), np.pi
    steps = np.linspace(-1, 1, places + 1)[:, None]
    for _ in range(rounds):
        angle = at + width * steps
        far = seen(ring, np.cos(angle), np.sin(angle))[-1]
        best = far.argmin(axis=0)
        lanes = np.arange(at.size)
        at, least, width = angle[best, lanes], far[best, lanes], 2 * width / places
    return least


# ---- tracts ------------------------------------------------------------------

def half_width_integral(tract, x):
    return 0.5 * (x * np.sqrt(np.maximum((tract - x) * (tract + x), 0))
                  + tract * tract * np.arcsin(np.minimum(x / tract, 1)))


def open_share(tract, radius, layer, soft):
    """Share of an outflow tract that a disc of so thick a layer leaves open."""
    layer = np.minimum(layer, 2 * tract)
    chord = np.minimum(radius, tract)
    inner = tract - np.minimum(layer, tract)
    square = tract * tract
    cloth = 0.5 * (square - inner * inner) * np.minimum(2 * radius / tract, 2 * np.pi)
    centre = np.sqrt((tract - chord) * (tract + chord))
    dead = square * np.arcsin(chord / tract) - chord * centre
    top = np.minimum(np.maximum(layer - centre, centre), tract)
    slab = 2 * chord * np.minimum(layer, 2 * centre) + 2 * (
        half_width_integral(tract, top) - half_width_integral(tract, centre))
    taken = soft * cloth + (1 - soft) * (DEAD_SPACE * dead + slab)
    return np.clip(1 - taken / (np.pi * square), 0, 1)


# ---- one size in a block -------------------------------------------------------

def values_of(block, size, work):
    """Each check's name with its value in every draw."""
    waist, length, soft = size["waist"], size["length"], size["conformability"]
    fit, a, b = block.fit, block.a, block.b
    squeezed = np.minimum(waist, fit)
    yield "waist_fit", waist - fit
    yield "waist_ratio", waist / fit
    yield "conduction_excess", waist - fit
    yield "conduction_ratio", waist / fit
    if not (size["left"] and size["right"]):
        yield "grip", waist / fit
    stiffness = (length * np.tan(np.radians(size["braid_angle_deg"])) / waist) ** 2
    slack = np.sqrt(length * length + stiffness * (waist - squeezed) * (waist + squeezed)) - block.wall
    yield "length_fit", slack
    yield "conduction_clamp", np.maximum(0, -slack)
    free = np.maximum(slack, 0)
    # Play of the waist's centre: an ellipse in throat axes, none in a full hole.
    half = 0.5 * squeezed
    rounded = (half - b) / np.maximum(0.5 * fit - b, TINY)
    narrow = half <= b
    along = np.where(narrow, a - half, a - (a - 0.5 * fit) * rounded - half)
    along = np.where(squeezed >= fit, 0, np.maximum(along, 0))
    across = np.where(narrow, b - half, 0)
    px, py = along * block.play[0], across * block.play[1]
    cos, sin = block.turn
    place = px * cos - py * sin, px * sin + py * cos
    discs = []
    for face, name in enumerate(FACES):
        disc = size[name]
        radius, thickness, centre = half, 0.0, place
        if disc:
            radius, thickness = disc["radius"], disc["thickness"]
            du, dv = disc.get("offset_u", 0.0), disc.get("offset_v", 0.0)
            if du or dv:
                cos, sin = block.seat_turn
                centre = place[0] + du * cos - dv * sin, place[1] + du * sin + dv * cos
            outside, inside = least_lips(block, face, radius, centre, work)
            yield f"hold_{name}", outside
            yield f"hinge_lip_{name}", inside
            yield f"chamber_{name}", 2 * radius / block.ventricle[face]
        off_wall = block.slack_share[face] * free
        share = open_share(block.tract[face], radius, off_wall + thickness, soft)
        yield f"tract_share_{name}", share
        jet = np.maximum(share * (CONTRACTION + (1 - CONTRACTION) * share * share * share), LEAST_OPEN)
        yield f"tract_gradient_{name}", block.four_v2[face] * (1 / (jet * jet) - 1)
        if soft < STIFF_BELOW:
            yield f"tract_width_{name}", 2 * block.tract[face] - 2 * radius
        discs.append((radius, thickness, off_wall, centre))
    for (name, face), valve in zip(VALVES, block.valves):
        radius, thickness, off_wall, centre = discs[face]
        tilt = tilt_of(block, face, soft)
        yield f"clearance {name}", clearance(valve, radius, thickness, off_wall, centre, tilt)
        if name == "tricuspid":
            u, v = centre
            aside = v * valve.cos - u * valve.sin
            lip = (u * valve.cos + v * valve.sin - valve.edge
                   + np.sqrt(np.maximum(radius * radius - aside * aside, 0)))
            yield "leaflet tricuspid", np.clip((lip - valve.rim) / block.leaflet, 0, 1)
    yield "passage vein", size["sheath_outer"] / block.vein


def within(value, limit):
    """In which draws a limit holds; None where there is none."""
    low, high = limit
    if low > -np.inf and high < np.inf:
        return (value >= low) & (value <= high)
    if low > -np.inf:
        return value >= low
    return value <= high if high < np.inf else None


def count(columns, sizes, draws):
    """Per size: draws in which each check's stop and caution hold, and in which no
    stop, and neither stop nor caution, is broken."""
    counts = [({}, [0, 0]) for _ in sizes]
    work = [np.empty((AT_ONCE, LANES)) for _ in range(3)]
    for first in range(0, draws, LANES):
        block = block_of(columns, first, min(first + LANES, draws))
        for size, (rows, joint) in zip(sizes, counts):
            no_stop, no_caution = np.ones(block.lanes, bool), np.ones(block.lanes, bool)
            for name, value in values_of(block, size, work):
                row = rows.setdefault(name, [0, 0])
                for place, (limit, kept) in enumerate(zip(LIMITS[name], (no_stop, no_caution))):
                    holds = within(value, limit)
                    if holds is not None:
                        kept &= holds
                        row[place] += np.count_nonzero(holds)
                    else:
                        row[place] += block.lanes
            joint[0] += np.count_nonzero(no_stop)
            joint[1] += np.count_nonzero(no_stop & no_caution)
    return counts


# ---- timing -------------------------------------------------------

def timed(job):
    """Least seconds of the runs, on the clock and of the processor."""
    columns, sizes, draws, runs, barrier = job
    clock, processor = np.inf, np.inf
    for _ in range(runs):
        if barrier:
            barrier.wait()
        start, spent = time.perf_counter(), time.process_time()
        count(columns, sizes, draws)
        processor = min(processor, time.process_time() - spent)
        if barrier:
            barrier.wait()
        clock = min(clock, time.perf_counter() - start)
    return clock, processor


def in_process(job, queue):
    queue.put(timed(job))


def on_two(columns, sizes, draws, runs):
    """The same with half of the sizes in each of two processes."""
    barrier, queue = multiprocessing.Barrier(2), multiprocessing.Queue()
    both = [multiprocessing.Process(target=in_process, args=((columns, half, draws, runs, barrier), queue))
            for half in (sizes[::2], sizes[1::2])]
    for process in both:
        process.start()
    clocks, processors = zip(*(queue.get() for _ in both))
    for process in both:
        process.join()
    return max(clocks), max(processors)


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--columns", metavar="FILE.json")
    parser.add_argument("--runs", type=int, default=5)
    options = parser.parse_args()
    given = {}
    if options.columns:
        with open(options.columns, encoding="utf-8") as file:
            given = json.load(file)
    columns = {name: np.asarray(column, float) for name, column in given["columns"].items()} \
        if "columns" in given else own_columns(DRAWS)
    sizes = given.get("sizes") or own_sizes()
    draws = len(next(iter(columns.values())))
    lanes = len(sizes) * draws
    print(f"numpy {np.__version__}: {len(sizes)} sizes x {draws} draws, {AZIMUTHS} azimuths, "
          f"blocks of {LANES}, best of {options.runs}")
    if len(sizes) < 40 or draws < 4096:
        print("fewer than 40 sizes or 4,096 draws: a comparison with this run is void")
    counts = count(columns, sizes, draws)
    shares = np.array([joint[0] for _, joint in counts]) / draws
    best = int(shares.argmax())
    print(f"no stop broken: {shares.mean():.4f} over all, {shares[best]:.4f} for the best "
          f"(waist {sizes[best]['waist']:g}, length {sizes[best]['length']:g})")
    print("million candidate-draws a second:")
    for name, seconds in (("1 process", timed((columns, sizes, draws, options.runs, None))),
                          ("2 processes", on_two(columns, sizes, draws, options.runs))):
        rate, alone = (lanes / each / 1e6 for each in seconds)
        print(f"{name:>11}: {rate:.3f}   (by processor time, were the machine calm: {alone:.3f})")
    two = rate
    if two < LEAST_RATE:
        print(f"below {LEAST_RATE}: a comparison with this run is void (is the machine busy?)")
        sys.exit(1)


if __name__ == "__main__":
    main()
