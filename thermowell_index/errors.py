"""Failures that stop a run, each with the path or key that caused it.

    ThermowellIndexError
    ├── WorkbookError     the input cannot be read, or is unsafe to read
    ├── SettingsError     a design basis or heading map is wrong
    └── OutputError       the answer cannot be written where it was asked for

What is wrong in the data is a finding, never one of these.
"""


class ThermowellIndexError(Exception):
    """A run that cannot go on; its text is one line for the person at the keyboard."""


class WorkbookError(ThermowellIndexError):
    """The input cannot be read, or is unsafe to read."""


class SettingsError(ThermowellIndexError):
    """A settings file or a command-line value is wrong."""


class OutputError(ThermowellIndexError):
    """The answer cannot be written where it was asked for."""
