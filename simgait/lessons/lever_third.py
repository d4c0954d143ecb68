"""The bar with its effort in the middle: a bin that opens by a rod near its hinge."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, QUASI_STATIC, newton, stroke_figures

LESSON = Lesson(
    name="lever-third",
    title="The bin with the pedal",
    idea="Where the effort acts between pivot and load, it must be larger than the load; what is "
    "bought with it is way.",
    audience="from about 11 years",
    scene=(
        "The kitchen bin opens by a pedal. Inside, the pedal raises a rod, and the rod lifts the "
        "lid from below, not far from its hinge. Somebody has put a bag of onions, 1.2 kg, on the "
        "front edge of the lid. You step on the pedal until the lid stands at 40 degrees.",
    ),
    task="Slide the rod: nearer to the hinge, or nearer to the bag.",
    control=Control(
        key="rod",
        label="Rod, from the hinge",
        unit="mm",
        si=0.001,
        low=30,
        high=180,
        step=5,
        start=165,
        decimals=0,
        hint="Drag the foot of the rod in the drawing, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures(
            "the rod pushes", "the rod rises", "the bag weighs", "the bag rises", decimals=1, work=2
        ),
        Figure(key="ratio", label="the bag goes farther than the rod", unit="times", decimals=1),
        Figure(
            key="more", label="the rod pushes harder than the bag weighs", unit="times", decimals=1
        ),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "ratio", "more"),
    question=Question(
        words="The rod is set closer to the hinge, to a quarter of the bag's distance. Now a "
        "small step of the foot throws the lid wide open. What does that cost?",
        choices=(
            Choice(
                words="Nothing: a small step is a small force",
                reply="The step is small, but the bag still rises as high as before. Someone has "
                "to pay for that, and the only way left to pay is force.",
            ),
            Choice(
                words="The rod pushes with a quarter of the bag's weight",
                reply="That would be a gift: less force and less way. It is the other way round.",
            ),
            Choice(
                words="The lid opens more slowly",
                reply="It opens more quickly: the bag goes four times as far as the rod in the "
                "same time.",
            ),
            Choice(
                words="The rod must push with more than four times the bag's weight",
                reply="Four times for the lever, and some more for the rubbing.",
            ),
        ),
        right=3,
    ),
    explanation=(
        "With the rod where you have it now it rises only {effort_travel}, and the bag "
        "{load_travel}: {ratio} as far. For that the rod pushes with {effort}, {more} "
        "what the bag weighs.",
        "A bad bargain? Not for someone who has force to spare and no room to move. Your own "
        "forearm is built so: the muscle pulls close to the elbow, hard and over a short way, and "
        "the hand flies.",
    ),
    ledger=Ledger(
        title="Who paid what, opening the lid once",
        giver="The rod",
        taker="The bag",
        loss="Rubbing in pedal and hinge",
        note="The work is the same wherever the rod stands: {work_in} in, {work_out} out.",
    ),
    teacher=Teacher(
        equation=(
            "Moments about the hinge: effort x r = load x R (without loss), so effort / load = R "
            "/ r, above 1; the ways have the inverse ratio.",
            "Third class: the effort stands between pivot and load.",
        ),
        source=("OpenStax College Physics 9.5; OpenStax Physics 9.3.", MACHINES),
        given=(
            newton("Bag of onions", given.BAG_WEIGHT, 1),
            "Share of the work that passes rod and hinge: 0.85.",
            INVENTED,
        ),
        left_out=(
            "The lid weighs nothing here. The pedal below is a lever of its own and is not looked "
            "at. Push and weight act upright.",
            QUASI_STATIC,
        ),
        next_question=(
            "On an arm prosthesis a cable takes the muscle's place, and shoulders pull it. Would "
            "you fix the cable near the elbow or far from it? The lesson loop-on-a-forearm asks "
            "that.",
        ),
    ),
    numbers=given.bin_numbers,
    constants={
        "bag": given.BAG_PLACE,
        "angle": given.BIN_ANGLE,
        "bag_weight": given.BAG_WEIGHT,
    },
    drawing="scene_bars.js",
)
