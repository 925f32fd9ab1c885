"""Small disks to be filled, or closed to writing; files that somebody else has open."""

import errno
import subprocess
from contextlib import contextmanager

import pytest


@contextmanager
def disk(folder, options):
    """A small disk mounted on a folder; the case is skipped where nothing can be mounted, for only root can."""
    folder.mkdir(parents=True, exist_ok=True)
    mount = subprocess.run(["mount", "-t", "tmpfs", "-o", options, "tmpfs", folder], capture_output=True, text=True)
    if mount.returncode:
        pytest.skip(f"no disk can be mounted here: {mount.stderr.strip()}")
    try:
        yield
    finally:
        subprocess.run(["umount", "-l", folder], check=True)


def fill(file):
    """A file that takes all the room its disk has."""
    with open(file, "wb", buffering=0) as rest:
        try:
            while rest.write(bytes(4096)):
                pass
        except OSError as problem:
            if problem.errno != errno.ENOSPC:
                raise


def lock(file):
    """Somebody else, on another computer, has it open."""
    written = file.with_name(f".~lock.{file.name}#")
    written.write_text(",someone,other-computer,01.01.2026 10:00,file:///home/someone/.config;")
    return written
