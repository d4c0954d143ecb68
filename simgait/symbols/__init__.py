"""Every quantity that a reader meets: its name, unit, sign, definition, source and plain sentence.

Also the words for what a case states, the endings of a stance, and the cautions, which go
wherever a result is shown.

>>> BY_NAME["hip_rise_mm"].unit
'mm'
>>> ENDINGS[0]
'toe_off'
"""

from simgait.symbols.endings import ENDING_SENTENCES, ENDINGS
from simgait.symbols.energy import ENERGY
from simgait.symbols.knee import KNEE
from simgait.symbols.load import LOAD
from simgait.symbols.measure import Measure
from simgait.symbols.rolling import LEVERS
from simgait.symbols.setting import SETTING_BY_NAME, SETTINGS, Setting
from simgait.symbols.socket import SOCKET
from simgait.symbols.tipping import TIPPING

__all__ = [
    "ADAPTS_CAUTIONS",
    "BY_NAME",
    "CAUTIONS",
    "ENDINGS",
    "ENDING_SENTENCES",
    "MAIN_MEASURES",
    "MEASURES",
    "SETTINGS",
    "SETTING_BY_NAME",
    "Measure",
    "Setting",
]

CAUTIONS = (
    "A planning aid: it computes one wearer who keeps the same strategy; real wearers adapt.",
    "Guard every trial on the wearer. Local rules and the licensed clinician decide.",
)

ADAPTS_CAUTIONS = (
    "A planning aid: it computes one wearer who moves hip and knee as little as holds walking "
    "speed and shank as at the case's own alignment; how firmly is assumed, and real wearers adapt "
    "in other ways too.",
    *CAUTIONS[1:],
)

MEASURES: tuple[Measure, ...] = KNEE + SOCKET + LEVERS + TIPPING + LOAD + ENERGY
BY_NAME = {measure.name: measure for measure in MEASURES}

MAIN_MEASURES = (
    "knee_flexion_moment_peak_nm_kg",
    "knee_extension_moment_peak_nm_kg",
    "knee_flexion_least_deg",
    "socket_flexion_moment_peak_nm",
    "socket_extension_moment_peak_nm",
    "forward_thrust",
    "drop_off",
    "heel_off_s",
    "hip_rise_mm",
)
