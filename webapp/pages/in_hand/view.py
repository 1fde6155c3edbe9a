"""A stick or board in hand: which frames it can make, and how wide the members of a job could be."""

from fastapi import APIRouter

from webapp.live.live_page import ProjectPage
from webapp.pages.in_hand import PAGE
from webapp.pages.in_hand.fields import in_hand_fields_in
from webapp.pages.in_hand.from_rack import take_in_hand
from webapp.pages.in_hand.shown import in_hand_shown

router = APIRouter()


VIEW = ProjectPage(
    page=PAGE,
    fields=in_hand_fields_in,
    act=take_in_hand,
    shows=in_hand_shown,
    router=router,
)
