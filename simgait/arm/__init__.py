"""Arms as levers: where the cable pulls, and how long the arm is.

Planar, in the plane in which the elbow bends.  Every angle may be an array, and so may every
length: what is given for many loop positions at once comes back for all of them.
"""
