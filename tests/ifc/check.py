"""Reads the building model of every house of Cedar Row by an independent open reader, and compares it with the takeoff.

Needs the packages of requirements.txt beside it and a built command: `python check.py ../../target/debug/wythe`.
Every file must keep the schema IFC4 with its rules, make bodies that the geometry kernel can build, and say the areas
that the takeoff says.
"""

import pathlib
import re
import subprocess
import sys
import tempfile

import ifcopenshell
import ifcopenshell.geom
import ifcopenshell.util.element
import ifcopenshell.validate

HERE = pathlib.Path(__file__).resolve().parent
ROW = HERE.parent.parent / "examples" / "cedar_row"


def run(command, *arguments):
    done = subprocess.run([command, *arguments], cwd=ROW, capture_output=True, text=True)
    return done.stdout


def houses():
    for path in sorted((ROW / "houses").glob("*.wythe")):
        for name in re.findall(r"^(?:pub )?foundation (\w+)", path.read_text(), re.M):
            yield name


def faults(model):
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model, log, express_rules=True)
    return log.statements


def net_areas(model):
    """Area by element, face and layer."""
    out = {}
    for covering in model.by_type("IfcCovering"):
        sets = ifcopenshell.util.element.get_psets(covering, qtos_only=True)
        area = sets.get("Qto_CoveringBaseQuantities", {}).get("NetArea")
        if area is not None:
            out[covering.Name] = out.get(covering.Name, 0.0) + area
    return out


def takeoff(command, house):
    """The takeoff by wall, as text."""
    return run(command, "takeoff", house, "--by", "wall", "--as-drawn", "--format", "json")


def check(command, house, folder):
    path = pathlib.Path(folder) / f"{house}.ifc"
    run(command, "export", "ifc", house, "--as-drawn", "--output", str(path))
    model = ifcopenshell.open(str(path))
    assert model.schema == "IFC4", model.schema
    found = faults(model)
    assert not found, (house, found[:3])
    ids = [root.GlobalId for root in model.by_type("IfcRoot")]
    assert len(ids) == len(set(ids)), house
    # Every body can be built, and is as large as its quantities say.
    settings = ifcopenshell.geom.settings()
    bodies = 0
    for product in model.by_type("IfcElement"):
        if not product.Representation or product.is_a("IfcBeam"):
            continue
        shape = ifcopenshell.geom.create_shape(settings, product)
        assert len(shape.geometry.verts) >= 24, (house, product.Name)
        bodies += 1
    walls = {w.Name: w for w in model.by_type("IfcWall")}
    for wall in walls.values():
        sets = ifcopenshell.util.element.get_psets(wall)
        assert sets["Qto_WallBaseQuantities"]["Length"] > 0, wall.Name
    voids = model.by_type("IfcRelVoidsElement")
    openings = model.by_type("IfcOpeningElement")
    assert len(voids) == len(openings)
    again = pathlib.Path(folder) / "again.ifc"
    run(command, "export", "ifc", house, "--as-drawn", "--output", str(again))
    assert again.read_bytes() == path.read_bytes(), "the same plans give the same file"
    areas = net_areas(model)
    figures = [float(v) for v in re.findall(r'"si":\s*([0-9.eE+-]+)', takeoff(command, house))]
    for name, area in areas.items():
        assert any(abs(v - area) < 1e-6 for v in figures), (house, name, area)
    print(f"{house}: {len(walls)} walls, {len(openings)} openings, {len(areas)} layers with areas, {bodies} bodies; no fault")
    return len(walls)


def main():
    command = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        count = sum(check(command, house, folder) for house in houses())
    assert count > 0
    # The checker can refuse: a wall with a bad identifier is a fault.
    broken = ifcopenshell.file(schema="IFC4")
    broken.create_entity("IfcWall", GlobalId="short", Name="no identifier")
    assert faults(broken)


if __name__ == "__main__":
    main()
