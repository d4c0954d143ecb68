"""The compiled engine: the gathered physics as one numba module, kept on disk between runs.

The module's file is named by a hash of the physics, of numba's version and of the processor, so a
change in any equation is a new file: numba's own cache would not see a change in a helper.
"""

from __future__ import annotations

import ast
import functools
import hashlib
import importlib.util
import os
import platform
import sys
import tempfile
import threading
from pathlib import Path
from types import ModuleType

from simgait.engines.source import gathered_source

HEADER = """import numba
from numba.core.compiler import Compiler


class _Apart(Compiler):  # no two arrays that a function is given overlap
    def __init__(self, typingctx, targetctx, library, args, return_type, flags, locals):
        flags.noalias = True
        super().__init__(typingctx, targetctx, library, args, return_type, flags, locals)


_options = dict(nogil=True, cache=True, error_model="numpy", pipeline_class=_Apart)
"""
# Functions in which a product and a sum may be rounded once instead of twice.  None of them adds
# two products, of which a compiler would take now one, now the other: a run's last digit would
# depend on its lane.
FUSED = frozenset(
    {
        *("half_sine", "half_cosine", "leaving_force"),
        *("smooth_step", "smoother_step", "element_base", "loss_share", "normal_force"),
        *(
            "lost_force",
            "sliding_on",
            "ahead_of",
            "depth_of",
            "sinking_of",
            "add_element",
            "press_sole",
            "advance",
        ),
    }
)
_ONE_AT_A_TIME = threading.Lock()  # who loads


def decorator_of(function: ast.FunctionDef) -> str:
    """Return how a function is compiled: within its callers, if it has no loop of its own.

    A call within a loop over the lanes would keep it from the vector unit.

    >>> decorator_of(ast.parse("def smooth_step(u): return u * u * (3.0 - 2.0 * u)").body[0])
    '@numba.njit(forceinline=True, fastmath={"contract"}, **_options)'
    """
    within = not any(isinstance(each, ast.For) for each in ast.walk(function))
    fused = '{"contract"}' if function.name in FUSED else "False"
    # both are said of every function: what is not said would be taken over from the caller
    return f"@numba.njit(forceinline={within}, fastmath={fused}, **_options)"


def cache_folder() -> Path:
    """Return the folder that keeps compiled code: SIMGAIT_CACHE, else the user's cache folder.

    A folder that cannot be written is replaced by one under the system's temporary folder.
    """
    chosen = os.environ.get("SIMGAIT_CACHE")
    home = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    folder = Path(chosen) if chosen else home / "simgait"
    try:
        folder.mkdir(parents=True, exist_ok=True)
        with tempfile.TemporaryFile(dir=folder):
            return folder
    except OSError:
        spare = Path(tempfile.gettempdir()) / f"simgait-{os.getuid()}"
        spare.mkdir(mode=0o700, exist_ok=True)
        return spare


def use_wide_vectors() -> None:
    """Let numba use 512-bit vectors where the processor has them; by itself LLVM keeps to 256.

    Nothing changes where numba has compiled before, or where the environment says what it may use.
    """
    from llvmlite import binding
    from numba.core import config

    features = binding.get_host_cpu_features()
    said = getattr(config, "CPU_NAME", None) or getattr(config, "CPU_FEATURES", None)
    if not said and features.get("avx512f"):
        setattr(config, "CPU_FEATURES", features.flatten() + ",-prefer-256-bit")  # noqa: B010


def kernel() -> ModuleType:
    """Return the compiled physics as a module; the first call of a function compiles it.

    One for all threads, also where several ask for it at once.
    """
    with _ONE_AT_A_TIME:
        return _loaded()


def is_loaded() -> bool:
    """Return whether this process has loaded the compiled physics."""
    return _loaded.cache_info().currsize > 0


@functools.cache
def _loaded() -> ModuleType:
    import numba

    use_wide_vectors()
    text = gathered_source(header=HEADER, decorator=decorator_of)
    mark = "|".join((text, numba.__version__, platform.processor(), platform.python_version()))
    name = "kernel_" + hashlib.sha256(mark.encode()).hexdigest()[:16]
    path = cache_folder() / f"{name}.py"
    if not path.exists():
        _write(path, text)
    spec = importlib.util.spec_from_file_location(name, path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module  # numba looks its modules up by name
    spec.loader.exec_module(module)
    return module


def _write(path: Path, text: str) -> None:
    handle, temporary = tempfile.mkstemp(dir=path.parent, suffix=".part")
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(text)
    os.replace(temporary, path)
