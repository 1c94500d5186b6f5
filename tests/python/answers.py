"""Holds what went over the wire against the OpenAPI document of the door.

Each line of the input is one exchange: door, verb, path, asked, status, media, headers, told. The
first two arguments are the documents of the public and of the private door. Here, other than for a
client, an answer may have no key that is not described. Prints every disagreement.
"""

import copy
import json
import re
import sys

from jsonschema import Draft202012Validator, FormatChecker
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012


def strict(document):
    """The document with no key allowed beyond those described."""
    document = copy.deepcopy(document)
    for schema in document["components"]["schemas"].values():
        if schema.get("type") == "object":
            schema.setdefault("additionalProperties", False)
    return document


def escaped(step):
    return step.replace("~", "~0").replace("/", "~1")


class Door:
    def __init__(self, name, file):
        with open(file, encoding="utf-8") as text:
            self.document = strict(json.load(text))
        self.uri = f"urn:{name}"
        resource = Resource.from_contents(self.document, default_specification=DRAFT202012)
        self.registry = Registry().with_resource(self.uri, resource)
        self.validators = {}
        self.seen = set()

    def operation(self, verb, path):
        for pattern, verbs in self.document["paths"].items():
            if verb.lower() in verbs and re.fullmatch(re.sub(r"\{[^}]+\}", "[^/]+", pattern), path):
                return pattern, verb.lower()
        return None

    def faults(self, place, value):
        """What is wrong with a value by the schema at a place of the document."""
        pointer = "/".join(escaped(step) for step in place)
        if pointer not in self.validators:
            schema = {"$ref": f"{self.uri}#/{pointer}"}
            self.validators[pointer] = Draft202012Validator(
                schema, registry=self.registry, format_checker=FormatChecker()
            )
        found = self.validators[pointer].iter_errors(value)
        return [f"{list(fault.absolute_path)}: {fault.message[:200]}" for fault in found]


def header_faults(door, response, given):
    for name, reference in response.get("headers", {}).items():
        about = door.document["components"]["headers"][reference["$ref"].rsplit("/", 1)[1]]
        value = given.get(name.lower())
        if value is None:
            if about.get("required"):
                yield f"no header {name}"
            continue
        value = int(value) if about["schema"]["type"] == "integer" else value
        yield from Draft202012Validator(about["schema"]).iter_errors(value)


def faults(door, told):
    found = door.operation(told["verb"], told["path"])
    if found is None:
        return [] if told["status"] in (404, 405) else ["an operation that is not described"]
    pattern, verb = found
    operation = door.document["paths"][pattern][verb]
    status = str(told["status"])
    door.seen.add((operation["operationId"], status))
    response = operation["responses"].get(status)
    if response is None:
        return [f"status {status} is not described"]
    place = ["paths", pattern, verb]
    all_faults = [str(fault) for fault in header_faults(door, response, told["headers"])]
    if told["told"] is not None:
        media = told["media"].split(";")[0]
        if media not in response.get("content", {}):
            return [*all_faults, f"{media} is not described"]
        if media.endswith("json"):
            content = [*place, "responses", status, "content", media, "schema"]
            all_faults += door.faults(content, told["told"])
    # what was answered has to be what may be asked; of several enquiries each is refused by itself,
    # and what is wrong with pieces is the answer where they are only looked through
    one_by_one = operation["operationId"] in ("CalculateQuotes", "CheckDelivery")
    if told["status"] == 200 and told["asked"] is not None and not one_by_one:
        content = [*place, "requestBody", "content", "application/json", "schema"]
        all_faults += [f"asked: {fault}" for fault in door.faults(content, told["asked"])]
    return all_faults


def main():
    doors = {"public": Door("public", sys.argv[1]), "private": Door("private", sys.argv[2])}
    count, wrong = 0, 0
    for line in sys.stdin:
        told = json.loads(line)
        count += 1
        door = doors[told["door"]]
        for fault in faults(door, told):
            wrong += 1
            print(f"{told['verb']} {told['path']} {told['status']}: {fault}")
    seen = sorted(f"{name} {status}" for door in doors.values() for name, status in door.seen)
    print(json.dumps({"exchanges": count, "wrong": wrong, "seen": seen}))
    sys.exit(1 if wrong else 0)


main()
