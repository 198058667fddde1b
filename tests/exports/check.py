"""Reads what the command exports of every house of Cedar Row by independent open readers: the building model (IFC 4),
the workbook (XLSX) and the drawings (PDF).

Needs the packages of requirements.txt beside it and a built command: `python check.py ../../target/debug/wythe`.
A building model must keep the schema IFC4 with its rules, make bodies that the geometry kernel can build, and say the
areas that the takeoff says; a workbook must hold figures and formulas that come to what they say; a drawing must be as
large as it says, and its texts must be there to be read.
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
import openpyxl
import pypdf

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


def check_workbook(command, house, folder):
    path = pathlib.Path(folder) / f"{house}.xlsx"
    run(command, "export", "xlsx", house, "--output", str(path))
    formulas, values = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    order, shown = formulas["order"], values["order"]
    heads = [cell.value for cell in order[1]]
    packs, price, cost = (next(i for i, h in enumerate(heads) if h.startswith(w)) for w in ("order", "price", "cost"))
    for row, seen in zip(order.iter_rows(min_row=2), shown.iter_rows(min_row=2)):
        if seen[price].value is None:
            continue
        assert isinstance(seen[packs].value, (int, float)), (house, heads)
        assert str(row[cost].value).startswith("="), (house, row[cost].value)
        assert abs(seen[packs].value * seen[price].value - float(seen[cost].value)) < 0.005, (house, row[0].value)
    print(f"{house}: {len(formulas.sheetnames)} worksheets, {order.max_row - 1} items ordered; costs agree")


def check_drawings(command, house, folder):
    drawn = pathlib.Path(folder) / f"{house}_drawn"
    run(command, "draw", house, "--into", str(drawn), "--theme", "print")
    path = pathlib.Path(folder) / f"{house}.pdf"
    run(command, "export", "pdf", house, "--output", str(path))
    pages = pypdf.PdfReader(path).pages
    sheets = {p.name: p.read_text() for p in drawn.glob("*.svg")}
    assert len(pages) == len(sheets), (house, len(pages), len(sheets))
    sizes = sorted(tuple(float(v) for v in re.search(r'width="([\d.]+)mm" height="([\d.]+)mm"', s).groups()) for s in sheets.values())
    found = sorted(tuple(float(v) * 25.4 / 72 for v in page.mediabox[2:]) for page in pages)
    assert all(abs(a - b) < 0.01 for x, y in zip(sizes, found) for a, b in zip(x, y)), house
    plan = pages[0].extract_text()
    for wall in re.findall(r"(?m)^\s+wall (\w+)", (ROW / "houses" / f"{house}.wythe").read_text()):
        assert wall.replace("_", " ") in plan, (house, wall)
    print(f"{house}: {len(pages)} drawings, each as large on the page as it says, texts readable")


def main():
    command = str(pathlib.Path(sys.argv[1]).resolve())
    with tempfile.TemporaryDirectory() as folder:
        count = 0
        for house in houses():
            count += check(command, house, folder)
            check_workbook(command, house, folder)
            check_drawings(command, house, folder)
    assert count > 0
    # The checker can refuse: a wall with a bad identifier is a fault.
    broken = ifcopenshell.file(schema="IFC4")
    broken.create_entity("IfcWall", GlobalId="short", Name="no identifier")
    assert faults(broken)


if __name__ == "__main__":
    main()
