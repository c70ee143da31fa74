"""What a run writes for programs is what its JSON Schemas say: schemas.py OUTPUT_FOLDER... [--register REGISTER_FOLDER]

`run.json` and every line of `assessments.jsonl`, and `register.json` of a register, by JSON Schema 2020-12. Besides, every field that is written has to be
described: a reader may meet fields that a schema does not know, but this repository's own schemas know all of them.
"""

import json
import sys
from pathlib import Path

from jsonschema import Draft202012Validator
from written import Report, Written

REPORT = Path(__file__).parent.parent.parent / "src" / "report"


def closed(schema):
    """The schema with every object closed to fields that it does not describe."""
    if isinstance(schema, list):
        return [closed(part) for part in schema]
    if not isinstance(schema, dict):
        return schema
    made = {key: closed(part) for key, part in schema.items()}
    if "properties" in schema and schema.get("type") == "object":
        made.setdefault("additionalProperties", False)
    return made


def validator(name, below="json"):
    with open(REPORT / below / f"{name}.schema.json", encoding="utf-8") as file:
        schema = json.load(file)
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(closed(schema))


def deepest(error):
    """The most telling of the errors below one of several alternatives."""
    while error.context:
        error = max(error.context, key=lambda below: len(below.absolute_path))
    return error


def check(report, schema, where, value):
    errors = [deepest(error) for error in schema.iter_errors(value)]
    shown = "; ".join(f"{error.json_path}: {error.message[:200]}" for error in errors[:3])
    report.true(f"{where}: {shown}", not errors)


def partition(arguments, word):
    """What stands before a word, the word, and what stands behind it."""
    at = arguments.index(word) if word in arguments else len(arguments)
    return arguments[:at], arguments[at : at + 1], arguments[at + 1 :]


def main(arguments):
    outputs, _, registers = (list(part) for part in partition(arguments, "--register"))
    report = Report("schemas")
    for folder in registers:
        with open(Path(folder) / "register.json", encoding="utf-8") as file:
            check(report, validator("register", "register"), f"{folder} register.json", json.load(file))
    run, assessments = validator("run"), validator("assessments")
    for output in outputs:
        written = Written(output)
        check(report, run, f"{output} run.json", written.run())
        with open(written.folder / "assessments.jsonl", encoding="utf-8") as file:
            for number, line in enumerate(file, 1):
                check(report, assessments, f"{output} assessments.jsonl line {number}", json.loads(line))
    # A schema that takes anything checks nothing.
    taken = written.run()
    del taken["claims"]["all"]
    report.true("run.json without a count is taken", not run.is_valid(taken))
    wrong = json.loads(line) | {"format": 2}
    report.true("another format is taken", not assessments.is_valid(wrong))
    report.close()


if __name__ == "__main__":
    main(sys.argv[1:])
