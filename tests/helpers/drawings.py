"""Every drawing that a package defines, listed or not."""

import pkgutil
from importlib import import_module
from types import ModuleType

from framecalc.drawing.record import Drawing


def drawings_in(package: ModuleType) -> dict[str, object]:
    """The drawings that the modules of a package define, by name."""
    modules = [import_module(found.name) for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}.")]
    defined = [value for module in modules for value in vars(module).values() if isinstance(value, Drawing)]
    return {drawing.name: drawing for drawing in defined}
