"""The block of pulleys: supper for a tree house, on one strand or on six."""

from simgait.lessons import machine_numbers as given
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Teacher
from simgait.lessons.words import INVENTED, MACHINES, QUASI_STATIC, newton, stroke_figures

LESSON = Lesson(
    name="pulley-block",
    title="Supper in the tree house",
    idea="Strands share the load, so the pull gets lighter and the rope longer; every pulley takes "
    "a little for itself.",
    audience="from about 11 years",
    scene=(
        "Supper for the tree house hangs in a basket, 12 kg with the jug. A rope runs between a "
        "block at the branch and a block at the basket, and you stand below and pull down. The "
        "basket has to come up the last 60 cm.",
    ),
    task="Choose how many strands of the rope carry the basket.",
    control=Control(
        key="strands",
        label="Strands that carry the basket",
        unit="",
        si=1.0,
        low=1,
        high=6,
        step=1,
        start=1,
        decimals=0,
        hint="Drag the ring along the six pegs, or use the arrow keys.",
    ),
    figures=(
        *stroke_figures(
            "your pull", "rope through your hands", "the basket weighs", "the basket rises"
        ),
        Figure(key="strands", label="strands", unit=""),
        Figure(key="share", label="share of your work that arrives", unit="%", si=0.01),
        Figure(key="branch", label="the branch carries", unit="N"),
        Figure(key="ideal", label="pull if nothing rubbed", unit="N"),
    ),
    shown=("effort", "effort_travel", "load", "load_travel", "share", "ideal", "branch"),
    question=Question(
        words="One strand: you pull 60 cm of rope. Now four strands carry the basket. How much "
        "rope do you pull for the same 60 cm of basket, and how hard?",
        choices=(
            Choice(
                words="60 cm, with a quarter of the pull",
                reply="Then the work would be a quarter as well, and supper would rise for almost "
                "nothing. Each of the four strands has to become 60 cm shorter.",
            ),
            Choice(
                words="240 cm, with exactly a quarter of the basket's weight",
                reply="The rope is right. The pull would be a quarter of the weight only if no "
                "pulley rubbed; here each keeps 8% for itself.",
            ),
            Choice(
                words="240 cm, with somewhat more than a quarter of the basket's weight",
                reply="Four strands have to become 60 cm shorter each, and the pulleys take "
                "their share: 36 N rather than 29 N.",
            ),
            Choice(
                words="240 cm, with the same pull as before",
                reply="The rope is right. But four strands carry the basket together now, so each "
                "pulls with only a part of the weight.",
            ),
        ),
        right=2,
    ),
    explanation=(
        "You pull {effort_travel} of rope through your hands with {effort}. Without any rubbing "
        "{ideal} would do.",
        "Of the work that you put in, {share} arrives at the basket. More strands mean more "
        "pulleys, and each takes its part: the lightest pull costs the most work.",
        "And somebody stands above you all: the branch carries {branch}, the basket and your pull "
        "together. With one strand that is twice the basket and more.",
    ),
    ledger=Ledger(
        title="Who paid what, raising supper by 60 cm",
        giver="You",
        taker="The basket",
        loss="Rubbing in the pulleys",
        note="With one strand you paid {start.work_in}; now you pay {work_in}. The basket gets "
        "{work_out} each time.",
    ),
    teacher=Teacher(
        equation=(
            "Without loss n strands halve, third, quarter ... the pull: F = W / n, and the rope is "
            "n times the rise.",
            "With a share e of the tension left behind each pulley, W = F (e + e^2 + ... + e^n). "
            "The efficiency is that sum over n.",
        ),
        source=(
            "OpenStax College Physics 9.1 and 9.5; the loss is the sum of a geometric series, "
            "derived.",
            MACHINES,
        ),
        given=(
            newton("Basket with what is in it, and the lower block", given.BASKET_WEIGHT),
            "Tension behind a pulley over tension before it: 0.92.",
            INVENTED,
        ),
        left_out=(
            "The rope weighs nothing and does not stretch; the strands hang upright. One pulley "
            "loses as much as another, and the last strand runs over one at the branch.",
            QUASI_STATIC,
        ),
        next_question=(
            "If you sat in the basket and pulled yourself up, how many strands would carry you?",
        ),
    ),
    numbers=given.pulley_numbers,
    constants={"basket_weight": given.BASKET_WEIGHT, "rise": given.BASKET_RISE},
    drawing="scene_hoists.js",
)
