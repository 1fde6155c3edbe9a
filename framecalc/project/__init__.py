"""The project: the one model of the input, used as file and as form.

A *project* is the typed input, checked: names, a unit, the shop values at its start, and its frames. Lengths keep their
text; nothing computed is in it. A *path* names one value: `frames.k3f.section.face_width`; items of a list are
named by their `id`, never by their place. `assumed` lists the paths whose values nobody has measured or chosen yet.
A *document* is a project as plain JSON values, before it is checked: `document` has its type, `paths` reads and changes
it.

A field is stated once: type and range (`fields`, `numbers`), and beside them its `label`. From that, `form` derives the
fields of pages and revision list, `reading` the JSON Schema, `usual_values` a new project.
"""

from framecalc.project.artwork import Artwork
from framecalc.project.changing import project_with, read_like
from framecalc.project.frame import Frame, KnownSizes, Start
from framecalc.project.look import Look, Photo
from framecalc.project.model import Project, Saved, ShopValues
from framecalc.project.package import Fitting, Layer, Mat, Package, Picture
from framecalc.project.paths import (
    items_at,
    items_of,
    part_of,
    remove_item,
    set_value,
    text_at,
    texts_at,
    value_at,
    with_value,
)
from framecalc.project.price import Item, Quote, Terms
from framecalc.project.reading import (
    ProjectErrors,
    on_lines,
    parse_project,
    project_document,
    project_schema,
    project_text,
    read_project,
    sentences_of,
)
from framecalc.project.section import Edge, Section
from framecalc.project.steps import SCHEMA

__all__ = [
    "SCHEMA",
    "Artwork",
    "Edge",
    "Fitting",
    "Frame",
    "Item",
    "KnownSizes",
    "Layer",
    "Look",
    "Mat",
    "Package",
    "Photo",
    "Picture",
    "Project",
    "ProjectErrors",
    "Quote",
    "Saved",
    "Section",
    "ShopValues",
    "Start",
    "Terms",
    "items_at",
    "items_of",
    "on_lines",
    "parse_project",
    "part_of",
    "project_document",
    "project_schema",
    "project_text",
    "project_with",
    "read_like",
    "read_project",
    "remove_item",
    "sentences_of",
    "set_value",
    "text_at",
    "texts_at",
    "value_at",
    "with_value",
]
