"""How a simulated stance can end."""

ENDING_SENTENCES = {
    "toe_off": "The foot left the floor at its toe, at the end of stance.",
    "fell_forward": "The hip dropped, or got too far ahead of the socket: the wearer fell forward.",
    "fell_backward": "The hip dropped, or stayed too far behind the socket: the wearer fell back.",
    "knee_collapsed": "The knee bent, or was forced back, further than the wearer could hold it.",
    "foot_slipped": "The foot slid away over the floor.",
    "step_limit": "The foot was still on the floor long after a stance should have been over.",
    "not_finite": "The computation broke down; its numbers mean nothing.",
    "energy_drift": "The energy ledger did not close; the computation is not to be trusted.",
}

ENDINGS = tuple(ENDING_SENTENCES)
