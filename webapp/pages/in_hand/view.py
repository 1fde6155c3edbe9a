"""A stick or board in hand: which frames it can make, and how wide the members of a job could be."""

from fastapi import APIRouter

from webapp.live.addresses import IN_HAND
from webapp.live.live import ProjectPage
from webapp.pages.in_hand.fields import in_hand_fields_in
from webapp.pages.in_hand.from_rack import take_in_hand
from webapp.pages.in_hand.shown import in_hand_shown

router = APIRouter()


PAGE = ProjectPage(
    name="in_hand",
    title="What will this board make?",
    path=IN_HAND,
    fields=in_hand_fields_in,
    act=take_in_hand,
    shows=in_hand_shown,
    in_menu=False,
    under="timber",
    router=router,
)
