"""The ramp: a sack of compost on a tray, pulled up a plank that is short and steep, or long."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, newton, stroke_figures

LESSON = Lesson(
    name="ramp",
    title="Compost for the raised bed",
    idea="A longer ramp makes the pull lighter and the bill bigger: it rubs all the way.",
    audience="from about 12 years",
    scene=(
        "A sack of compost, 25 kg, lies on a tray. It has to go up to the raised bed, half a metre "
        "high. You lay a plank from the path to the edge of the bed and pull the tray up along it. "
        "Planks of 1 m to 4 m lean against the shed.",
    ),
    task="Choose the plank: short and steep, or long and gentle.",
    control=Control(
        key="plank",
        label="Length of the plank",
        unit="m",
        si=1.0,
        low=1.0,
        high=4.0,
        step=0.1,
        start=1.0,
        decimals=1,
        hint="Drag the foot of the plank, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures(
            "your pull", "you pull it along", "the sack weighs", "the sack rises", way="m"
        ),
        Figure(key="ratio", label="length over height", unit="", decimals=1),
        Figure(key="share", label="share of your work that arrives", unit="%", si=0.01),
        Figure(key="slope", label="slope", unit="deg", si=0.017453292519943295, decimals=1),
        Figure(
            key="rests", label="if you let go, the tray", unit="", words=("slides back", "stays")
        ),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "slope", "share", "rests"),
    question=Question(
        words="You change a plank of 1.5 m for one of 3 m. The pull gets lighter. What happens to "
        "all the work that you do, pull times way?",
        choices=(
            Choice(
                words="It gets smaller: that is what ramps are for",
                reply="The pull gets smaller, and that is what ramps are for. But you pull twice "
                "as far, and the tray rubs on every centimetre.",
            ),
            Choice(
                words="It stays the same: half the pull, twice the way",
                reply="So it would be on ice. On wood the tray rubs, and twice as far, so the pull "
                "does not fall to half.",
            ),
            Choice(
                words="It gets larger",
                reply="Lifting costs the same either way, but the rubbing is paid by the metre.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "With your plank you pull with {effort}, {effort_travel} far. Straight up it would be "
        "{load}, {load_travel} far.",
        "You put in {work_in}; lifting alone takes {work_out}. The other {lost} have become warmth "
        "between tray and wood. Of what you put in, {share} arrives.",
        "Let go now, and the tray {rests}. Below a slope of 14 degrees the rubbing alone holds it: "
        "what costs you on the way up is a brake for nothing when you rest.",
    ),
    ledger=Ledger(
        title="Who paid what, bringing up one sack",
        giver="You",
        taker="The sack",
        loss="Rubbing on the plank",
        note="With the shortest plank you paid {start.work_in}; with this one {work_in}.",
    ),
    teacher=Teacher(
        equation=(
            "Pull along the ramp: F = W sin a + mu W cos a. Without rubbing the advantage is "
            "length over height, L / h; the efficiency is tan a / (tan a + mu).",
            "The tray rests by itself where tan a <= mu.",
        ),
        source=("OpenStax College Physics 5.1 and 9.5; the efficiency is derived.", MACHINES),
        given=(
            newton("Sack and tray", given.COMPOST_WEIGHT),
            "Friction of tray on wood: 0.25, at rest and moving.",
            INVENTED,
        ),
        left_out=(
            "The step from plank to bed, the bending of a long plank, and that friction at rest "
            "is usually larger than friction while sliding. The rope runs along the plank.",
            "Everything moves slowly, so that no force goes into speed.",
        ),
        next_question=(
            "With wheels under the tray, mu would be 0.03. Which plank would you take then, and "
            "what would you need that you do not need now?",
        ),
    ),
    numbers=given.ramp_numbers,
    constants={"height": given.BED_HEIGHT, "compost_weight": given.COMPOST_WEIGHT},
    drawing="scene_slopes.js",
)
