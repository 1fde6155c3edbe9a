"""Addresses that more than one page uses. Each is stated once, for its route and for every link."""


class Address(str):
    """The pattern of an address, as its route states it. Call it with the parameters to get the address.

    >>> Address("/projects/{project_id}")(project_id="k3fw07qz")
    '/projects/k3fw07qz'
    """

    __slots__ = ()

    def __call__(self, **holes: object) -> str:
        return self.format(**holes)

    def __add__(self, more: str) -> "Address":
        return Address(f"{self!s}{more}")


PROJECTS = Address("/projects")
PROJECT = PROJECTS + "/{project_id}"
FRAME = PROJECT + "/frames/{frame_id}"
CLIENT_VIEW = Address("/view/{secret}")

WAY_STEP = PROJECT + "/way/{step}"
SETTING_OUT = FRAME + "/setting-out"
PACKAGE = FRAME + "/package"
CORNERS = FRAME + "/corners"
WOODS = FRAME + "/woods"
WALL = FRAME + "/wall"
HAND_OVER = FRAME + "/hand-over"
LOOK = FRAME + "/look"
SIZING = FRAME + "/sizes-from-a-photograph"
SIZING_CLOSE = SIZING + "/close/{mark}"
SIZING_SHEET = SIZING + "/sheet.pdf"
TIMBER = PROJECT + "/timber"
IN_HAND = TIMBER + "/reach"
SHEETS = PROJECT + "/sheets"
TEMPLATES = PROJECT + "/templates"
BENCH = PROJECT + "/bench"
TIMETABLE = BENCH + "/glue-up-timetable"
FINISH = BENCH + "/finish"
RESCUE = BENCH + "/rescue"
BENCH_CARD = BENCH + "/{card}"
BENCH_SETTING = BENCH_CARD + "/{number}"
COSTS = PROJECT + "/costs"
QUOTE = PROJECT + "/quote"
CLIENT = PROJECT + "/client"
CHOICES = CLIENT + "/choices"
SHARES = PROJECT + "/shares"
SHARE = SHARES + "/{share_id}"
LEAVES = PROJECT + "/leaves.zip"
REVISIONS = PROJECT + "/revisions"
NEWEST = PROJECT + "/newest"
RACK = Address("/rack")
SHOP = Address("/shop")
PRINTER_CHECK = SHOP + "/printer-check.pdf"
LOGO = SHOP + "/logo"
KERF_STRIP = SHOP + "/kerf-strip"

DRAWING = FRAME + "/drawings/{name}"
DRAWING_FILE = DRAWING + ".svg"
PHOTO = PROJECT + "/photos/{photo_id}.jpg"
STRAIGHT_PHOTO = PROJECT + "/photos/{photo_id}/straight.jpg"
PHOTO_PART = PROJECT + "/photos/{photo_id}/part.jpg"
PHOTO_TO = FRAME + "/photo"
SHEET_PHOTO_TO = PHOTO_TO + "/sheet"
CUT = TIMBER + "/cut/{key}"
CUT_RECORD = RACK + "/cuts/{cut_id}"


def mat_templates_at(project_id: str, frame_id: str) -> str:
    """Where the templates of a frame's mats stand."""
    return f"{TEMPLATES(project_id=project_id)}?step=Mats&frame={frame_id}"
