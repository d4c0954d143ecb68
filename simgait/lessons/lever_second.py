"""The bar with its load in the middle: a sack on a lid."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, QUASI_STATIC, newton, stroke_figures

LESSON = Lesson(
    name="lever-second",
    title="The sack on the sandbox",
    idea="Where the load lies between pivot and hand, the hand goes farther than the load and "
    "carries less than its weight; the hinge carries the rest.",
    audience="from about 11 years",
    scene=(
        "The sandbox on the playground has a lid of 1.2 m with a hinge at the back. Someone has "
        "left a sack of sand, 20 kg, on the closed lid. You take the front edge and raise the lid "
        "to 30 degrees, sack and all.",
    ),
    task="Slide the sack along the lid, towards the hinge or towards your hand.",
    control=Control(
        key="place",
        label="Sack, from the hinge",
        unit="m",
        si=1.0,
        low=0.2,
        high=1.0,
        step=0.02,
        start=0.9,
        decimals=2,
        hint="Drag the sack in the drawing, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures("your lift", "your hand rises", "the sack weighs", "the sack rises"),
        Figure(key="ratio", label="your place over the sack's place", unit="", decimals=2),
        Figure(key="hinge", label="the hinge carries", unit="N"),
        Figure(key="share", label="your share of the weight", unit="%", si=0.01),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "hinge", "share"),
    question=Question(
        words="The sack lies exactly halfway between hinge and hand, at 0.60 m. How much of its "
        "weight does your hand carry while it lifts slowly?",
        choices=(
            Choice(
                words="All of it: nobody else is lifting",
                reply="The hinge is lifting too. It stays where it is, but it pushes up.",
            ),
            Choice(
                words="About half of it",
                reply="Your hand is twice as far from the hinge as the sack is, so it goes "
                "twice as far and needs half the force. The stiff hinge adds a little: 56%.",
            ),
            Choice(
                words="About a quarter of it",
                reply="That would be so with the sack at a quarter of the way. Halfway, your hand "
                "goes twice as far as the sack, not four times.",
            ),
            Choice(
                words="About twice its weight: the lid is long",
                reply="A long lid helps you. It would be so if you lifted at the sack's place and "
                "the sack lay at yours.",
            ),
        ),
        right=1,
    ),
    explanation=(
        "With the sack where you have it now, your hand lifts with {effort}; that is {share} of "
        "the sack's {load}. The hinge holds up {hinge}.",
        "Your hand rises {effort_travel}, the sack only {load_travel}. The hinge carries, but it "
        "does not move. So it puts in no work at all: force without way costs nothing. The "
        "work is all yours, {work_in}.",
    ),
    ledger=Ledger(
        title="Who paid what, opening the lid once",
        giver="Your hand",
        taker="The sack",
        loss="The stiff hinge",
        note="Nearer to the hinge the lift is lighter, and the sack is not lifted as high either: "
        "less is paid and less is bought.",
    ),
    teacher=Teacher(
        equation=(
            "Moments about the hinge: effort x L_lid = load x place (without loss). Forces: hinge "
            "= load - effort. The ratio of the ways is the ratio of the arms.",
            "Second class: the load stands between pivot and effort, so the ratio is above 1.",
        ),
        source=("OpenStax College Physics 9.1, 9.2 and 9.5; OpenStax Physics 9.3.", MACHINES),
        given=(
            newton("Sack", given.SACK_WEIGHT),
            "Share of the work that passes the stiff hinge: 0.90.",
            INVENTED,
        ),
        left_out=(
            "The lid itself weighs nothing here; a real one of 6 kg would add about 30 N. The "
            "sack does not slide. Hand and weight act upright.",
            QUASI_STATIC,
        ),
        next_question=(
            "With the sack right at your hand, what is your share then? Why is it no longer a "
            "help at all?",
        ),
    ),
    numbers=given.lid_numbers,
    constants={"lid": given.LID, "angle": given.LID_ANGLE, "sack_weight": given.SACK_WEIGHT},
    drawing="scene_bars.js",
)
