"""The package of a frame: layers, mat, weight, growth, retainers, the fitting card."""

from webapp.live.addresses import PACKAGE
from webapp.live.page import Page

PAGE = Page(folder=__name__, title="Package", path=PACKAGE)
