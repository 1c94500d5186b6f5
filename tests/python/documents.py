"""Validates OpenAPI documents: each file named has to be one, or what is wrong with it is told."""

import json
import sys

from openapi_spec_validator import OpenAPIV31SpecValidator



def lost(document, value, path=()):
    """References and links that lead nowhere."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from lost(document, inner, (*path, key))
        if isinstance(value.get("$ref"), str):
            place = document
            for step in value["$ref"].removeprefix("#/").split("/"):
                place = place.get(step.replace("~1", "/").replace("~0", "~"), {})
            if not place:
                yield f"{path}: {value['$ref']} is not there"
        if "links" in path[-2:-1]:
            calls = [call["operationId"] for verbs in document["paths"].values() for call in verbs.values()]
            if value["operationId"] not in calls:
                yield f"{path}: there is no {value['operationId']}"
    elif isinstance(value, list):
        for place, inner in enumerate(value):
            yield from lost(document, inner, (*path, place))


faults = 0
for name in sys.argv[1:]:
    with open(name, encoding="utf-8") as file:
        document = json.load(file)
    for fault in OpenAPIV31SpecValidator(document).iter_errors():
        faults += 1
        print(f"{name}: {list(fault.absolute_path)}: {fault.message[:300]}")
    for fault in lost(document, document):
        faults += 1
        print(f"{name}: {fault}")
    operations = sum(len(verbs) for verbs in document["paths"].values())
    print(f"{name}: {operations} operations, {len(document['components']['schemas'])} schemas")
sys.exit(1 if faults else 0)
