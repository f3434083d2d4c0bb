"""Renders a scene that Archive.DemoPictures wrote: blender -b --factory-startup -P render.py -- FOLDER

Reads FOLDER/scene.json and the meshes beside it; writes FOLDER/light.exr: the light that falls on things, traced, smaller than
the picture, which Darkroom.cs makes of it.
"""
import array
import json
import os
import sys

import bpy
from mathutils import Matrix, Vector

FOLDER = sys.argv[sys.argv.index("--") + 1]
SAMPLES = 16
PASSES = ("diffuse_direct", "diffuse_indirect", "glossy_direct", "glossy_indirect", "glossy_color", "normal", "z")

# roughness, metallic, specular
STUFFS = {
    "Paint": (0.42, 0.0, 0.45), "Steel": (0.38, 0.75, 0.5), "Brass": (0.36, 0.85, 0.5), "Plastic": (0.45, 0.0, 0.4), "Sheath": (0.55, 0.0, 0.22),
    "Glass": (0.10, 0.0, 0.6), "Tile": (0.32, 0.0, 0.4), "Plaster": (0.85, 0.0, 0.15), "Wood": (0.5, 0.0, 0.35), "Paper": (0.85, 0.0, 0.1),
}


def hall(p):
    """Millimetres, y to the south, to metres, y to the north."""
    return Vector((p[0], -p[1], p[2])) / 1000


def turn(d):
    return Vector((d[0], -d[1], d[2])).normalized()


def material(stuff):
    made = bpy.data.materials.new(stuff)
    made.use_nodes = True
    nodes, links = made.node_tree.nodes, made.node_tree.links
    colour = nodes.new("ShaderNodeVertexColor")
    colour.layer_name = "Colour"
    if stuff == "Glow":
        # It is only seen, and the darkroom sees to that: the lamps do the lighting.
        shader = nodes.new("ShaderNodeEmission")
        shader.inputs["Strength"].default_value = 0
    else:
        shader = nodes["Principled BSDF"]
        shader.inputs["Roughness"].default_value, shader.inputs["Metallic"].default_value, shader.inputs["Specular"].default_value = STUFFS[stuff]
        links.new(colour.outputs["Color"], shader.inputs["Base Color"])
    links.new(shader.outputs[0], nodes["Material Output"].inputs["Surface"])
    return made


def build(told, materials):
    with open(os.path.join(FOLDER, told["file"]), "rb") as file:
        def take(kind, count):
            values = array.array(kind)
            values.fromfile(file, count)
            return values
        points, colours = take("f", told["points"] * 3), take("f", told["points"] * 4)
        corners, starts, round_ = take("i", told["corners"]), take("i", told["faces"]), take("b", told["faces"])
    mesh = bpy.data.meshes.new(told["file"])
    mesh.vertices.add(told["points"])
    mesh.vertices.foreach_set("co", points)
    mesh.loops.add(told["corners"])
    mesh.loops.foreach_set("vertex_index", corners)
    mesh.polygons.add(told["faces"])
    mesh.polygons.foreach_set("loop_start", starts)
    sizes = array.array("i", (b - a for a, b in zip(starts, list(starts[1:]) + [told["corners"]])))
    mesh.polygons.foreach_set("loop_total", sizes)
    mesh.polygons.foreach_set("use_smooth", round_)
    mesh.update(calc_edges=True)
    mesh.color_attributes.new("Colour", "FLOAT_COLOR", "POINT").data.foreach_set("color", colours)
    if told["stuff"] not in materials:
        materials[told["stuff"]] = material(told["stuff"])
    mesh.materials.append(materials[told["stuff"]])
    thing = bpy.data.objects.new(told["file"], mesh)
    # Millimetres with y to the south become metres with y to the north.
    thing.matrix_world = Matrix.Diagonal((0.001, -0.001, 0.001, 1))
    thing.visible_camera = told["seen"]
    # What glows is only seen: the lamps do the lighting.
    thing.visible_diffuse = thing.visible_glossy = thing.visible_shadow = told["stuff"] != "Glow"
    bpy.context.scene.collection.objects.link(thing)


def light(told):
    lamp = bpy.data.lights.new("lamp", "AREA")
    lamp.shape, lamp.size, lamp.size_y = "RECTANGLE", told["wide"] / 1000, told["high"] / 1000
    lamp.energy, lamp.color = told["watts"], told["colour"]
    thing = bpy.data.objects.new("lamp", lamp)
    # A lamp shines along its -z; its x is level.
    z = -turn(told["toward"])
    x = Vector((0, 0, 1)).cross(z)
    x = x.normalized() if x.length > 1e-6 else Vector((1, 0, 0))
    thing.matrix_world = Matrix.Translation(hall(told["at"])) @ Matrix((x, z.cross(x), z)).transposed().to_4x4()
    thing.visible_camera = False
    bpy.context.scene.collection.objects.link(thing)


def camera(scene, told):
    lens = bpy.data.cameras.new("camera")
    c, w, h = told["camera"], told["width"], told["height"]
    lens.sensor_fit, lens.sensor_width = "HORIZONTAL", 36
    lens.lens = c["focal"] / w * 36
    lens.shift_x, lens.shift_y = (w / 2 - c["x"]) / w, (c["y"] - h / 2) / w
    lens.clip_start, lens.clip_end = 0.02, 60
    thing = bpy.data.objects.new("camera", lens)
    thing.matrix_world = Matrix.Translation(hall(c["eye"])) @ Matrix((turn(c["right"]), turn(c["above"]), -turn(c["ahead"]))).transposed().to_4x4()
    scene.collection.objects.link(thing)
    scene.camera = thing


def main():
    for thing in list(bpy.data.objects):
        bpy.data.objects.remove(thing)
    with open(os.path.join(FOLDER, "scene.json"), encoding="utf-8") as file:
        told = json.load(file)
    scene = bpy.context.scene
    materials = {}
    for mesh in told["meshes"]:
        build(mesh, materials)
    camera(scene, told)
    for lamp in told["lamps"]:
        light(lamp)
    world = bpy.data.worlds.new("air")
    scene.world = world
    world.use_nodes = True
    air = world.node_tree.nodes["Background"]
    air.inputs["Color"].default_value = (0.86, 0.94, 1.0, 1)
    air.inputs["Strength"].default_value = told["air"]
    world.cycles.sampling_method = "NONE"

    scene.render.engine = "CYCLES"
    cycles = scene.cycles
    cycles.seed = told["seed"]
    cycles.use_adaptive_sampling = cycles.use_denoising = cycles.use_auto_tile = False
    cycles.caustics_reflective = cycles.caustics_refractive = False
    cycles.sample_clamp_indirect, cycles.sample_clamp_direct, cycles.blur_glossy = 4, 60, 0.6
    cycles.max_bounces, cycles.diffuse_bounces, cycles.glossy_bounces = 3, 2, 1
    cycles.pixel_filter_type, cycles.filter_width = "GAUSSIAN", 1.3
    scene.render.image_settings.file_format = "OPEN_EXR_MULTILAYER"
    scene.render.image_settings.exr_codec = "NONE"
    scene.render.image_settings.color_depth = "32"
    layer = scene.view_layers[0]
    layer.use_pass_combined = False
    for one in PASSES:
        setattr(layer, f"use_pass_{one}", True)
    scene.render.resolution_x, scene.render.resolution_y = told["seen"]
    scene.render.resolution_percentage = 100
    cycles.samples = SAMPLES
    scene.render.filepath = os.path.join(FOLDER, "light.exr")
    bpy.ops.render.render(write_still=True)


main()
