"""The heel lever: what a foot that sits farther back does to the knee just after the heel lands."""

from simgait.lessons.leg_numbers import foot_numbers
from simgait.lessons.leg_words import (
    LEG_AUDIENCE,
    LEG_CAUTIONS,
    LEG_LEFT_OUT,
    LEG_SOURCE,
    measure_figure,
)
from simgait.lessons.lesson import Choice, Control, Ledger, Lesson, Question, Row, Teacher

LESSON = Lesson(
    name="heel-lever",
    title="The foot a little farther back",
    idea="A foot that sits farther back gives the heel a longer lever: the step begins harder on "
    "the knee and is easier to end. Moved ahead, it is the other way round.",
    audience=LEG_AUDIENCE,
    scene=(
        "A man of 80 kg, invented, walks to the allotment on a below-knee prosthesis. The foot can "
        "be moved along under the socket by a few millimetres, and nothing else is changed. The "
        "drawing shows the instant shortly after the heel has landed at which the ground bends the "
        "knee most.",
    ),
    task="Move the foot back (towards the heel) or ahead.",
    control=Control(
        key="foot_forward",
        label="Foot under the socket, + ahead",
        unit="mm",
        si=0.001,
        low=-15,
        high=15,
        step=1,
        start=0,
        decimals=0,
        hint="Drag the foot in the drawing, or use the arrow keys.",
    ),
    figures=(
        measure_figure("heel_lever_mm", "lever of the heel behind the ankle"),
        measure_figure("knee_flexion_moment_peak_nm", "early moment that bends the knee", 1),
        measure_figure("forward_thrust", "how fast the shank is driven ahead"),
        measure_figure("toe_lever_mm", "lever of the toe ahead of the ankle"),
        measure_figure("knee_extension_moment_peak_nm", "late moment that forces it back", 1),
    ),
    shown=("heel_lever_mm", "knee_flexion_moment_peak_nm", "forward_thrust"),
    question=Question(
        words="The foot is moved 10 mm back. The heel lands, and the ground pushes up at it. "
        "What happens at the knee in the first part of the step?",
        choices=(
            Choice(
                words="It is bent harder, and the shank is driven ahead faster",
                reply="The heel then lies farther behind the knee, so that the ground's force "
                "has a longer lever to bend it with.",
            ),
            Choice(
                words="It is bent less hard",
                reply="That is what a foot farther ahead does. Farther back, the heel lies farther "
                "behind the knee, and the lever gets longer.",
            ),
            Choice(
                words="Nothing: the force of the ground is as large as before",
                reply="The force is nearly as large as before. But a moment is force times lever, "
                "and the lever has changed.",
            ),
        ),
        right=0,
    ),
    explanation=(
        "With the foot where you have it now, the load comes to act {heel_lever_mm} behind the "
        "ankle (at the start: {start.heel_lever_mm}). The moment that bends the knee reaches "
        "{knee_flexion_moment_peak_nm}; at the start it was {start.knee_flexion_moment_peak_nm}.",
        "Somebody must hold that moment: the muscles in front of the thigh. Late in the step the "
        "toe's lever is now {toe_lever_mm}, and the moment that forces the knee back is "
        "{knee_extension_moment_peak_nm} (it was {start.knee_extension_moment_peak_nm}).",
        "So the foot's place does not make the step easier or harder: it moves the effort from "
        "one end of the step to the other. Which end can pay better is a matter of the person.",
    ),
    ledger=Ledger(
        title="Gained at one end of the step, paid at the other (against the start)",
        rows=(
            Row(key="knee_flexion_moment_peak_nm", gain=-1, why="less for the thigh to hold early"),
            Row(key="forward_thrust", gain=-1, why="a calmer landing"),
            Row(
                key="knee_extension_moment_peak_nm",
                gain=-1,
                why="the knee is forced back less late in the step",
            ),
            Row(key="toe_lever_mm", gain=-1, why="a shorter way to roll over the toe"),
        ),
        note="A short toe lever is easy to walk over, and drops the body sooner: the lesson "
        "toe-lever looks at that price.",
    ),
    teacher=Teacher(
        equation=(
            "Moment = force x lever. Moved by 10 mm under one body weight, 0.098 N m for each "
            "kilogram of the body, if the wearer did not move otherwise: 7.8 N m for 80 kg. The "
            "page's own change is smaller: the limb leans and the knee bends differently with "
            "every place of the foot, and the peak comes at another instant.",
            "Moments are external: what the ground does to the knee.",
        ),
        source=LEG_SOURCE,
        given=(
            "everyday.toml of the library's cases, an invented one, with its own foot and wearer.",
        ),
        left_out=LEG_LEFT_OUT,
        next_question=(
            "Tilting the toe up by a few degrees also bends the knee early. What else would it do "
            "at the end of the step? Try it on the page of a case (simgait page).",
        ),
    ),
    numbers=foot_numbers,
    drawing="scene_legs.js",
    cautions=LEG_CAUTIONS,
    on_stance=True,
)
