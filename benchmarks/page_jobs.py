"""The work of the page's jobs: a page of a case, open in headless Chromium."""

import atexit
import functools
import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from stance_jobs import ROOT

sys.path.insert(0, str(ROOT / "tests" / "support"))

DRAGS, FRAMES = 100, 120
UNPACED = ("--disable-frame-rate-limit", "--disable-gpu-vsync")  # a frame as soon as it is drawn
# Moves the pointer once, and waits until what follows from it is on the screen.
DRAG = """(drags) => new Promise((done) => {
  const handle = document.querySelector(".walking-only .handle");
  const box = handle.getBoundingClientRect();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const tell = (kind, step) => handle.dispatchEvent(new PointerEvent(kind, {
    pointerId: 1, button: 0, bubbles: true, clientX: x + step, clientY: y }));
  const drawn = (next) => requestAnimationFrame(() => {
    const channel = new MessageChannel();
    channel.port1.onmessage = next;
    channel.port2.postMessage(0);
  });
  handle.setPointerCapture = () => {};
  const seen = new Set();
  tell("pointerdown", 0);
  const move = (k) => {
    seen.add(handle.getAttribute("aria-valuenow"));
    if (k === drags) { tell("pointermove", 0); tell("pointerup", 0); done(seen.size); return; }
    tell("pointermove", 2 * (k % 20) - 20);
    drawn(() => move(k + 1));
  };
  move(0);
})"""
PLAY = """(frames) => new Promise((done) => {
  document.querySelector(".transport-play").click();
  const foot = document.querySelector(".walking-only .limb-now .limb-foot");
  const seen = new Set();
  const next = (k) => {
    seen.add(foot.getAttribute("d"));
    if (k === frames) {
      document.querySelector(".transport-play").click();
      done(seen.size);
      return;
    }
    requestAnimationFrame(() => next(k + 1));
  };
  next(0);
})"""


@functools.cache
def _awake(paced: bool) -> Any:
    """Return the open page of the everyday case; paced: by the screen, or by the work alone."""
    from playwright.sync_api import sync_playwright

    from browser import ARGUMENTS, chromium
    from limb_pages import written_page
    from simgait.library import models_folder

    room = tempfile.TemporaryDirectory()
    play = _playwright(sync_playwright)
    arguments = [*ARGUMENTS, *(() if paced else UNPACED)]
    browser = play.chromium.launch(executable_path=chromium(), args=arguments)
    atexit.register(room.cleanup)
    page = browser.new_page(viewport={"width": 1280, "height": 800})
    case = models_folder() / "cases" / "everyday.toml"
    page.goto(written_page(case, Path(room.name)).as_uri() + "#at_percent=0")
    page.locator(".choice label", has_text="1/10").click()
    page.wait_for_timeout(500)
    return page


@functools.cache
def _playwright(start: Any) -> Any:
    play = start().start()
    atexit.register(play.stop)
    return play


def page_drag() -> Mapping[str, int]:
    """Drag the foot; each move is simulated and drawn before the next one."""
    settings = _awake(False).evaluate(DRAG, DRAGS)
    return {"drags": DRAGS, "settings": settings}


def page_play() -> Mapping[str, int]:
    """Let the stance play for some frames, as the browser paces them."""
    page = _awake(True)
    page.get_by_label("Instant of the stance, per cent").fill("5")
    poses = page.evaluate(PLAY, FRAMES)
    return {"frames": FRAMES, "nearly_all_differ": int(poses >= FRAMES * 0.9)}
