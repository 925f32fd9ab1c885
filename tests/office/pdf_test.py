"""The PDFs that the commands write, for people who hear them: title and language, and tags where the office tags cells.

A screen reader takes what is tagged, in the order of the tags, and passes over the rest: the caution below each page is told
as the subject of the file too. An office before 25.2 tags only cells whose text is wrapped, so there nothing may be tagged, and
a reader takes the text of the page instead.
"""

import re
import subprocess
from collections import Counter

import pytest
from commands import LANGUAGES, private_office, run
from examples import open_example
from logbook_kit import new_logbook
from sharing import folder_of

WORK = folder_of(__file__)
# What is below every page, and belongs to none: the caution, the date and time of the print, and the pages.
FOOTS = re.compile(r"^.*(\d\d:\d\d,? .*\d+ .*\d+|medical advice|ärztlicher Rat).*$", re.MULTILINE)


CAUTIONS = {"en": "A coach's plan is not medical advice. Stop if you have chest pain, feel faint or have unusual pain.",
            "de": "Der Plan eines Coachs ist kein ärztlicher Rat. Bei Brustschmerz, Schwäche oder ungewohntem Schmerz aufhören."}


def text_of(*command):
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def letters(text):
    """How often each is there; words are broken in other places."""
    return Counter("".join(text.split()))


@pytest.mark.parametrize("language", ("en", "de"))
def test_title_language_and_tags(language):
    with private_office(language) as office:
        event = open_example(office, "rounds")
        heading = event.NamedRanges.getByName("event_heading").ReferredCells.String
        assert heading
        titles = {"pack": heading, "loads": heading + " · " + {"en": "Loads", "de": "Gewichte"}[language],
                  "cards": heading, "share": event.DocumentProperties.Title, "person": "Mara Lindqvarn"}
        new_logbook(office, WORK / "logbook", people=[{"name": titles["person"]}])
        files = {name: WORK / f"{name} {language}.pdf" for name in titles}
        for command, name, more in (("print-pack", "pack", {}), ("loads", "loads", {"Who": "all", "Bar": "20 kg"}),
                                    ("cards", "cards", {}), ("share", "share", {}),
                                    ("person-page", "person", {"Name": titles["person"]})):
            done, said = run(office, event, command, File=str(files[name]), Overwrite="true", **more)
            assert done, said
    version = re.search(r"LibreOffice (\d+\.\d+)", text_of("soffice", "--version"))[1]
    for name, file in files.items():
        told = dict(line.split(":", 1) for line in text_of("pdfinfo", file).splitlines())
        assert told["Subject"].strip() == CAUTIONS[language]
        raw = file.read_bytes()
        assert told["Title"].strip() == titles[name]
        assert b"/DisplayDocTitle true" in raw and f"/Lang({LANGUAGES[language]})".encode() in raw
        tagged = float(version) >= 25.2
        assert told["Tagged"].strip() == ("yes" if tagged else "no")
        if tagged:
            said = re.findall(r'^\s*"(.*)"$', text_of("pdfinfo", "-struct-text", file), re.MULTILINE)
            shown = letters(FOOTS.sub("", text_of("pdftotext", "-layout", file, "-")))
            assert shown.total() > 100 and shown - letters("".join(said)) == Counter(), name
