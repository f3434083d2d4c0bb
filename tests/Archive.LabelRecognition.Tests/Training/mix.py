"""Weights between those of two models of the same graph: a share of the second, the rest of the first."""
import sys
import numpy as np
import onnx
from onnx import numpy_helper

first, second, share, target = sys.argv[1:]
model = onnx.load(first)
others = {i.name: numpy_helper.to_array(i) for i in onnx.load(second).graph.initializer}
for i in model.graph.initializer:
    value = numpy_helper.to_array(i)
    if value.dtype == np.float32:
        mixed = value + float(share) * (others[i.name] - value)
        i.CopyFrom(numpy_helper.from_array(mixed.astype(np.float32), i.name))
onnx.checker.check_model(model)
onnx.save(model, target)
