"""How a well is held in its line, told by the words of its process connection."""

import pandas as pd

from thermowell_index.records.words import cells_say
from thermowell_index.table import Frame

FLANGED = r"FLANG|\bRF\b|\bRTJ\b|\bFLG|\d ?#|\bCL(?:ASS)?\.? ?\d+|\bPN ?\d+|\bBRID[AE]|LAP JOINT|VAN ?STONE"
THREADED_OR_SOCKET_WELDED = r"NPT|THREAD|SCREW|BSP|\bG ?\d|\bSW\b|SOCKET|EINSCHRAUB|FILETE|ROSCAD"


def _connections(frame: Frame) -> "pd.Series[str]":
    """Return all that is said of each well's process connection: some indexes have its kind in the column of its size."""
    return frame["well_connection"].astype(object) + " " + frame["connection_size"].astype(object)


def is_flanged(frame: Frame) -> "pd.Series[bool]":
    """Return which wells have a flange as process connection."""
    return cells_say(FLANGED, _connections(frame))


def is_threaded(frame: Frame) -> "pd.Series[bool]":
    """Return which wells are screwed or socket-welded in."""
    return ~is_flanged(frame) & cells_say(THREADED_OR_SOCKET_WELDED, _connections(frame))
