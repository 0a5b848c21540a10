"""Holds documents against their JSON Schema, closed: a key that the schema does not tell of is a fault.

usage: holds.py FOLDER < lines of NAME<tab>DOCUMENT
"""

import json
import pathlib
import sys

try:
    import jsonschema
except ImportError:
    sys.exit("the Python package jsonschema is needed (Debian package python3-jsonschema)")


def closed(schema):
    """The same schema, which takes no key that it does not name."""
    if isinstance(schema, list):
        return [closed(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    out = {key: closed(part) for key, part in schema.items()}
    if "properties" in schema and isinstance(schema["properties"], dict):
        out.setdefault("unevaluatedProperties", False)
    if "allOf" in out:
        # Its parts see each other's keys.
        out["allOf"] = [opened(part) for part in out["allOf"]]
        out["unevaluatedProperties"] = False
    return out


def opened(schema):
    return {key: part for key, part in schema.items() if key != "unevaluatedProperties"}


folder = pathlib.Path(sys.argv[1])
faults = []
used = set()
for line in sys.stdin:
    name, document = line.rstrip("\n").split("\t", 1)
    used.add(name)
    schema = json.loads((folder / f"{name}.json").read_text())
    jsonschema.Draft202012Validator.check_schema(schema)
    for error in jsonschema.Draft202012Validator(closed(schema)).iter_errors(json.loads(document)):
        where = "/".join(str(part) for part in error.absolute_path)
        faults.append(f"{name}: {where}: {error.message[:400]}")
for schema in sorted(folder.glob("*.json")):
    if schema.stem not in used:
        faults.append(f"{schema.name}: no document was held against it")
print("\n".join(faults))
sys.exit(1 if faults else 0)
