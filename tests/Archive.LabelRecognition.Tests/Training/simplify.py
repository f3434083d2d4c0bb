"""The recogniser's graph, with the same answers from fewer steps: scalings and batch normalisation go into the convolutions beside them,
and of the classes only those that labels may use stay."""
import sys

import numpy as np
import onnx
from onnx import helper, numpy_helper

LETTERS = 0x2E80  # From here on: ideographs, which no label has.


def attributes(node):
    return {a.name: helper.get_attribute_value(a) for a in node.attribute}


def scalar(consts, name):
    return name in consts and consts[name].size == 1 and consts[name].dtype == np.float32


def simplify(source, characters, target, target_characters):
    model = onnx.load(source)
    graph = model.graph
    consts = {n.output[0]: np.array(numpy_helper.to_array(attributes(n)["value"])) for n in graph.node if n.op_type == "Constant"}
    nodes = [n for n in graph.node if n.op_type != "Constant"]

    def users(name):
        return [n for n in nodes if name in n.input]

    def other(node, name):
        return [i for i in node.input if i != name][0]

    # x * clip(x + 3, 0, 6) / 6.
    for add in list(nodes):
        if add.op_type != "Add" or not scalar(consts, add.input[1]) or consts[add.input[1]] != 3:
            continue
        clip = users(add.output[0])
        if len(clip) != 1 or clip[0].op_type != "Clip":
            continue
        mul = users(clip[0].output[0])[0]
        div = users(mul.output[0])[0]
        assert mul.op_type == "Mul" and add.input[0] in mul.input and div.op_type == "Div" and consts[div.input[1]] == 6
        at = nodes.index(add)
        gate = helper.make_node("HardSigmoid", [add.input[0]], [add.output[0]], alpha=1 / 6, beta=0.5)
        product = helper.make_node("Mul", [add.input[0], add.output[0]], [div.output[0]])
        for gone in (add, clip[0], mul, div):
            nodes.remove(gone)
        nodes[at:at] = [gate, product]

    # A convolution takes what scales and shifts its result.
    for conv in list(nodes):
        if conv.op_type != "Conv":
            continue
        weight = consts[conv.input[1]].astype(np.float64)
        bias = consts[conv.input[2]].astype(np.float64) if len(conv.input) > 2 else np.zeros(weight.shape[0])
        while True:
            after = users(conv.output[0])
            if len(after) != 1:
                break
            n = after[0]
            if n.op_type == "BatchNormalization":
                gain, shift, mean, variance = (consts[i].astype(np.float64) for i in n.input[1:])
                scale = gain / np.sqrt(variance + attributes(n)["epsilon"])
                weight, bias = weight * scale[:, None, None, None], (bias - mean) * scale + shift
            elif n.op_type == "Mul" and scalar(consts, other(n, conv.output[0])):
                scale = float(consts[other(n, conv.output[0])].reshape(-1)[0])
                weight, bias = weight * scale, bias * scale
            elif n.op_type == "Add" and other(n, conv.output[0]) in consts:
                shift = consts[other(n, conv.output[0])].astype(np.float64)
                assert shift.size in (1, bias.size)
                bias = bias + shift.reshape(-1)
            else:
                break
            nodes.remove(n)
            conv.output[0] = n.output[0]
        consts[conv.input[1]] = weight
        if len(conv.input) < 3:
            conv.input.append(conv.input[1] + ".bias")
        consts[conv.input[2]] = bias

    # And what scales and shifts its input: beyond an edge a shift would be wrong, so there it stays.
    for mul in list(nodes):
        if mul.op_type != "Mul" or not any(scalar(consts, i) for i in mul.input):
            continue
        scale_name = [i for i in mul.input if scalar(consts, i)][0]
        add = users(mul.output[0])
        if len(add) != 1 or add[0].op_type != "Add" or not scalar(consts, other(add[0], mul.output[0])):
            continue
        add = add[0]
        conv = users(add.output[0])
        if len(conv) != 1 or conv[0].op_type != "Conv":
            continue
        conv, source_name = conv[0], other(mul, scale_name)
        scale = float(consts[scale_name].reshape(-1)[0])
        shift = float(consts[other(add, mul.output[0])].reshape(-1)[0])
        weight = consts[conv.input[1]]
        nodes.remove(mul)
        if any(attributes(conv)["pads"]):
            consts[conv.input[1]] = weight * scale
            name = other(add, mul.output[0])
            consts[name] = np.array([shift / scale], np.float64)
            add.input[:] = [source_name, name]
        else:
            consts[conv.input[2]] = consts[conv.input[2]] + shift * weight.sum((1, 2, 3))
            consts[conv.input[1]] = weight * scale
            nodes.remove(add)
            conv.input[0] = source_name

    # The classes: the blank, the lines of the file, the space.
    lines = open(characters, encoding="utf-8").read().rstrip("\n").split("\n")
    kept = [0] + [1 + at for at, line in enumerate(lines) if line and ord(line[0]) < LETTERS] + [len(lines) + 1]
    for name, value in list(consts.items()):
        if value.ndim and value.shape[-1] == len(lines) + 2:
            consts[name] = value[..., kept]
    with open(target_characters, "w", encoding="utf-8", newline="\n") as file:
        file.writelines(lines[at - 1] + "\n" for at in kept[1:-1])
    for dimension in graph.output[0].type.tensor_type.shape.dim:
        if dimension.dim_value == len(lines) + 2:
            dimension.dim_value = len(kept)

    used = {i for n in nodes for i in n.input}
    del graph.node[:]
    graph.node.extend(nodes)
    del graph.initializer[:]
    graph.initializer.extend(
        numpy_helper.from_array(v.astype(np.float32) if v.dtype == np.float64 else v, k) for k, v in consts.items() if k in used)
    onnx.checker.check_model(model)
    onnx.save(model, target)
    print(f"{len(nodes)} steps, {len(kept)} classes, {sum(v.size for k, v in consts.items() if k in used)} numbers")


if __name__ == "__main__":
    simplify(*sys.argv[1:])
