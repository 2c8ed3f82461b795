"""What stops a command. What is wrong in a record is a Finding (logbook/record/finding.py), never an exception.

LogbookError
├── NotALogbook     no engine.yaml here or above
├── PointUnknown    no such date, reading, change or build
├── CannotRead      a file or folder cannot be read safely
├── CannotWrite     git or the disk refused; nothing was changed
├── CannotRender    the PDF library or its system libraries are missing
└── Refused         the record has findings that must be mended first
"""


class LogbookError(Exception):
    """One sentence for the user: what is wrong and what to do. The command ends with exit status 2."""


class NotALogbook(LogbookError):
    """There is no engine.yaml in this folder or in any above it."""


class PointUnknown(LogbookError):
    """A point in the engine's life that does not exist or is not the only one of its name."""


class CannotRead(LogbookError):
    """A file or folder that cannot be read safely."""


class CannotWrite(LogbookError):
    """Git or the disk refused; the record is as it was."""


class CannotRender(LogbookError):
    """A document cannot be made on this machine; the sentence says what to install."""


class Refused(LogbookError):
    """The record has findings that must be mended before anything is written."""
