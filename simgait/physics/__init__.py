"""The equations of the limb, the ground and the wearer, written once.

Everything here is in a small subset of Python (see DEVELOPERS.md): scalars and flat arrays in,
arrays filled in place, no classes, no allocation.  `simgait.engines` decides how it is run.

A quantity of a block of runs lies in a flat array as ``array[ROW * W + lane]``: `W` runs side by
side, so that a processor's vector unit takes several at once.  One run is a block with one lane
in use.
"""
