"""The short residual limb: the same moment on a shorter lever presses harder."""

from simgait.lessons.leg_numbers import limb_numbers
from simgait.lessons.leg_words import (
    LEG_AUDIENCE,
    LEG_CAUTIONS,
    LEG_LEFT_OUT,
    LEG_SOURCE,
    measure_figure,
)
from simgait.lessons.lesson import Choice, Control, Figure, Ledger, Lesson, Question, Row, Teacher

LESSON = Lesson(
    name="short-residual-limb",
    title="A short limb in its socket",
    idea="The foot and the floor make the moment; the limb answers with two forces, and the "
    "shorter the lever between them, the larger they are.",
    audience=LEG_AUDIENCE,
    scene=(
        "A residual limb sits in its socket like a hand in a tight bucket. Late in the step the "
        "toe presses on the floor and tries to turn the socket; the limb holds against it with one "
        "force near the brim and another near its end. The same invented man of 80 kg with the "
        "same foot is computed with nine lengths of limb.",
    ),
    task="Choose how long the residual limb is.",
    control=Control(
        key="limb",
        label="Residual limb, below the knee",
        unit="mm",
        si=0.001,
        low=80,
        high=160,
        step=10,
        start=150,
        decimals=0,
        hint="Drag the end of the limb in the drawing, or use the arrow keys.",
    ),
    figures=(
        measure_figure("socket_extension_moment_peak_nm", "moment in the socket, late", 1),
        Figure(key="depth_mm", label="lever: limb enclosed by the socket", unit="mm"),
        measure_figure("socket_couple_force_n", "each of the two forces for that moment"),
        measure_figure("brim_force_peak_n", "largest force at the brim, all counted"),
        measure_figure("limb_end_force_peak_n", "largest force at the limb's end, all counted"),
        measure_figure("knee_extension_moment_peak_nm", "late moment that forces the knee back", 1),
    ),
    shown=(
        "socket_extension_moment_peak_nm",
        "depth_mm",
        "socket_couple_force_n",
        "brim_force_peak_n",
        "limb_end_force_peak_n",
    ),
    question=Question(
        words="The limb is 90 mm long and no longer 150 mm. The moment that foot and floor make in "
        "the socket is nearly the same, a little less. What happens to the two equal forces that "
        "answer that moment?",
        choices=(
            Choice(
                words="They stay the same, as the moment does",
                reply="The moment nearly stays. But it is force times lever, and the lever "
                "between the two forces has become shorter.",
            ),
            Choice(
                words="They get smaller: less limb, less to press on",
                reply="There is less limb to press on, and the pressing gets harder: both work "
                "against the skin.",
            ),
            Choice(
                words="They grow by a third or less",
                reply="The lever is not the limb's whole length: the socket's brim lies below the "
                "knee, so what is enclosed shrinks from 130 to 70 mm.",
            ),
            Choice(
                words="They grow to well over one and a half times",
                reply="The enclosed limb shrinks from 130 to 70 mm. With the same moment the "
                "forces would grow 1.86 times; the moment falls a little, and 1.69 times remain.",
            ),
        ),
        right=3,
    ),
    explanation=(
        "With the limb that you have chosen the socket encloses {depth_mm}. The late moment is "
        "{socket_extension_moment_peak_nm} (at the start: "
        "{start.socket_extension_moment_peak_nm}). Divided by the lever, each of the two forces "
        "is {socket_couple_force_n}; at the start it was {start.socket_couple_force_n}.",
        "With the force across the limb added, the brim presses with up to {brim_force_peak_n} and "
        "the end with up to {limb_end_force_peak_n}.",
        "The knee hardly notices: {knee_extension_moment_peak_nm} against "
        "{start.knee_extension_moment_peak_nm}. Who looks at the gait alone does not see what the "
        "limb feels.",
    ),
    ledger=Ledger(
        title="The same moment, from a lever and two forces (against the start)",
        rows=(
            Row(key="socket_extension_moment_peak_nm", gain=-1, why="what foot and floor ask"),
            Row(key="depth_mm", gain=1, why="the lever that the limb has to answer with"),
            Row(key="socket_couple_force_n", gain=-1, why="what each end of the lever must press"),
            Row(key="brim_force_peak_n", gain=-1, why="felt below the knee"),
            Row(key="limb_end_force_peak_n", gain=-1, why="felt at the end of the limb"),
        ),
        note="A shorter limb gains nothing here: what the lever lacks, the skin pays.",
    ),
    teacher=Teacher(
        equation=(
            "Couple force = moment / enclosed length. Brim force and end force: statics of the "
            "socket about the ends of the enclosed limb, at every instant; the largest is shown.",
        ),
        source=LEG_SOURCE,
        given=(
            "everyday.toml of the library's cases, an invented one, with residual_limb_mm from 80 "
            "to 160. The brim lies 20 mm below the knee.",
        ),
        left_out=(
            "Where the limb can bear pressure and where it cannot, how soft it is, and that a "
            "short limb also turns more in its socket. Two forces stand for pressures that are "
            "spread out.",
            *LEG_LEFT_OUT,
        ),
        next_question=(
            "Which setting of the foot would make the late moment itself smaller, and what would "
            "that cost? (The lessons heel-lever and toe-lever.)",
        ),
    ),
    numbers=limb_numbers,
    drawing="scene_legs.js",
    cautions=LEG_CAUTIONS,
    on_stance=True,
)
