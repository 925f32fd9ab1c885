"""Drives a private LibreOffice from Python: start it, open sheets, type formulas, read what they give.

    with Office(["build/release/functions.oxt"], "build/work") as office:
        sheet = office.new().Sheets[0]
        enter(sheet["A1"], '=CLOCK.TEXT("2:30")')
        print(result(sheet["A1"]))

Everything this office writes stays under its work folder, for root as for anyone else; the user's own office is
neither read nor changed. Needs the system's /usr/bin/python3 with python3-uno.
"""

import hashlib
import os
import secrets
import shutil
import signal
import subprocess
import threading
import time
from pathlib import Path

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.sheet.FormulaResult import STRING
from com.sun.star.table.CellContentType import FORMULA, TEXT
from com.sun.star.uno import Exception as UnoException

FILTERS = {
    "ods": "calc8",
    "ots": "calc8_template",
    "fods": "OpenDocument Spreadsheet Flat XML",
    "xlsx": "Calc MS Excel 2007 XML",
    "pdf": "calc_pdf_Export",
    "csv": "Text - txt - csv (StarCalc)",
}


class OfficeError(RuntimeError):
    """The office could not be started, or could not do what was asked."""


class Office:
    """A running office of its own; use it in a `with` block.

    extensions  .oxt files to install first
    workdir     folder for profile, packages and log; made if missing
    language    language of the user interface ("de"); needs no language pack, texts without one stay English
    locale      how numbers, dates and formulas are typed ("de-DE")
    display     X display (":99") for real windows; no windows without it
    reuse       keep what an earlier run installed, with the same extensions and languages, and of this run its settings too
    settings    further configuration: {("/org.openoffice.Office.Common/Misc", "FirstRun"): "false"}
    limit       seconds after which the office is killed, hung or not, and a call under way raises; None: never
    """

    _used = set()  # folders whose profile this process has begun with; an office that is started again goes on with it

    def __init__(self, extensions, workdir, language="en-US", locale="en-US", display=None, reuse=False,
                 settings=None, limit=900):
        self.extensions = [Path(oxt).resolve() for oxt in extensions]
        self.workdir = Path(workdir).resolve()
        self.language, self.locale, self.display, self.reuse, self.limit = language, locale, display, reuse, limit
        self.settings = settings or {}
        found = shutil.which("soffice")
        if not found:
            raise OfficeError("LibreOffice is not installed: no soffice on the path")
        self.program = Path(found).resolve().parent
        self.process = self.context = self.desktop = self._watchdog = None

    def __enter__(self):
        try:
            self._prepare()
            self._start()
        except BaseException:
            self._kill()
            raise
        return self

    def __exit__(self, *_):
        self.stop()

    # Documents ------------------------------------------------------------------------------------------------

    def new(self, hidden=True):
        return self._load("private:factory/scalc", Hidden=hidden)

    def open(self, path, hidden=True, **properties):
        """Opens a file; a template (.ots) gives a new document unless AsTemplate=False."""
        if not Path(path).is_file():
            raise OfficeError(f"no such file: {path}")
        return self._load(Path(path).resolve().as_uri(), Hidden=hidden, **properties)

    def _load(self, url, **properties):
        document = self.desktop.loadComponentFromURL(url, "_blank", 0, named(**properties))
        if document is None:
            raise OfficeError(f"the office cannot open {url}")
        return document

    def dispatch(self, document, command, **arguments):
        """Runs a command such as .uno:Paste in the document's window."""
        helper = self.service("com.sun.star.frame.DispatchHelper")
        return helper.executeDispatch(document.CurrentController.Frame, command, "", 0, named(**arguments))

    def service(self, name):
        return self.context.ServiceManager.createInstanceWithContext(name, self.context)

    # The process ----------------------------------------------------------------------------------------------

    def _environment(self, display):
        home = self.workdir / "home"
        home.mkdir(parents=True, exist_ok=True)
        environment = {key: value for key, value in os.environ.items() if not key.startswith(("LC_", "PYTHON"))}
        if display:
            environment.setdefault("XAUTHORITY", str(Path.home() / ".Xauthority"))
            environment["DISPLAY"] = display
        else:
            environment["SAL_USE_VCLPLUGIN"] = "svp"
        environment.update(HOME=str(home), LANG="C.UTF-8")
        return environment

    def _places(self):
        shared = self.workdir / "packages"
        return [f"-env:UserInstallation={(self.workdir / 'profile').as_uri()}",
                f"-env:UNO_SHARED_PACKAGES={shared.as_uri()}",
                f"-env:UNO_SHARED_PACKAGES_CACHE={shared.as_uri()}"]

    def _prepare(self):
        parts = [repr(sorted(self._settings().items()))]
        parts += [f"{oxt} {hashlib.sha256(oxt.read_bytes()).hexdigest()}" for oxt in self.extensions]
        wanted, stamp = "\n".join(parts), self.workdir / "prepared"
        if self.reuse and stamp.is_file() and stamp.read_text() == wanted:
            if self.workdir not in Office._used:  # what an earlier run left, such as the place of a logbook, is not this one's
                self._write_settings()
            Office._used.add(self.workdir)
            return
        for old in ("profile", "packages", "home"):
            shutil.rmtree(self.workdir / old, ignore_errors=True)
        stamp.unlink(missing_ok=True)
        (self.workdir / "profile" / "user").mkdir(parents=True)
        (self.workdir / "packages").mkdir()
        self._write_settings()
        Office._used.add(self.workdir)
        for oxt in self.extensions:
            self.unopkg("add", "--force", "--suppress-license", oxt)
        stamp.write_text(wanted)

    def unopkg(self, command, *arguments):
        """Adds or removes an extension while this office does not run."""
        # It wants --shared from root; the private folder makes that as private as a user's own.
        run = subprocess.run([self.program / "unopkg", command, "--shared", *self._places(), *arguments],
                             env=self._environment(None), stdin=subprocess.DEVNULL, capture_output=True, text=True,
                             timeout=300)
        if run.returncode:
            raise OfficeError(f"unopkg {command} {arguments[-1]}:\n{run.stdout}{run.stderr}")

    def _settings(self):
        setup = "/org.openoffice.Setup"
        settings = {(setup + "/L10N", "ooLocale"): self.language,
                    (setup + "/L10N", "ooSetupSystemLocale"): self.locale,
                    ("/org.openoffice.Office.Linguistic/General", "UILocale"): self.language,
                    ("/org.openoffice.Office.Common/Misc", "FirstRun"): "false",
                    ("/org.openoffice.Office.Common/Misc", "ShowTipOfTheDay"): "false"}
        if not self.display:
            # A timer draws the selection even of hidden documents, into a buffer that nobody sees. Once in some hundred
            # runs the office died there (sdr::overlay::OverlayManager::ImpDrawMembers). Without the buffer the
            # selection is drawn only when a window is, which without a display is never.
            settings["/org.openoffice.Office.Common/Drawinglayer", "OverlayBuffer_Calc"] = "false"
        return settings | self.settings

    def _write_settings(self):
        items = [f'<item oor:path="{path}"><prop oor:name="{name}" oor:op="fuse"><value>{value}</value></prop></item>'
                 for (path, name), value in self._settings().items()]
        items.append(f'<item oor:path="/org.openoffice.Setup/Office/InstalledLocales"><node oor:name="{self.language}"'
                     ' oor:op="replace"/></item>')
        (self.workdir / "profile" / "user" / "registrymodifications.xcu").write_text(
            '<?xml version="1.0" encoding="UTF-8"?>\n<oor:items xmlns:oor="http://openoffice.org/2001/registry">\n'
            + "\n".join(items) + "\n</oor:items>\n")

    def _start(self):
        pipe = f"pacecells-{os.getpid()}-{secrets.token_hex(4)}"
        command = [self.program / "soffice", "--norestore", "--nologo", "--nodefault", "--nolockcheck",
                   f"--accept=pipe,name={pipe};urp;", *self._places()]
        if not self.display:
            command.insert(1, "--headless")
        log = self.workdir / "office.log"
        with open(log, "wb") as out:
            self.process = subprocess.Popen(command, env=self._environment(self.display), stdin=subprocess.DEVNULL,
                                            stdout=out, stderr=subprocess.STDOUT, start_new_session=True)
        self.watch(self.limit)
        local = uno.getComponentContext()
        resolver = local.ServiceManager.createInstanceWithContext("com.sun.star.bridge.UnoUrlResolver", local)
        deadline = time.monotonic() + 180
        while True:
            try:
                self.context = resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
                self.desktop = self.service("com.sun.star.frame.Desktop")
                return
            except UnoException as error:
                if self.process.poll() is not None or time.monotonic() > deadline:
                    raise OfficeError(f"the office did not start (see {log}): {error.Message}") from None
                time.sleep(0.01)

    def watch(self, limit):
        """Gives the running office so many seconds from now before it is killed; None: no limit."""
        if self._watchdog:
            self._watchdog.cancel()
        self._watchdog = threading.Timer(limit, self._kill) if limit else None
        if self._watchdog:
            self._watchdog.daemon = True
            self._watchdog.start()

    def stop(self):
        """Closes every document unsaved and ends the office; one that does not end is killed."""
        try:
            if self.desktop and self.process.poll() is None:
                for document in list(self.desktop.Components):
                    try:
                        document.close(True)
                    except (UnoException, AttributeError):
                        pass
                try:
                    self.desktop.terminate()
                except UnoException:
                    pass  # the bridge may go down before the answer comes
                self.process.wait(60)
        except (UnoException, subprocess.TimeoutExpired):
            pass
        finally:
            self._kill()

    def _kill(self):
        if self._watchdog:
            self._watchdog.cancel()
        if self.process:
            try:
                os.killpg(self.process.pid, signal.SIGKILL)
            except ProcessLookupError:
                pass
            self.process.wait()
        self.context = self.desktop = None


