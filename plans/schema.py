"""The JSON Schema of a design file, from which editors complete and check while one types."""

from typing import Any

from plans.spec import DesignSpec

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema() -> dict[str, Any]:
    """The schema of a whole design file, as plain dicts and lists.

    It knows keys, kinds and words; formulas, names and what parts have to do with each other are
    checked when the design is read.
    """
    schema = DesignSpec.model_json_schema(by_alias=True)
    return {"$schema": DIALECT, **schema, "title": "A design file of plansheaf"}
