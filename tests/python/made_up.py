"""Requests made up from the OpenAPI document, and what is held against their answers (hooks of
schemathesis).

Whether a request is one that the document describes is judged here by the document's own schemas, so
both ways are exact: what is described is read, and refused only for what no schema can say (a code
that the catalogue does not have, lengths that contradict each other); what is not described is
refused. Other ways of writing the same message that the standard JSON mapping of proto3 reads, and that
the head of the document tells of, count as described.
"""

import atexit
import json
import os
import re
from collections import Counter

import schemathesis
from jsonschema import Draft202012Validator, FormatChecker
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

with open(os.environ["PENNANTRY_MADE_UP"], encoding="utf-8") as file:
    GIVEN = json.load(file)
with open(GIVEN["document"], encoding="utf-8") as file:
    DOCUMENT = json.load(file)
REGISTRY = Registry().with_resource("urn:d", Resource.from_contents(DOCUMENT, default_specification=DRAFT202012))
NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
# What the schemas rule out: of a request that they describe none of these may be told.
RULED_OUT = {
    "MALFORMED_JSON", "TOO_DEEP", "UNKNOWN_FIELD", "REPEATED_FIELD", "TWO_LENGTHS", "WRONG_TYPE",
    "UNKNOWN_VALUE", "TOO_LONG", "BAD_DATE", "STAFF_ONLY",
}
SEEN = Counter()


def resolved(schema):
    if isinstance(schema, dict) and "$ref" in schema:
        place = DOCUMENT
        for step in schema["$ref"].removeprefix("#/").split("/"):
            place = place[step.replace("~1", "/").replace("~0", "~")]
        return {**place, **{key: value for key, value in schema.items() if key != "$ref"}}
    return schema


def number(value, whole):
    """A number as it is read, in quotes too."""
    if isinstance(value, str) and NUMBER.fullmatch(value):
        value = float(value) if not re.fullmatch(r"[+-]?\d+", value) else int(value)
    if whole and isinstance(value, float) and value.is_integer():
        value = int(value)
    return value


def canonical(schema, value):
    """A value in the form that the document describes, where the mapping reads it as one."""
    schema = resolved(schema)
    kind = schema.get("type")
    if kind == "object" and isinstance(value, dict):
        names = {re.sub("[A-Z]", lambda letter: "_" + letter[0].lower(), name): name for name in schema["properties"]}
        plain = {}
        for key, inner in value.items():
            name = names.get(key, key)
            if name in plain:
                return {"": "a key that is there twice"}
            if inner is not None or name not in schema["properties"]:
                plain[name] = canonical(schema["properties"].get(name, {}), inner)
        return plain
    if kind == "array" and isinstance(value, list):
        return [canonical(schema["items"], entry) for entry in value]
    if kind in ("integer", "number") and not isinstance(value, bool):
        return number(value, kind == "integer")
    if "enum" in schema and not isinstance(value, bool):
        place = number(value, True) if not isinstance(value, str) else None
        return schema["enum"][place] if isinstance(place, int) and 0 <= place < len(schema["enum"]) else value
    if schema.get("format") == "int64" and isinstance(value, (int, float)) and not isinstance(value, bool):
        return str(number(value, True))
    return value


def is_valid(schema, value):
    place = json.loads(json.dumps(schema).replace('"#/', '"urn:d#/'))
    return Draft202012Validator(place, registry=REGISTRY, format_checker=FormatChecker()).is_valid(value)


def pairs(entries):
    keys = [key for key, _ in entries]
    if len(set(keys)) != len(keys):
        raise ValueError("a key that is there twice")
    return dict(entries)


def undescribed(operation, request):
    """Why a request is not one that the document describes; nothing where it is."""
    for parameter in map(resolved, operation.get("parameters", [])):
        if parameter["in"] != "header":
            continue
        value = request.headers.get(parameter["name"])
        if value is None:
            if parameter.get("required"):
                return f"no {parameter['name']}"
        else:
            value = value.decode("latin-1") if isinstance(value, bytes) else value
            if not is_valid(parameter["schema"], value.strip(" \t")):
                return parameter["name"]
    body = operation.get("requestBody")
    if body is None:
        return None
    media = request.headers.get("Content-Type", "")
    media = media.decode("latin-1") if isinstance(media, bytes) else media
    if media.split(";")[0].strip().lower() != "application/json":
        return f"a body of {media!r}"
    schema = body["content"]["application/json"]["schema"]
    try:
        value = json.loads(request.body or b"", object_pairs_hook=pairs)
    except ValueError as fault:
        return str(fault)
    return None if is_valid(schema, canonical(schema, value)) else "the body"


def operation_of(case):
    verbs = DOCUMENT["paths"].get(case.path, {})
    return verbs.get(case.method.lower())


def is_beyond(operation, violation):
    """Whether a value is said to be out of a range that its schema names."""
    schema = operation.get("requestBody", {}).get("content", {}).get("application/json", {}).get("schema", {})
    for part in violation["field"].split("."):
        name = part.split("[")[0]
        schema = resolved(resolved(schema).get("properties", {}).get(name, {}))
        schema = resolved(schema["items"]) if "[" in part and "items" in schema else schema
    # a whole number that has no range of its own has that of 32 bits
    named = schema.keys() & {"minimum", "maximum"} and schema.get("maximum") != 2**32 - 1
    # these words are those of one bound; what only two fields together go beyond is told in others
    bound = re.search(r"is out of range: give |is not a length", violation["message"])
    return violation["reason"] == "OUT_OF_RANGE" and named and bound


@schemathesis.check
def what_is_described_is_read_and_nothing_else(ctx, response, case):
    operation = operation_of(case)
    if operation is None or response.request.method != case.method.upper():
        return
    SEEN[f"{operation['operationId']} {response.status_code}"] += 1
    why = undescribed(operation, response.request)
    if why is not None and operation["operationId"] == "CalculateQuotes" and response.status_code == 200:
        # of several enquiries each is refused by itself
        return
    if why is not None:
        assert response.status_code >= 400, f"taken although it is not described: {why}"
        return
    if response.status_code == 400:
        told = response.json()
        # a page or a line that is not there is no value of an enum
        named = [one for one in told["violations"] if not re.search(r"(pageToken|\.line)$", one["field"])]
        reasons = {violation["reason"] for violation in named}
        assert told["reason"] != "UNREADABLE", f"described, and cannot be read: {told['detail']}"
        assert not reasons & RULED_OUT, f"described, and refused: {told['violations']}"
        beyond = [one for one in told["violations"] if is_beyond(operation, one)]
        assert not beyond, f"within its range, and refused: {beyond}"


def chosen(text, words):
    """One of some words, or the text itself now and then."""
    place = sum(map(ord, text))
    return text if place % 8 == 7 else words[place % len(words)]


def likely(name, value):
    """A value that the shop knows in place of any, and lengths that are whole micrometres."""
    words = GIVEN["words"].get(name)
    if isinstance(value, dict):
        return {key: likely(key, inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [likely(name, entry) for entry in value]
    if isinstance(value, str) and words:
        return chosen(value, words)
    if isinstance(value, float) and int(abs(value)) % 8 != 7:
        return round(value, 3)
    return value


@schemathesis.hook
def map_body(ctx, body):
    return likely("", body) if isinstance(body, dict) else body


@atexit.register
def told():
    with open(GIVEN["seen"], "w", encoding="utf-8") as out:
        json.dump(SEEN, out)
