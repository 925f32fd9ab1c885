"""Opens each example event through the extension's command and keeps it as a template: examples.py OXT FOLDER"""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
from office import Office, OfficeError, save  # noqa: E402


def open_example(office, example, hidden=True):
    """The new document that the command makes; its name is that of a list in examples."""
    start = office.new()
    silent = {"Silent": "true"} if hidden else {}
    done = office.dispatch(start, "vnd.org.pacecells:example-event", Example=example, **silent)
    made = [document for document in office.desktop.Components if document != start]
    start.close(True)
    if len(made) != 1:
        raise OfficeError(f"the example {example} does not open: {done.Result}")
    return made[0]


def main():
    oxt, folder = (Path(argument).resolve() for argument in sys.argv[1:3])
    folder.mkdir(parents=True, exist_ok=True)
    with Office([oxt], folder / "office", reuse=True) as office:
        for example in sorted(path.stem for path in (Path(__file__).parent / "examples").glob("*.txt")):
            document = open_example(office, example)
            save(document, folder / f"{example}.ots")
            document.close(True)


if __name__ == "__main__":
    main()
