"""Writes a trained model with weights of two bytes: half as large, and ONNX Runtime makes four of them when it loads."""
import sys
import numpy as np
import onnx
from onnx import helper, numpy_helper, TensorProto

source, target = sys.argv[1:]
model = onnx.load(source)
graph = model.graph
casts, kept = [], []
for i in graph.initializer:
    value = numpy_helper.to_array(i)
    if value.dtype == np.float32 and value.size > 64:
        assert np.abs(value).max() < 60000
        kept.append(numpy_helper.from_array(value.astype(np.float16), i.name + ".half"))
        casts.append(helper.make_node("Cast", [i.name + ".half"], [i.name], to=TensorProto.FLOAT))
    else:
        kept.append(i)
nodes = list(graph.node)
del graph.initializer[:]; graph.initializer.extend(kept)
del graph.node[:]; graph.node.extend(casts + nodes)
model.producer_name = "asfound"
model.doc_string = ("PP-OCRv4 recognition, copyright PaddlePaddle Authors, Apache-2.0. Changed: fewer steps, only the classes that labels use, weights "
                    "trained on drawn labels and stored with two bytes.")
onnx.checker.check_model(model)
onnx.save(model, target)
