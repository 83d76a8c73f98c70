"""The threads of well and extension, by distinct text, with their engagement and one turn."""

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from thermowell_index.records.words import folded
from thermowell_index.threads import Thread, engagement_mm, parse_thread, turn_mm
from thermowell_index.units import DimensionState, is_placeholder, parse_dimension

SIZE_ONLY = frozenset(Fraction(number, 8) for number in (1, 2, 3, 4, 6, 8, 10, 12, 16))
NOT_A_THREAD = re.compile(r"(?:SOCKET|BUTT)? ?WELD|SW|BW|FLANGED?|PLAIN|TUBE")

# An index has few threads on many rows.
_engagement_mm = lru_cache(maxsize=4096)(engagement_mm)


@dataclass(frozen=True, slots=True)
class JointThread:
    """A thread as stated or assumed; `is_known` is False for words that name no thread."""

    thread: Thread | None
    is_stated: bool
    is_known: bool

    @property
    def engagement_mm(self) -> float:
        """Return what one made-up joint swallows [mm]; NaN where it is not known."""
        return _engagement_mm(self.thread) if self.thread is not None else math.nan

    @property
    def turn_mm(self) -> float:
        """Return one turn of the thread [mm], 0 for one that seats on a shoulder."""
        return turn_mm(self.thread) if self.thread is not None else math.nan

    @property
    def is_shoulder(self) -> bool:
        """Whether the thread is parallel, so that a fitting seats on a shoulder."""
        return self.thread is not None and self.thread.is_parallel

    @property
    def gender(self) -> str:
        """Return male, female, or empty."""
        return (self.thread.gender or "") if self.thread is not None else ""


@lru_cache(maxsize=65536)
def read_thread(text: str, default: str) -> JointThread:
    """Return the thread that a cell names; a bare size is the default's family, a blank the default itself."""
    plain = folded(text)
    if not plain or is_placeholder(text) or NOT_A_THREAD.fullmatch(plain):
        return JointThread(parse_thread(default), is_stated=False, is_known=True)
    found = parse_thread(text)
    if found is None:
        reading = parse_dimension(text)
        if reading.state is DimensionState.VALUE and reading.number in SIZE_ONLY and reading.unit in {None, "in"}:
            found = parse_thread(f"{text} NPT") or parse_thread(f"{reading.number} NPT")
    if found is None and re.fullmatch(r"(?:F|M)?NPT(?: ?\(?[FM](?:EMALE|ALE)?\)?)?", plain):
        found = parse_thread(f"1/2 {plain}")
    return JointThread(found, is_stated=True, is_known=found is not None)


# A thread among other words: "SL fitting, 1/2 NPT", "raccord G 1/2", "M20x1.5 fitting".
IN_WORDS = re.compile(
    r"(?:\d+[- ])?\d+/\d+ ?(?:\"|''|IN\b\.?)?[- ]?(?:[MF]?NPT[MF]?|NPSM|BSPT|BSPP)\b"
    r"|\bM ?\d{2} ?[X\u00d7] ?\d(?:[.,]\d+)?\b|\b(?:G|RC?|RP) ?\d(?:[- ]\d/\d|/\d)?(?![\d/])"
)


@lru_cache(maxsize=65536)
def thread_in_words(text: str) -> JointThread | None:
    """Return the one thread that a mounting's words name; None where they name none, or several.

    >>> thread_in_words("SL fitting G 1/2").thread.family, thread_in_words("SL fitting, 1/4 in sheath")
    ('G', None)
    """
    found = {match[0] for match in IN_WORDS.finditer(folded(text).replace("″", '"').replace("”", '"'))}
    threads = {thread for text in found if (thread := parse_thread(text)) is not None}
    return JointThread(threads.pop(), is_stated=True, is_known=True) if len(threads) == 1 else None


@lru_cache(maxsize=65536)
def sensor_thread(joint: JointThread) -> JointThread:
    """Return the thread of a fitting that screws into a joint: into NPSM or NPSL goes an NPT male of the same size."""
    thread = joint.thread
    if thread is not None and thread.family in {"NPSM", "NPSL"}:
        whole, part = divmod(thread.size, 1)
        size = "-".join(str(piece) for piece in (int(whole), part) if piece)
        return JointThread(parse_thread(f"{size} NPT"), joint.is_stated, joint.is_known)
    return joint
