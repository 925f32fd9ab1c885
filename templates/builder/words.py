"""The words that a person chooses from: the model has them, the build leaves them in the catalog of functions."""

import json

LISTS = {  # the name of a list in the workbooks, and in the catalog
    "format": "format", "when": "when", "units": "unit", "scoring": "scoring", "rate": "rate_unit", "plan": "day_plan",
    "answer": "answer", "yes": "yes", "pacing": "pacing",
}
CATALOG = None  # the file; whoever builds says where it is


def words(name, language):
    """The texts of a list in the model's order."""
    lists = json.loads(CATALOG.read_text(encoding="utf-8"))["words"]
    return [word[language] for word in lists[LISTS[name]]]
