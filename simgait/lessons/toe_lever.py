"""The toe lever: where the foot stops carrying, and who is dropped there."""

from simgait.lessons.leg_numbers import keel_numbers
from simgait.lessons.leg_words import (
    LEG_AUDIENCE,
    LEG_CAUTIONS,
    LEG_LEFT_OUT,
    LEG_SOURCE,
    measure_figure,
)
from simgait.lessons.lesson import Choice, Control, Ledger, Lesson, Question, Row, Teacher

LESSON = Lesson(
    name="toe-lever",
    title="Where the foot ends",
    idea="A short toe lever is easy to roll over and drops the body; a long one carries to the end "
    "and forces the knee back.",
    audience=LEG_AUDIENCE,
    scene=(
        "Inside a prosthetic foot lies a keel, and where the keel ends the foot stops carrying. "
        "The invented man of 80 kg tries nine feet that differ in nothing else but that end. "
        "The drawing shows the instant late in the step at which the ground forces his knee back "
        "most.",
    ),
    task="Choose where the keel ends.",
    control=Control(
        key="keel",
        label="End of the keel, ahead of the ankle",
        unit="mm",
        si=0.001,
        low=100,
        high=180,
        step=10,
        start=150,
        decimals=0,
        hint="Drag the end of the keel, or use the arrow keys.",
    ),
    figures=(
        measure_figure("toe_lever_mm", "lever of the toe: where the load really came"),
        measure_figure("knee_extension_moment_peak_nm", "late moment that forces the knee back", 1),
        measure_figure("drop_off", "how fast the body is falling when it is let go", 2),
        measure_figure("knee_flexion_moment_peak_nm", "early moment that bends the knee", 1),
    ),
    shown=("toe_lever_mm", "knee_extension_moment_peak_nm", "drop_off"),
    question=Question(
        words="The keel is made to end 30 mm earlier. The toe is easier to roll over, and the knee "
        "is forced back less. What is that paid with?",
        choices=(
            Choice(
                words="With nothing: a short foot is simply easier",
                reply="Easier to roll over, yes. But a foot that has ended can no longer carry.",
            ),
            Choice(
                words="With a harder landing on the heel",
                reply="The heel is the same in all nine feet, and so, nearly, is the landing.",
            ),
            Choice(
                words="With a drop: the body falls more at the end of the step",
                reply="Where the keel ends the pressure can go no farther, and the body tips "
                "over that edge onto the other leg.",
            ),
            Choice(
                words="With a knee that is bent harder in the first part of the step",
                reply="Look at the early moment below: it hardly changes. The keel's end is not on "
                "the floor yet.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "With the keel that you have chosen the load comes to act {toe_lever_mm} ahead of the "
        "ankle at most (at the start: {start.toe_lever_mm}), and the moment that forces the knee "
        "back reaches {knee_extension_moment_peak_nm} (it was "
        "{start.knee_extension_moment_peak_nm}).",
        "The drop-off is {drop_off}; at the start it was {start.drop_off}. The early moment, "
        "{knee_flexion_moment_peak_nm}, hardly knows where the keel ends.",
        "For somebody who cannot hold a knee, or who walks far, the one or the other may be worth "
        "its price. The arithmetic does not choose.",
    ),
    ledger=Ledger(
        title="Gained and paid (against the start)",
        rows=(
            Row(
                key="knee_extension_moment_peak_nm",
                gain=-1,
                why="the knee is forced back less",
            ),
            Row(key="toe_lever_mm", gain=-1, why="a shorter way to roll over the toe"),
            Row(key="drop_off", gain=-1, why="a softer change to the other leg"),
            Row(key="knee_flexion_moment_peak_nm", gain=-1, why="less for the thigh to hold early"),
        ),
        note="The long keel is paid at the knee, the short one on the other leg.",
    ),
    teacher=Teacher(
        equation=(
            "Moment = force x lever. The pressure can go no farther than the sole carries; beyond "
            "that the body rotates about the sole's last point, as a lever without a counterweight "
            "does.",
            "Moments are external: what the ground does to the knee.",
        ),
        source=LEG_SOURCE,
        given=(
            "everyday.toml of the library's cases, an invented one; its foot with toe_lever_mm "
            "from 100 to 180, everything else of the foot kept, its bench stiffnesses too.",
        ),
        left_out=LEG_LEFT_OUT,
        next_question=(
            "A long keel under a foot that sits 10 mm farther back: what would you expect? Why do "
            "the two not simply cancel?",
        ),
    ),
    numbers=keel_numbers,
    drawing="scene_legs.js",
    cautions=LEG_CAUTIONS,
    on_stance=True,
)
