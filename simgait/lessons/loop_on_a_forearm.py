"""The loop on a forearm: a light pull over a long way, or a hard one over a short way."""

from simgait.lessons import arm_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import ARM_CAUTIONS, INVENTED

LESSON = Lesson(
    name="loop-on-a-forearm",
    title="Where the loop goes",
    idea="Wherever the loop sits, one lift takes the same work; it only chooses whether the "
    "shoulders pay in force or in travel, and of travel they have little.",
    audience="students; curious pupils from about 14 years",
    scene=(
        "An arm prosthesis above the elbow is bent by a cable. The cable leaves a guide on the "
        "upper arm and ends at a loop on the forearm; the wearer draws it by rounding the "
        "shoulders. This invented wearer can draw 105 mm of cable, and 38 mm of that are "
        "needed to open the hook once the hand is at the mouth.",
    ),
    task="Slide the loop along the forearm.",
    control=Control(
        key="loop",
        label="Loop, from the elbow's axis",
        unit="mm",
        si=0.001,
        low=20,
        high=70,
        step=1,
        start=25,
        decimals=0,
        hint="Drag the loop in the drawing, or use the arrow keys.",
    ),
    figures=(
        Figure(key="effort", label="mean pull of the shoulders", unit="N", decimals=1),
        Figure(key="effort_travel", label="cable drawn", unit="mm", si=0.001, decimals=1),
        Figure(key="load", label="forearm, hook and what it holds weigh", unit="N", decimals=1),
        Figure(key="load_travel", label="their centre rises", unit="mm", si=0.001),
        Figure(key="work_in", label="work of the shoulders", unit="J", decimals=2),
        Figure(key="work_out", label="work that lifts", unit="J", decimals=2),
        Figure(key="lost", label="work lost in the housing", unit="J", decimals=2),
        Figure(key="pull", label="pull with the forearm level", unit="N", decimals=1),
        Figure(key="lever", label="lever of the cable then", unit="mm", si=0.001, decimals=1),
        Figure(key="left", label="cable left for the hook", unit="mm", si=0.001, decimals=1),
        Figure(key="opens", label="at the mouth the hook", unit="", words=("stays shut", "opens")),
    ),
    shown=("pull", "lever", "effort", "effort_travel", "left", "opens"),
    question=Question(
        words="The loop is moved from 25 mm to 50 mm, twice as far from the elbow. The pull "
        "becomes lighter. What happens to the work that the shoulders do for one whole lift?",
        choices=(
            Choice(
                words="It halves, as the pull nearly does",
                reply="The pull nearly halves, and the cable to be drawn nearly doubles. The "
                "forearm is raised just as high, so somebody pays the same.",
            ),
            Choice(
                words="It stays the same",
                reply="The same forearm rises by the same height through the same housing. "
                "The loop only chooses how the price is split into force and travel.",
            ),
            Choice(
                words="It grows: more cable is drawn",
                reply="More cable, but at a lighter pull. The two just balance.",
            ),
            Choice(
                words="It depends on how strong the wearer is",
                reply="Strength decides whether the lift can be done, not what it takes.",
            ),
        ),
        right=1,
    ),
    explanation=(
        "With your loop the cable passes the elbow with a lever of {lever} when the forearm is "
        "level, and the pull is {pull}. One lift from 10 to 135 degrees draws {effort_travel} of "
        "cable.",
        "Of 105 mm {left} are left; the hook needs 38 mm, so at the mouth it {opens}. A lighter "
        "pull is of no use to someone who runs out of travel before the hook is open.",
        "The shoulders put in {work_in}, wherever you put the loop; {work_out} lift the forearm "
        "and {lost} rub away in the cable's housing.",
    ),
    ledger=Ledger(
        title="Who paid what, bending the elbow once",
        giver="The shoulders",
        taker="The forearm",
        loss="Rubbing in the housing",
        note="Mean pull times cable drawn is the work. Move the loop: the first two change "
        "places, the third stays.",
    ),
    teacher=Teacher(
        equation=(
            "Cable from guide (a above the elbow) to loop (r below it): l^2 = a^2 + r^2 + 2 a r "
            "cos(theta). Lever p = a r sin(theta) / l. Pull = W x sin(theta) / (p x share "
            "through).",
            "Work of the lift: W x (cos(theta0) - cos(theta1)), with no r in it.",
        ),
        source=(
            "Derived; the formulas are those of simgait.arm.geometry, and the page runs the same "
            "text.",
        ),
        given=(
            "Guide 75 mm above the elbow; guide and loop on the lines of the arm. Weight 5.5 N, "
            "200 mm from the elbow. Share of the pull that passes the housing: 0.85.",
            INVENTED,
        ),
        left_out=(
            "Statics: how fast it rises does not count. The upper arm hangs. Straps slip and "
            "chafe; comfort is not computed. The pull falls through the lift, in step with the "
            "cable between guide and loop, so that it is largest at the start.",
        ),
        next_question=(
            "What could be changed on this arm if the wearer needs a lighter pull and has no "
            "travel to spare? (Weight, housing, lift assist: each has a price of its own.)",
        ),
    ),
    numbers=given.loop_numbers,
    constants={
        "guide": given.GUIDE,
        "centre": given.FOREARM_CENTRE,
        "weight": given.FOREARM_WEIGHT,
        "from": given.FLEXION_FROM,
        "to": given.FLEXION_TO,
        "level": given.LEVEL,
        "limit": given.TRAVEL_LIMIT,
        "hook": given.HOOK_TRAVEL,
        "upper": given.UPPER_ARM,
        "forearm": given.FOREARM,
        "tip": given.TIP_BEYOND,
    },
    drawing="scene_arms.js",
    cautions=ARM_CAUTIONS,
)
