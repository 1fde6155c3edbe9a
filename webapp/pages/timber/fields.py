"""The fields of the timber page: the saw, the wishes, and each stick and board."""

from framecalc.project import items_at
from framecalc.project.document import Document
from framecalc.project.form import fields_under
from webapp.live.typed.field import FieldSet

WISHES = (
    "{grain,corner,milled,turned,spares,tests,test_length,shortest_useful,edge,width_allowance,thickness_allowance}",
    "{clean_up,sanding,part_trim,planer_pass,shortest_machined}",
)
OF_A_STICK = "{name,species,moulding,length,member_width,thickness,count,price,in_hand}"
OF_A_BOARD = "{name,species,length,width,thickness,count,price,priced_by,in_hand,bow,twist}"


def timber_fields_in(document: Document, frame_id: str) -> FieldSet:
    """The fields of the timber page, for all frames."""
    paths = ["shop.{kerf,end_trim}", *(f"timber.{path}" for path in WISHES)]
    for entry in items_at(document, "timber.stock"):
        here = f"timber.stock.{entry['id']}"
        paths += [f"{here}.{OF_A_STICK if entry.get('width') is None else OF_A_BOARD}", f"{here}.defects"]
    return FieldSet(fields=fields_under(document, *paths, page="timber"))
