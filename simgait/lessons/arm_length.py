"""The arm's length: what the shoulder holds, how the arm swings, how far it reaches."""

from simgait.lessons import arm_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Row, Teacher
from simgait.lessons.words import ARM_CAUTIONS, INVENTED

LESSON = Lesson(
    name="arm-length",
    title="An arm that feels too heavy",
    idea="Shortening an arm takes off more of its sluggishness than of the moment that the "
    "shoulder holds; it is paid in reach.",
    audience="students; curious pupils from about 14 years",
    scene=(
        "A shoulder-level arm was delivered with a forearm of 255 mm. Its invented wearer, who "
        "sorts parcels, can hold 3.7\u00a0N\u00a0m at the shoulder without tiring, and the arm "
        "held straight out asks for more. Nothing can be taken out of the hook. The forearm "
        "could be shorter.",
    ),
    task="Shorten or lengthen the forearm, and hold the arm straight out.",
    control=Control(
        key="forearm",
        label="Forearm, elbow to the end of the shell",
        unit="mm",
        si=0.001,
        low=180,
        high=280,
        step=5,
        start=255,
        decimals=0,
        hint="Drag the end of the forearm, or use the arrow keys.",
    ),
    figures=(
        Figure(key="moment", label="moment that the shoulder holds", unit="N m", decimals=2),
        Figure(key="inertia", label="inertia about the shoulder", unit="kg m²", decimals=3),
        Figure(key="reach", label="reach from shoulder to tip", unit="mm", si=0.001),
        Figure(key="brim", label="force at the socket's brim", unit="N", decimals=1),
        Figure(key="end", label="force at the socket's end", unit="N", decimals=1),
        Figure(key="share", label="of what the shoulder holds without tiring", unit="%", si=0.01),
        Figure(
            key="holds",
            label="the shoulder",
            unit="",
            words=("tires", "does not tire"),
        ),
        Figure(key="upper_weight", label="upper arm weighs", unit="N", decimals=1),
        Figure(key="shell_weight", label="forearm weighs", unit="N", decimals=1),
        Figure(key="hook_weight", label="hook with what it holds weighs", unit="N", decimals=1),
    ),
    shown=("moment", "share", "inertia", "reach", "brim"),
    question=Question(
        words="The forearm is made 45 mm shorter. The moment that the shoulder has to hold falls "
        "by about a tenth. What happens to the inertia, the arm's resistance to being swung and "
        "stopped?",
        choices=(
            Choice(
                words="It does not change: inertia is mass, and the hook is as heavy as before",
                reply="Mass counts, and so does where it is: a stone on a long string is harder to "
                "swing than on a short one.",
            ),
            Choice(
                words="It falls by less than a tenth",
                reply="It falls by more. The distance counts twice over for inertia.",
            ),
            Choice(
                words="It falls by about a tenth as well",
                reply="So it would be if distance counted once. For inertia it counts squared.",
            ),
            Choice(
                words="It falls by more: about a sixth",
                reply="The moment goes with the distance, the inertia with its square. What "
                "is far out counts most.",
            ),
        ),
        right=3,
    ),
    explanation=(
        "With your forearm the shoulder holds {moment}; that is {share} of what it can hold "
        "without tiring. At the start it was {start.moment}. The shoulder {holds}.",
        "The inertia is {inertia} (it was {start.inertia}), and the reach {reach} (it was "
        "{start.reach}). The body in its socket feels it too: {brim} at the brim, {end} at the "
        "end.",
        "Is it worth it? That depends on what lies just out of reach. The arithmetic says what "
        "each millimetre costs; which of them are needed is known to the wearer alone.",
    ),
    ledger=Ledger(
        title="What is gained, and what it is paid with, against 255 mm",
        rows=(
            Row(key="moment", gain=-1, why="less to hold: the arm tires later"),
            Row(key="inertia", gain=-1, why="less to start and stop: the arm obeys sooner"),
            Row(key="brim", gain=-1, why="less pressure of the socket on the body"),
            Row(key="reach", gain=1, why="how far the hook comes"),
        ),
        note="Nothing falls for free: what makes the arm easier to hold here shortens its "
        "reach, and what lengthens its reach makes it harder to hold.",
    ),
    teacher=Teacher(
        equation=(
            "Held straight out: M = g sum(m x). Inertia: I = sum(I_i + m x^2), own inertia of "
            "each tube m L^2 / 12. Brim force = M / depth of the socket; end force = brim force + "
            "weight.",
        ),
        source=(
            "Statics and parallel axes; the formulas are those of simgait.arm.lengths, and the "
            "page runs the same text.",
        ),
        given=(
            "Upper arm 300 mm, 0.55 kg at 170 mm. Shell of 255 mm: 0.40 kg at 120 mm; mass and "
            "centre go with its length. Hook with what it holds: 0.25 kg, 60 mm beyond the shell; "
            "tip 110 mm beyond. Socket 140 mm deep.",
            INVENTED,
        ),
        left_out=(
            "What is left of the wearer's own arm is not counted. One plane. Whether mouth and "
            "midline are "
            "still reached is checked by simgait arm, not here. How an arm looks beside the other "
            "one matters to people, and no number here speaks of it.",
        ),
        next_question=(
            "The hook could be 100 g lighter instead. By how much would moment and inertia fall "
            "then, and what might be the price?",
        ),
    ),
    numbers=given.length_numbers,
    constants={
        "upper": given.UPPER_ARM,
        "upper_centre": given.UPPER_CENTRE,
        "forearm": given.FOREARM,
        "shell_centre": given.SHELL_CENTRE,
        "hook": given.HOOK_BEYOND,
        "tip": given.TIP_BEYOND,
        "depth": given.SOCKET_DEPTH,
    },
    drawing="scene_arms.js",
    cautions=ARM_CAUTIONS,
)
