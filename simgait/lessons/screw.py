"""The screw: the foot of a fish tank, and what the loss in its thread is good for."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, newton

LESSON = Lesson(
    name="screw",
    title="The fish tank that leans",
    idea="A screw that stays where you leave it loses more than half of the work you give it: the "
    "rubbing that takes it is what holds.",
    audience="from about 13 years",
    scene=(
        "The fish tank leans: one foot has to come up by 2 mm. The foot is a screw, 600 N of tank "
        "stand on it, and your spanner is 12 cm long. The shop has threads from fine (half a "
        "millimetre a turn) to coarse (8 mm a turn).",
    ),
    task="Choose the thread: how far the screw rises in one turn.",
    control=Control(
        key="lead",
        label="Rise in one turn",
        unit="mm",
        si=0.001,
        low=0.5,
        high=8.0,
        step=0.25,
        start=1.5,
        decimals=2,
        hint="Drag the end of the unrolled thread, or use the arrow keys.",
    ),
    figures=(
        Figure(key="effort", label="your push on the spanner", unit="N", decimals=1),
        Figure(key="effort_travel", label="your hand goes", unit="cm", si=0.01, decimals=1),
        Figure(key="load", label="the tank presses", unit="N"),
        Figure(key="load_travel", label="the tank rises", unit="mm", si=0.001),
        Figure(key="work_in", label="work put in", unit="J", decimals=2),
        Figure(key="work_out", label="work that arrives", unit="J", decimals=2),
        Figure(key="lost", label="work lost", unit="J", decimals=2),
        Figure(key="ratio", label="your hand goes farther than the tank", unit="times"),
        Figure(key="share", label="share of your work that arrives", unit="%", si=0.01),
        Figure(key="turns", label="turns of the spanner", unit="", decimals=2),
        Figure(
            key="stays", label="if you let go, the screw", unit="", words=("runs back", "stays")
        ),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "ratio", "turns", "share", "stays"),
    question=Question(
        words="An ordinary thread rises 1.5 mm in a turn. Of every 100 joules that you put into "
        "the spanner, how many arrive at the tank?",
        choices=(
            Choice(
                words="About 95: steel on steel is smooth",
                reply="Smooth, but pressed hard, and the thread slides a long way round for each "
                "small step up.",
            ),
            Choice(
                words="About 60",
                reply="A coarse thread would come to that: try 8 mm a turn, and see what else "
                "happens.",
            ),
            Choice(
                words="About 25",
                reply="Three quarters are rubbed away in the thread. It slides 28 mm round "
                "for each 1.5 mm up.",
            ),
            Choice(
                words="All of them: no work can get lost",
                reply="Lost for the tank, that is. It is still there: the thread is warmer now.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "With your thread the hand goes {ratio} as far as the tank, so a push of only "
        "{effort} raises {load}. You put in {work_in}, {work_out} arrive: {share}.",
        "Let go now: with your thread the screw {stays}. Up to about 4.2 mm a turn the rubbing "
        "that eats your work also holds the tank, and less than half of the work arrives. A thread "
        "that rises more in a turn wastes less, and runs back by itself.",
        "The small set screws of a leg prosthesis hold an angle by rubbing too, and every step "
        "shakes them. So nobody wants them efficient, and rubbing alone is not trusted: they are "
        "tightened with the moment that their maker states, and secured.",
    ),
    ledger=Ledger(
        title="Who paid what, raising the foot by 2 mm",
        giver="You",
        taker="The tank",
        loss="Rubbing in the thread",
        note="Lost: {lost}. And when you let go, the screw {stays}.",
    ),
    teacher=Teacher(
        equation=(
            "Advantage without rubbing: 2 pi L / P, spanner L over lead P. Efficiency of a square "
            "thread: tan(lambda) / tan(lambda + phi), tan(lambda) = P / (pi d), tan(phi) = mu.",
            "It holds by itself where P / (pi d) <= mu; there the efficiency is below one half.",
        ),
        source=(
            "OpenStax Physics 9.3 and College Physics 5.1; the efficiency is derived (a thread is "
            "a ramp that is pushed level).",
            MACHINES,
        ),
        given=(
            newton("Load on the foot", given.TANK_LOAD),
            "Spanner 120 mm, mean diameter of the thread 9 mm, friction 0.15.",
            INVENTED,
        ),
        left_out=(
            "The rubbing under the foot itself, which is often as large again. Flanks of a usual "
            "thread lean and rub a little more than square ones. Shaking can loosen a screw that "
            "holds by this rule.",
            "Everything moves slowly, so that no force goes into speed.",
        ),
        next_question=(
            "Oil halves the friction. What becomes of the push, and of the thread that just held?",
        ),
    ),
    numbers=given.screw_numbers,
    constants={
        "spanner": given.SPANNER,
        "diameter": given.THREAD_DIAMETER,
        "load": given.TANK_LOAD,
        "friction": given.THREAD_FRICTION,
    },
    drawing="scene_slopes.js",
)
