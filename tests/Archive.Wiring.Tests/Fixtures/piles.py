#!/usr/bin/env python3
"""Draws piles of cables by lot and asks networkx for their knots and their order: writes piles.json beside itself.

Run by hand when piles are to be drawn anew: python3 piles.py. Needs networkx; written with 3.6.1.
"""
import json
import pathlib
import random

import networkx

DENSITIES = (0.3, 0.8, 1.2, 2.0)


def pile(lot: random.Random, count: int, density: float) -> networkx.DiGraph:
    names = [f"{letter}-{number}" for letter in "CXc" for number in range(count)]
    graph = networkx.DiGraph()
    graph.add_nodes_from(lot.sample(names, count))
    cables = list(graph)
    for _ in range(int(count * density)):
        over, under = lot.sample(cables, 2)
        graph.add_edge(over, under)
    return graph


def answer(graph: networkx.DiGraph) -> dict:
    condensed = networkx.condensation(graph)
    least = {lift: min(condensed.nodes[lift]["members"]) for lift in condensed}
    order = networkx.lexicographical_topological_sort(condensed, key=least.get)
    back = networkx.lexicographical_topological_sort(condensed.reverse(), key=least.get)
    return {
        "lies_over": {cable: sorted(graph.successors(cable)) for cable in sorted(graph)},
        "knots": sorted(sorted(knot) for knot in networkx.strongly_connected_components(graph) if len(knot) > 1),
        "top_first": [sorted(condensed.nodes[lift]["members"]) for lift in order],
        "lowest_first": [sorted(condensed.nodes[lift]["members"]) for lift in back],
    }


def main() -> None:
    lot = random.Random(20260512)
    piles = [answer(pile(lot, count, density)) for count in (2, 3, 5, 8, 13, 40) for density in DENSITIES for _ in range(3)]
    text = "[\n" + ",\n".join(json.dumps(each, separators=(",", ":")) for each in piles) + "\n]\n"
    pathlib.Path(__file__).with_name("piles.json").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
