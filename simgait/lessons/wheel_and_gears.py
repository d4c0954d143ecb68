"""Wheel and gears: a painted forest, cranked up above a school stage."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, QUASI_STATIC, newton, stroke_figures

LESSON = Lesson(
    name="wheel-and-gears",
    title="The painted forest goes up",
    idea="Gears swap turning for force: four times the teeth is a quarter of the push, and four "
    "times the turns for the same rise.",
    audience="from about 12 years",
    scene=(
        "Behind the school stage hangs a painted forest of 40 kg. Its rope winds onto a drum, the "
        "drum has a large gear, and a small gear of 12 teeth on the crank drives it. Between two "
        "scenes the forest has to rise by 1 m.",
    ),
    task="Choose how many teeth the large gear has.",
    control=Control(
        key="teeth",
        label="Teeth of the gear on the drum",
        unit="teeth",
        si=1.0,
        low=12,
        high=60,
        step=4,
        start=12,
        decimals=0,
        hint="Drag the rim of the large gear, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures(
            "your push on the crank",
            "your hand goes",
            "the forest weighs",
            "the forest rises",
            way="m",
        ),
        Figure(key="gears", label="turns of the crank for one of the drum", unit="", decimals=2),
        Figure(key="turns", label="turns of the crank in all", unit="", decimals=1),
        Figure(key="rise", label="rise in one turn of the crank", unit="cm", si=0.01, decimals=1),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "gears", "turns", "rise"),
    question=Question(
        words="The gear of 12 teeth on the drum is changed for one of 48. You go on turning the "
        "crank once a second. What does the forest do?",
        choices=(
            Choice(
                words="It goes up four times as fast: the gear is four times as big",
                reply="The other way round. The big gear has four times as many teeth, and each "
                "turn of the small gear still moves only 12 of them on.",
            ),
            Choice(
                words="It goes up as fast as before, and the crank is lighter",
                reply="Lighter, and as fast? Then the forest would get the same work from "
                "much less of yours.",
            ),
            Choice(
                words="It goes up a quarter as fast, and the push is a quarter",
                reply="The crank has to turn four times for one turn of the drum. What the "
                "push gains, the clock loses.",
            ),
            Choice(
                words="It stops: the small gear is too weak",
                reply="The teeth push each other equally hard, but the large gear has the longer "
                "lever. So the small one moves it easily, and slowly.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "With the gear that you have chosen, the crank turns {gears} times for one turn of the "
        "drum. You push with {effort}, and one turn of the crank lifts the forest by {rise}.",
        "For 1 m the crank turns {turns} times, and your hand goes {effort_travel} round and "
        "round. The work stays {work_in}, whichever gear you choose.",
    ),
    ledger=Ledger(
        title="Who paid what, raising the forest by 1 m",
        giver="You",
        taker="The forest",
        loss="Rubbing in gears and bearings",
        note="At one turn a second it takes {turns} seconds. Less push, more time: work is the "
        "same, but who gives it slowly needs less force.",
    ),
    teacher=Teacher(
        equation=(
            "Crank over drum radius, R / r, times teeth driven over teeth driving, N2 / N1: the "
            "ratios of machines one after another multiply. Effort = load / (R / r x N2 / N1 x "
            "efficiency).",
        ),
        source=(
            "OpenStax Physics 9.3 and College Physics 9.5; the ratio of gears from teeth that pass "
            "one by one, derived.",
            MACHINES,
        ),
        given=(
            newton("Painted forest", given.FOREST_WEIGHT),
            "Crank 250 mm, drum 50 mm to the middle of the rope; share that passes: 0.80.",
            INVENTED,
        ),
        left_out=(
            "The rope winds up in one layer, so that the drum does not grow. The loss is taken "
            "to be the same for every gear. What holds the forest when you let go is not shown: a "
            "catch, and nobody stands below.",
            QUASI_STATIC,
        ),
        next_question=(
            "A second pair of gears, again 12 and 48, is put between. What becomes of push and "
            "turns? Would anyone have the patience?",
        ),
    ),
    numbers=given.winch_numbers,
    constants={
        "crank": given.CRANK,
        "drum": given.DRUM,
        "pinion": given.PINION_TEETH,
        "forest_weight": given.FOREST_WEIGHT,
    },
    drawing="scene_hoists.js",
)
