"""Pages: one self-contained HTML file each, which runs the real model in the browser.

`shell` makes the file; hand-written scripts and styles lie in `assets`; every page has a module.
"""
