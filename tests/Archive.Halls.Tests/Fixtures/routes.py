#!/usr/bin/env python3
"""Writes routes.json: lengths of shortest ways through trays, found by networkx on a model that shares nothing with the product.

Every tray is cut into points 50 mm apart. Points of different trays that lie over each other in plan are joined at the cost of the
difference in height, so trays that cross, touch, or hang one above the other all join, without any geometry. Centre lines run along
the axes on multiples of 200 mm, so that none comes within 150 mm of another without touching it.

    python3 routes.py > routes.json        # networkx 3.6.1
"""
import json
import random
import sys

import networkx as nx

STEP = 50


def line(rng):
    x, y = rng.randrange(0, 45) * 200, rng.randrange(0, 30) * 200
    path = [[x, y]]
    east = rng.random() < 0.5
    for _ in range(rng.choice([1, 1, 1, 2, 3])):
        far = rng.choice([-1, 1]) * rng.randrange(3, 26) * 200
        x, y = (min(9000, max(0, x + far)), y) if east else (x, min(6000, max(0, y + far)))
        if [x, y] != path[-1]:
            path.append([x, y])
        east = not east
    return path if len(path) > 1 else line(rng)


def points(path):
    out = [tuple(path[0])]
    for (ax, ay), (bx, by) in zip(path, path[1:]):
        steps = max(abs(bx - ax), abs(by - ay)) // STEP
        out += [(ax + (bx - ax) * i // steps, ay + (by - ay) * i // steps) for i in range(1, steps + 1)]
    return out


def hall(rng):
    trays = [{"path": line(rng), "height": rng.randrange(2200, 3000, 50)} for _ in range(rng.randrange(3, 11))]
    if rng.random() < 0.4:  # a second tray above a stretch of the first
        (ax, ay), (bx, by) = trays[0]["path"][:2]
        trays.append({"path": [[ax, ay], [bx, by]], "height": trays[0]["height"] + 300})
    graph = nx.Graph()
    over = {}
    for t, tray in enumerate(trays):
        way = points(tray["path"])
        if len(set(way)) < len(way):  # lines that cross or double themselves are another matter
            return None
        for i, at in enumerate(way):
            graph.add_node((t, i))
            if i:
                graph.add_edge((t, i - 1), (t, i), weight=STEP)
            over.setdefault(at, []).append((t, i))
    for meeting in over.values():
        for a in meeting:
            for b in meeting:
                if a < b:
                    graph.add_edge(a, b, weight=abs(trays[a[0]]["height"] - trays[b[0]]["height"]))
    frames = []
    for f in range(rng.randrange(3, 7)):
        tray = rng.choice(trays)["path"]
        at = rng.choice(points(tray))
        middle = [at[0] + rng.randrange(-18, 19) * STEP, at[1] + rng.randrange(-18, 19) * STEP]
        top = rng.randrange(1800, 2400, 10)
        frames.append({"middle": middle, "top": top})
        for t, other in enumerate(trays):
            away = [((x - middle[0]) ** 2 + (y - middle[1]) ** 2, i) for i, (x, y) in enumerate(points(other["path"]))]
            near = sorted(away)
            if near[0][0] <= 900 ** 2:
                if near[1][0] == near[0][0]:  # two nearest points: the text does not say which
                    return None
                graph.add_edge(("frame", f), (t, near[0][1]), weight=near[0][0] ** 0.5 + abs(other["height"] - top))
    ways = []
    for a in range(len(frames)):
        # A way may not pass through a third frame, nor through its own: the others are taken out.
        for b in range(a + 1, len(frames)):
            shown = nx.restricted_view(graph, [("frame", f) for f in range(len(frames)) if f not in (a, b) and ("frame", f) in graph], [])
            known = ("frame", a) in graph and ("frame", b) in graph and nx.has_path(shown, ("frame", a), ("frame", b))
            ways.append([a, b, nx.dijkstra_path_length(shown, ("frame", a), ("frame", b)) if known else None])
    return {"trays": trays, "frames": frames, "ways": ways}


def main():
    rng = random.Random(20261125)
    halls = []
    while len(halls) < 60:
        found = hall(rng)
        if found:
            halls.append(found)
    sys.stdout.write("[\n" + ",\n".join(json.dumps(found, separators=(",", ":")) for found in halls) + "\n]\n")


main()
