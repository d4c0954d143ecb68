"""The page of an arm."""
import sys
from simgait.page.arm_data import arm_data
MODEL_SCRIPTS = ("arm_curve.js", "arm_lift.js", "arm_lengths.js", "arm_model.js")
def arm_formulas():
    sys.path.insert(0, "/tmp/wA_base")
    import stub
    return stub.main()