# Cells ------------------------------------------------------------------------------------------------------------

def named(**properties):
    """Keyword arguments as the office's property values."""
    made = []
    for name, value in properties.items():
        item = PropertyValue()
        item.Name, item.Value = name, value
        made.append(item)
    return tuple(made)


def enter(cell, formula):
    """A formula in English, with ; between arguments, whatever the locale."""
    cell.setFormula(formula)


def type_in(cell, text):
    """Text as typed at the keyboard: the locale and the cell's number format decide how 2:30 is read."""
    cell.FormulaLocal = text


def enter_array(cells, formula):
    """A formula over a range as Ctrl+Shift+Enter does it."""
    cells.setArrayFormula(formula)


def error_of(cell):
    """0, or the office's error number: 502, 504, 519 (#VALUE!), 523, 525 (#NAME?), 32767 (#N/A) …"""
    return cell.getError()


def result(cell):
    """A number, a text, or the error as the cell shows it: "Err:502", "#N/A"."""
    text = cell.Type == TEXT or cell.Type == FORMULA and cell.FormulaResultType2 == STRING
    return cell.String if text or cell.getError() else cell.Value


def recalculate(document):
    """A hard recalculation: every cell, whatever changed."""
    document.calculateAll()


def save(document, path, **properties):
    """Stores a copy; the ending says the form: ods, ots, fods, xlsx, pdf, csv."""
    path = Path(path).resolve()
    path.parent.mkdir(parents=True, exist_ok=True)
    document.storeToURL(path.as_uri(), named(FilterName=FILTERS[path.suffix[1:]], Overwrite=True, **properties))
