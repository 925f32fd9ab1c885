"""What all tests of the office share. They run under pytest, each case by name:

    tests/run -R office.functions -V                       as CI does
    pytest-3 tests/office/functions_test.py -k PACE        without ctest; PACECELLS_BUILD names another build folder

How to write one: put a function `test_...` into a file `..._test.py`, and ask for what it needs by parameter.

    def test_eight_rounds_in_twenty_minutes(sheet):
        type_in(sheet["A1"], '=PACE.ROUND("20:00";8)')
        assert result(sheet["A1"]) == pytest.approx(150 / 86400)

    office     the running office with EXTENSIONS of the file, or the cell functions; shared by all cases of the file,
               documents are closed after each
    document   a new spreadsheet in it            sheet   its first sheet
    display    the name of an X server of the file's own, of the size SCREEN, for an office with real windows

For another language, other extensions, or none: `with shared([OXT], "german", language="de", locale="de-DE") as office:`
from sharing.py. `check` from compare.py goes on after a difference and reports all of them at the end of the case; a
plain `assert` does where one fact is tested. What a machine lacks (root, a display) is `pytest.skip("why")`.
A new file needs its name in tests/CMakeLists.txt.
"""

import hashlib
import os
import shutil
import subprocess

import compare
import pytest
import sharing


@pytest.fixture(scope="session", autouse=True)
def tested(record_testsuite_property):
    """What the results are of, for tests/office-results."""
    version = subprocess.run(["soffice", "--version"], capture_output=True, text=True).stdout
    record_testsuite_property("office", version.strip())
    record_testsuite_property("package", hashlib.sha256(sharing.OXT.read_bytes()).hexdigest())


@pytest.fixture
def office(request):
    with sharing.shared(getattr(request.module, "EXTENSIONS", [sharing.FUNCTIONS])) as running:
        yield running


@pytest.fixture
def document(office):
    return office.new()


@pytest.fixture
def sheet(document):
    return document.Sheets[0]


@pytest.fixture(scope="module")
def display(request):
    if not all(shutil.which(tool) for tool in ("Xvfb", "xdotool", "import")):
        pytest.skip("no Xvfb, xdotool or ImageMagick")
    reading, writing = os.pipe()
    size = getattr(request.module, "SCREEN", "1400x1000")
    server = subprocess.Popen(["Xvfb", "-displayfd", str(writing), "-noreset", "-screen", "0", f"{size}x24"],
                              pass_fds=[writing], stderr=subprocess.DEVNULL)
    os.close(writing)
    with os.fdopen(reading) as told:
        yield ":" + told.readline().strip()
    sharing.stop()  # an office does not outlive its screen
    server.terminate()
    server.wait()


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item):
    sharing.at_work(item.path)


@pytest.hookimpl(hookwrapper=True)
def pytest_pyfunc_call(pyfuncitem):
    """A case fails if one of its checks did, after all of them were made."""
    compare.failed.clear()
    outcome = yield
    if compare.failed and outcome.excinfo is None:
        pytest.fail("\n".join(compare.failed), pytrace=False)


@pytest.hookimpl(hookwrapper=True)
def pytest_runtest_makereport(item, call):
    """Beside a failure: the checks that failed before it, and the end of what the office printed."""
    report = (yield).get_result()
    if report.failed:
        if call.when == "call" and compare.failed and not report.longreprtext.startswith(compare.failed[0]):
            report.sections.append(("checks that failed before", "\n".join(compare.failed)))
        if text := sharing.log():
            report.sections.append(("office.log", text))


def pytest_sessionfinish():
    sharing.stop()
