"""An ONNX graph as a torch module whose weights can be trained. Only the steps that the recogniser's graph has."""
import numpy as np
import onnx
import torch
import torch.nn.functional as F
from onnx import numpy_helper


def attributes(node):
    return {a.name: onnx.helper.get_attribute_value(a) for a in node.attribute}


class Graph(torch.nn.Module):
    def __init__(self, path):
        super().__init__()
        self.model = onnx.load(path)
        graph = self.model.graph
        read = [(n.output[0], attributes(n)["value"]) for n in graph.node if n.op_type == "Constant"]
        read += [(i.name, i) for i in graph.initializer]
        self.constants, self.weights = {}, {}
        for name, tensor in read:
            value = torch.from_numpy(np.array(numpy_helper.to_array(tensor)))
            is_weight = value.is_floating_point() and not name.startswith("p2o.helper")
            (self.weights if is_weight else self.constants)[name] = torch.nn.Parameter(value, False) if is_weight else value
        self.input, self.output = graph.input[0].name, graph.output[0].name
        self.steps = [(n.op_type, list(n.input), n.output[0], attributes(n)) for n in graph.node if n.op_type != "Constant"]
        # x * hard sigmoid(x) is one step of torch.
        gates = {step[2]: step[1][0] for step in self.steps if step[0] == "HardSigmoid"}
        for at, (op, inputs, output, _) in enumerate(self.steps):
            if op == "Mul" and inputs[1] in gates and gates[inputs[1]] == inputs[0]:
                self.steps[at] = ("HardSwish", inputs[:1], output, {})
        used = {name for step in self.steps for name in step[1]}
        self.steps = [step for step in self.steps if step[0] != "HardSigmoid" or step[2] in used]
        self.last = {name: at for at, step in enumerate(self.steps) for name in step[1]}

    def trained(self, first):
        """The weights of the steps from a step on; the others are frozen."""
        names = {name for step in self.steps[first:] for name in step[1]}
        for name, weight in self.weights.items():
            weight.requires_grad_(name in names)
        return {name: weight for name, weight in self.weights.items() if name in names}

    def forward(self, x, frozen=0):
        """What goes into the last softmax. The first steps are not trained."""
        values = {self.input: x}
        for at, (op, inputs, output, how) in enumerate(self.steps):
            given = [values[i] if i in values else self.weights[i] if i in self.weights else self.constants[i] for i in inputs]
            if output == self.output:
                return given[0]
            with torch.set_grad_enabled(torch.is_grad_enabled() and at >= frozen):
                values[output] = run(op, given, how)
            for name in inputs:
                if self.last[name] == at:
                    values.pop(name, None)
        raise ValueError("the graph has no such output")

    def save(self, path):
        graph = self.model.graph
        for i in graph.initializer:
            if i.name in self.weights:
                i.CopyFrom(numpy_helper.from_array(self.weights[i.name].detach().contiguous().numpy(), i.name))
        onnx.checker.check_model(self.model)
        onnx.save(self.model, path)


def run(op, i, a):
    if op == "Conv":
        pads = a.get("pads", [0, 0, 0, 0])
        assert pads[0] == pads[2] and pads[1] == pads[3]
        return F.conv2d(i[0], i[1], i[2] if len(i) > 2 else None, a["strides"], pads[:2], a["dilations"], a["group"])
    if op == "HardSwish":
        return F.hardswish(i[0])
    if op == "HardSigmoid":
        return (i[0] * a["alpha"] + a["beta"]).clamp(0, 1)
    if op == "Add":
        return i[0] + i[1]
    if op == "Sub":
        return i[0] - i[1]
    if op == "Mul":
        return i[0] * i[1]
    if op == "Div":
        return i[0] / i[1]
    if op == "Pow":
        assert float(i[1]) == 2
        return i[0] * i[0]
    if op == "Sqrt":
        return i[0].sqrt()
    if op == "Clip":
        return i[0].clamp(a["min"], a["max"])
    if op == "Cast":
        return i[0].to({1: torch.float32, 6: torch.int32, 7: torch.int64}[a["to"]])
    if op == "MatMul":
        return i[0] @ i[1]
    if op == "Slice":
        for axis, start, end in zip(a["axes"], a["starts"], a["ends"]):
            i[0] = i[0].narrow(axis, start, min(end, i[0].shape[axis]) - start)
        return i[0]
    if op == "ReduceMean":
        return i[0].mean(a["axes"], keepdim=a.get("keepdims", 1) == 1)
    if op == "Transpose":
        return i[0].permute(*a["perm"])
    if op == "Sigmoid":
        return torch.sigmoid(i[0])
    if op == "Concat":
        return torch.cat(i, a["axis"])
    if op == "Squeeze":
        for axis in sorted(a["axes"], reverse=True):
            i[0] = i[0].squeeze(axis)
        return i[0]
    if op == "BatchNormalization":
        return F.batch_norm(i[0], i[3], i[4], i[1], i[2], False, 0, a["epsilon"])
    if op == "Reshape":
        return i[0].reshape([int(d) if int(d) != 0 else i[0].shape[k] for k, d in enumerate(i[1])])
    if op == "Shape":
        return torch.tensor(i[0].shape)
    if op == "Softmax":
        return i[0].softmax(a["axis"])
    if op == "GlobalAveragePool":
        return i[0].mean([2, 3], keepdim=True)
    if op == "Relu":
        return F.relu(i[0])
    if op == "AveragePool":
        assert not any(a.get("pads", [0]))
        return F.avg_pool2d(i[0], a["kernel_shape"], a["strides"])
    raise NotImplementedError(op)
