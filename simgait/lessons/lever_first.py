"""The bar with its pivot in the middle: a watering can on a pole."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, QUASI_STATIC, newton, stroke_figures

LESSON = Lesson(
    name="lever-first",
    title="The pole at the pond",
    idea="A bar with its pivot in the middle trades push for way: a third of the push goes three "
    "times the way, and the work stays the same.",
    audience="from about 11 years",
    scene=(
        "The beans behind the school are thirsty. Somebody has laid a pole of 3 m in a forked "
        "post beside the pond. A watering can of 10 kg hangs from one end. You push the other end "
        "down until the can has risen by 40 cm, up to the edge of the bed.",
    ),
    task="Slide the fork along the pole. The nearer it is to the can, the longer is your side.",
    control=Control(
        key="fork",
        label="Fork, from the can's end",
        unit="m",
        si=1.0,
        low=0.6,
        high=2.4,
        step=0.05,
        start=1.5,
        decimals=2,
        hint="Drag the fork in the drawing, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures("your push", "your end goes down", "the can weighs", "the can rises"),
        Figure(key="ratio", label="your side over the can's side", unit="", decimals=2),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "ratio"),
    question=Question(
        words="You slide the fork until your side is three times as long as the can's side. Your "
        "push falls to a third. How far must your end go down now, for the can to rise 40 cm?",
        choices=(
            Choice(
                words="About 13 cm: a lighter push is less work all round",
                reply="It would be lovely. But the long side of a bar sweeps a long way, "
                "and the short side a short one.",
            ),
            Choice(
                words="40 cm, like the can",
                reply="Only with the fork in the middle do both ends go equally far.",
            ),
            Choice(
                words="About 120 cm: three times as far",
                reply="A side that is three times as long goes three times as far. That is "
                "the price of the light push.",
            ),
            Choice(
                words="It depends on how fast you push",
                reply="Slow or fast, the pole is stiff: where its one end is, the other has to be "
                "as well. Only the lengths count.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "With the fork where you have it now, your side is {ratio} times as long as the can's. "
        "You push with {effort}, and your end goes down {effort_travel}. The can, {load}, rises "
        "{load_travel}.",
        "Push times way is work. You put in {work_in}, and {work_out} arrive at the can. Move the "
        "fork: push and way change places, the work does not change. Nothing is won, only "
        "swapped.",
    ),
    ledger=Ledger(
        title="Who paid what, lifting the can once",
        giver="You",
        taker="The can",
        loss="Rubbing in the fork",
        note="The {lost} that are lost have warmed the fork a little. No place of the fork brings "
        "them back.",
    ),
    teacher=Teacher(
        equation=(
            "Load over effort without loss is the ratio of the arms, L_e / L_r; the effort's way "
            "over the load's way is the same ratio. With a loss: effort = load / (ratio x "
            "efficiency), and work in = work out + loss.",
            "First class: the pivot stands between load and effort.",
        ),
        source=("OpenStax College Physics 9.2 and 9.5; OpenStax Physics 9.3.", MACHINES),
        given=(
            newton("Watering can", given.CAN_WEIGHT),
            "Share of the work that passes the fork: 0.95.",
            INVENTED,
        ),
        left_out=(
            "The pole weighs nothing and does not bend. The water does not spill. Both pushes "
            "stay upright, so that the ratio of the arms holds at every angle.",
            QUASI_STATIC,
        ),
        next_question=(
            "Where would the fork have to stand for a child who can push with 60 N? And how far "
            "above the ground must that child's hands be at the start?",
        ),
    ),
    numbers=given.pole_numbers,
    constants={"pole": given.POLE, "can_weight": given.CAN_WEIGHT, "rise": given.CAN_RISE},
    drawing="scene_bars.js",
)
