"""People onto the roster, and their cards as PDF: the commands add-athletes and cards in the real office.

Uses BUILD/pacecells.oxt and its templates.
"""

import re
import shutil
import subprocess
import time

import pytest
from commands import run
from compare import check
from sharing import BUILD, OXT, folder_of

EXTENSIONS = [OXT]
WORK = folder_of(__file__) / "files"
TEMPLATES, EXAMPLES = BUILD / "templates" / "en", BUILD / "examples"


@pytest.fixture(scope="module", autouse=True)
def empty_folder():
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir()


def column(document, name):
    cells = document.NamedRanges.getByName(name).ReferredCells
    return [row[0] for row in cells.getDataArray()]


def test_add_athletes(office):
    document = office.open(TEMPLATES / "event.ots", AsTemplate=True)
    divisions = column(document, "division_names")
    list_ = ("Name;Shoes;Division;Goal\n"
             f"Ida Lund;38;{divisions[0].upper()};7+21\n"
             "\"Bo; the tall\";46;;8\n"
             " ida  lund ;;;\n"
             "=1+1;;no such division;9:30\n"
             ";;;\n")
    before = [column(document, n) for n in ("roster_name", "roster_division", "roster_goal", "roster_goal_time")]
    done, said = run(office, document, "add-athletes", List=list_)
    check("add: done", done)
    check("add: says what it did", said.split("\n")[0],
          "3 to add, 0 already on the roster, 1 twice in the list. The column Shoes is not read.")
    check("add: names the one with a problem", "=1+1: new; no such division: left blank" in said)
    names = column(document, "roster_name")
    check("add: names", names[:4], ["Ida Lund", "Bo; the tall", "=1+1", ""])
    cell = document.NamedRanges.getByName("roster_name").ReferredCells.getCellByPosition(0, 2)
    check("add: a text that looks like a formula stays a text", cell.Type.value, "TEXT")
    check("add: division in the workbook's spelling", column(document, "roster_division")[0], divisions[0])
    check("add: a goal as a score, in rounds, as a time", [column(document, "roster_goal")[0],
          column(document, "roster_goal")[1], round(column(document, "roster_goal_time")[2] * 86400)],
          ["7+21", 8.0, 570])
    check("add: one step of undo", len(document.UndoManager.AllUndoActionTitles), 1)
    document.UndoManager.undo()
    after = [column(document, n) for n in ("roster_name", "roster_division", "roster_goal", "roster_goal_time")]
    check("add: undone", after, before)

    run(office, document, "add-athletes", List="Ida Lund\nBo Berg")
    done, said = run(office, document, "add-athletes", List="Cy Dahl\nIDA LUND")
    check("add again: goes below", column(document, "roster_name")[:4], ["Ida Lund", "Bo Berg", "Cy Dahl", ""])
    check("add again: knows who is there", "1 already on the roster" in said)
    done, said = run(office, document, "add-athletes", List=" \n")
    check("nobody: refused", (done, said), (False, "There is nobody to add yet."))

    many = "\n".join(f"Athlete {i:03}" for i in range(1, 205))
    done, said = run(office, document, "add-athletes", List=many)
    check("more than fit: said", "7 find no free row" in said)
    check("more than fit: the roster is full", column(document, "roster_name")[199], "Athlete 197")

    file = WORK / "list.csv"
    file.write_bytes("\ufeffNom,Division\r\nÉlodie Maï,\r\n".encode())
    other = office.open(TEMPLATES / "event.ots", AsTemplate=True)
    done, said = run(office, other, "add-athletes", File=str(file))
    check("from a file", column(other, "roster_name")[0], "Élodie Maï")
    file.write_bytes("Name;Division\nJos\xe9 Mu\xf1oz;\n".encode("latin-1"))
    run(office, other, "add-athletes", File=str(file))
    check("from a file of an older program", column(other, "roster_name")[1], "José Muñoz")
    file.write_bytes(b"PK\x03\x04\x00\x00rubbish")
    done, said = run(office, other, "add-athletes", File=str(file))
    check("no list: refused", (done, "no list in text form" in said), (False, True))
    done, said = run(office, other, "add-athletes", File=str(WORK / "nothing.csv"))
    check("no file: refused", (done, said), (False, f"{WORK / 'nothing.csv'} cannot be opened."))
    check("no file: nothing lost", column(other, "roster_name")[:3], ["Élodie Maï", "José Muñoz", ""])
    blank = office.new()
    done, said = run(office, blank, "add-athletes", List="Ida")
    check("another workbook: refused with a sentence", (done, len(said) > 20), (False, True))
    for opened in (document, other, blank):
        opened.close(True)


