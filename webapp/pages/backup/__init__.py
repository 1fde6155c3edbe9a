"""Everything as one file, back again, and a backup each day."""

from webapp.live.addresses import Address
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Backup", path=Address("/backup"), in_menu=False)
