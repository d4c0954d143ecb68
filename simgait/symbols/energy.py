"""Where the energy of the step goes."""

from simgait.symbols.measure import PERCENT, measure

ENERGY = (
    measure(
        "foot_energy_stored_j",
        1.0,
        "J",
        "energy taken up by the foot",
        "Integral of the power that flows into the sole.",
        "What the foot takes from the step.",
    ),
    measure(
        "foot_energy_returned_j",
        1.0,
        "J",
        "energy returned by the foot",
        "Integral of the power that flows back.",
        "What it gives back.",
    ),
    measure(
        "foot_energy_lost_j",
        1.0,
        "J",
        "energy lost in the foot",
        "Integral of the power that the sole turns into heat.",
        "What is gone.",
    ),
    measure(
        "speed_change_m_s",
        1.0,
        "m/s",
        "speed gained over stance",
        "Forward speed of the hip at toe-off less that at touch-down.",
        "Whether the step slows the walk.",
    ),
    measure(
        "ledger_error_percent",
        PERCENT,
        "%",
        "energy ledger error",
        "What the ledger of work, storage and loss leaves unexplained, over all energy exchanged.",
        "How well the computation keeps its books.",
    ),
)
