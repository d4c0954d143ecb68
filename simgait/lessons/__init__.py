"""Lessons for a classroom: one idea, one thing to move, one question, and what was paid.

Each lesson is a module of words and figures (`lever_first`, `ramp`, ...); its numbers come from
`machine_numbers`, `arm_numbers` or `leg_numbers`, which put an invented scene into the formulas of
the rooms below. `page` makes one self-contained file of a lesson.
"""