def pages(pdf):
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True).stdout
    for trouble in ("###", "Err:", "#N/A", "#VALUE", "#NAME", "#REF"):
        check(f"{pdf.name}: no {trouble}", trouble in text, False)
    return text.split("\f")[:-1]


def test_cards(office):
    document = office.open(EXAMPLES / "rounds.ots", AsTemplate=True)
    names = [name for name in column(document, "roster_name") if name]
    divisions = column(document, "roster_division")
    modified = document.isModified()

    everyone = WORK / "everyone.pdf"
    done, said = run(office, document, "cards", File=str(everyone))
    check("cards: done", (done, f"{len(names)} cards written" in said), (True, True))
    printed = pages(everyone)
    check("cards: four on a page", len(printed), -(-len(names) // 4))
    for name in names:
        check(f"cards: {name} is there once", len(re.findall(re.escape(name), "".join(printed))), 1)
    check("cards: the workbook is as it was", document.isModified(), modified)

    division = divisions[0]
    some = [name for name, of in zip(column(document, "roster_name"), divisions) if name and of == division]
    done, said = run(office, document, "cards", File=str(WORK / "division.pdf"), Who="division:" + division)
    printed = pages(WORK / "division.pdf")
    check("cards of a division: pages", len(printed), -(-len(some) // 4))
    check("cards of a division: all of them", all(name in "".join(printed) for name in some))
    check("cards of a division: nobody else", [n for n in names if n not in some and n in "".join(printed)], [])

    folder = WORK / "cards of all"
    folder.mkdir()
    done, said = run(office, document, "cards", Files="each", Folder=folder.as_uri())
    check("a file each: done", (done, said.startswith(f"{len(names)} of {len(names)} cards")), (True, True))
    check("a file each: named after the athlete", sorted(p.name for p in folder.iterdir()),
          sorted(f"{name}.pdf" for name in names))
    alone = pages(folder / f"{names[1]}.pdf")
    check("a file each: one page, one athlete", (len(alone), [n for n in names if n in alone[0]]), (1, [names[1]]))
    done, said = run(office, document, "cards", Files="each", Folder=folder.as_uri())
    check("a file each: does not replace without a yes", done, False)
    done, said = run(office, document, "cards", Files="each", Folder=folder.as_uri(), Overwrite="true",
                     Who="athlete:" + names[1])
    check("a file each: replaces with it", done)

    file_as_folder = WORK / "a file"
    file_as_folder.write_text("not a folder")
    done, said = run(office, document, "cards", File=str(file_as_folder / "x.pdf"))
    check("no folder: refused with a sentence", (done, "could not be written" in said), (False, True))
    whole, printed_whole = everyone.read_bytes(), pages(everyone)
    link = WORK / "full.pdf.part"
    link.symlink_to("/dev/full")
    done, said = run(office, document, "cards", File=str(WORK / "full.pdf"))
    if done:  # it wrote beside the link
        check("full disk: the file is whole", "".join(pages(WORK / "full.pdf")), "".join(printed_whole))
    else:
        check("full disk: no file under the final name", (WORK / "full.pdf").exists(), False)
    link.unlink(missing_ok=True)
    check("full disk: other files are untouched", everyone.read_bytes() == whole)
    check("nothing unfinished is left", [p.name for p in WORK.rglob("*.part")], [])
    document.close(True)

    empty = office.open(TEMPLATES / "event.ots", AsTemplate=True)
    done, said = run(office, empty, "cards", File=str(WORK / "empty.pdf"))
    check("no athletes: refused", (done, said), (False, "There is nobody on the roster yet."))
    run(office, empty, "add-athletes", List="\n".join(f"Athlete {i:03}" for i in range(1, 201)))
    start = time.monotonic()
    done, said = run(office, empty, "cards", File=str(WORK / "two-hundred.pdf"))
    print(f"200 cards in one PDF: {time.monotonic() - start:.1f} s")
    check("200 cards: fifty pages", (done, len(pages(WORK / "two-hundred.pdf"))), (True, 50))
    empty.close(True)
