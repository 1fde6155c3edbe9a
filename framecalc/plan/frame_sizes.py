"""The sizes of one frame: artwork, size chain, section, package in the depth, members; each computed on first use."""

from contextlib import suppress

from framecalc.artwork.measuring import (
    Allowance,
    ArtworkFit,
    Measurements,
    Play,
    fit_artwork,
    lapped_size,
    play,
    usual_clearance,
)
from framecalc.artwork.photo_sizes import PhotoSizes
from framecalc.bench.rabbet_ways import RabbetWay
from framecalc.errors import FrameCalcError
from framecalc.geometry.quadrilateral import rectangle, scaled
from framecalc.mats.mat import Mat
from framecalc.package.layers import Stack
from framecalc.package.seat import Cover, Seat, cover, seat
from framecalc.plan.inputs import (
    blank_width_mm,
    depth_for_package_mm,
    has_loose_ledge,
    is_bought,
    is_tray,
    layers_of,
    mat_of,
    measurements_of,
    rabbet_width_mm,
    section_of,
    stack_of,
    wish_of,
)
from framecalc.plan.sizing import sizes_by_photo
from framecalc.project import Frame, Layer, Project
from framecalc.records import cached_property
from framecalc.section.milling import MillingOrder, milling_order
from framecalc.section.profile import FaceShape
from framecalc.section.rabbeted import Section
from framecalc.section.tray import TraySection
from framecalc.section.typed_points import ProfilePoint
from framecalc.sizes.chain import Sizes, fit_to_the_tape
from framecalc.sizes.members import Member, members_of
from framecalc.sizes.shape import Shape
from framecalc.sizes.starting_points import SolvedChain, settle
from framecalc.sizes.tray_sizes import TraySizes, tray_around
from framecalc.tables.wood import Species
from framecalc.units import TOLERANCE_MM, Step, Unit
from framecalc.wood.naming import species_of
from framecalc.words import joined


class FrameSizes:
    """What the sizes of one frame come to."""

    def __init__(self, project: Project, frame: Frame) -> None:
        self.project = project
        self.frame = frame

    @property
    def unit(self) -> Unit:
        """The project's unit."""
        return self.project.unit

    @property
    def step(self) -> Step:
        """The step that this project's lengths are rounded to."""
        return self.project.shop.step(self.project.unit)

    @property
    def is_tray(self) -> bool:
        """Whether the section is a tray: nothing laps over the artwork."""
        return is_tray(self.frame)

    @property
    def is_bought(self) -> bool:
        """Whether the section is a bought moulding."""
        return is_bought(self.frame)

    @property
    def bought_as(self) -> str:
        """What a bought moulding is called on drawings; blank for a section that is milled here."""
        name = self.frame.section.moulding.name
        return joined(" ", filter(None, ("moulding", name))) if self.is_bought else ""

    @property
    def has_loose_ledge(self) -> bool:
        """Whether the ledge of a tray is a strip of its own."""
        return has_loose_ledge(self.frame)

    @cached_property
    def layers(self) -> tuple[Layer, ...]:
        """The layers that are planned, as typed, from the lip to the back."""
        return layers_of(self.frame)

    @property
    def has_strip(self) -> bool:
        """Whether the rabbet is built up, with a strip behind the face."""
        is_built_up = self.project.bench.rabbet_way is RabbetWay.STRIP and not self.project.timber.milled
        has_face = self.frame.section.thickness.mm - self.frame.section.rabbet_depth.mm > TOLERANCE_MM
        return is_built_up and has_face and not self.is_tray and not self.is_bought

    @property
    def blank_thickness_mm(self) -> float:
        """The thickness of the blank that a member is milled from."""
        section = self.frame.section
        return section.thickness.mm - (section.rabbet_depth.mm if self.has_strip else 0.0)

    @property
    def strip_mm(self) -> tuple[float, float]:
        """The width and the thickness of the strip that makes a built-up rabbet."""
        section = self.frame.section
        return self.settled.face_width_mm - section.rabbet_width.mm, section.rabbet_depth.mm

    @property
    def blank_width_mm(self) -> float:
        """The width of the blank that a member is milled from."""
        return blank_width_mm(self.frame, face_width_mm=self.settled.face_width_mm)

    @cached_property
    def measurements(self) -> Measurements:
        """The tape measurements of the artwork."""
        return measurements_of(self.frame)

    @cached_property
    def by_photo(self) -> PhotoSizes | None:
        """The sizes of the artwork out of a photo; none where there is no photo, or it tells nothing."""
        with suppress(FrameCalcError):
            return sizes_by_photo(self.frame)
        return None

    @cached_property
    def fit(self) -> ArtworkFit:
        """The quadrilateral that agrees best with the measurements."""
        return fit_artwork(self.measurements)

    @cached_property
    def settled(self) -> SolvedChain:
        """The size chain, solved from the starting point chosen."""
        return settle(
            wish_of(
                self.frame,
                self.project.shop,
                artwork_across_mm=self.fit.across_mm,
                artwork_up_mm=self.fit.up_mm,
                lapped=lapped_size(self.fit) if mat_of(self.frame) else None,
            )
        )

    @property
    def shape(self) -> Shape:
        """The shape of the frame."""
        return self.sizes.shape

    @property
    def sizes(self) -> Sizes:
        """Package, rabbet size, sight size, outside size. In a tray rabbet size and sight size are the inside."""
        return self.settled.sizes

    @cached_property
    def tray(self) -> TraySizes | None:
        """The sizes of a tray; None for a rabbet."""
        if not self.is_tray:
            return None
        gap_mm = min(self.sizes.clearance_across_mm, self.sizes.clearance_up_mm) / 2
        return tray_around(
            artwork_across_mm=self.sizes.rabbet_across_mm - 2 * gap_mm,
            artwork_up_mm=self.sizes.rabbet_up_mm - 2 * gap_mm,
            gap_mm=gap_mm,
            wall_mm=self.settled.face_width_mm,
            ledge_width_mm=self.frame.section.ledge_width.mm,
        )

    @cached_property
    def tape_fit(self) -> Sizes:
        """The frame in whole steps, the difference taken up by the clearance: an offer, not applied."""
        return fit_to_the_tape(self.sizes, step_mm=float(self.step.size_mm))

    @cached_property
    def usual_clearance(self) -> tuple[Allowance, ...]:
        """What this kind of artwork usually gets, item by item; the sum is the usual clearance in each direction."""
        return usual_clearance(
            self.frame.artwork.kind, across_mm=self.sizes.package_across_mm, up_mm=self.sizes.package_up_mm
        )

    @property
    def mat(self) -> Mat | None:
        """The mat, if there is one."""
        return self.settled.mat

    @cached_property
    def play(self) -> Play:
        """The play of the crooked artwork in the opening. A mat is cut square."""
        sizes = self.sizes
        if self._is_square:
            corners = rectangle(across_mm=sizes.package_across_mm, up_mm=sizes.package_up_mm)
        else:
            corners = scaled(self.fit.corners, by_ratio=self.settled.picture_ratio)
        return play(corners, rabbet_across_mm=sizes.rabbet_across_mm, rabbet_up_mm=sizes.rabbet_up_mm)

    @cached_property
    def section(self) -> Section | TraySection:
        """The member's section, milled."""
        return section_of(self.frame, face_width_mm=self.settled.face_width_mm)

    @property
    def profile_points(self) -> tuple[ProfilePoint, ...]:
        """The typed points that the face runs through; none of any other face."""
        section = self.section
        return section.points if isinstance(section, Section) and section.face is FaceShape.POINTS else ()

    @cached_property
    def milling_order(self) -> MillingOrder | None:
        """The milling order and its reason; None for a tray, which has no rabbet, and for a bought moulding."""
        section = self.section
        return milling_order(section) if isinstance(section, Section) and not self.is_bought else None

    @cached_property
    def stack(self) -> Stack:
        """The layers of the package, from the glazing to the back."""
        return stack_of(self.frame)

    @cached_property
    def seat(self) -> Seat:
        """How the package sits in the depth: the room behind it, or how far it is proud."""
        return seat(self.stack, rabbet_depth_mm=depth_for_package_mm(self.frame))

    @cached_property
    def cover(self) -> Cover | None:
        """The cover of the lip over the package; a tray has none. A mat is cut square."""
        if self.is_tray:
            return None
        crooked_ratio = 0.0 if self._is_square else self.settled.picture_ratio
        return cover(
            rabbet_width_mm=rabbet_width_mm(self.frame),
            clearance_across_mm=self.sizes.clearance_across_mm,
            clearance_up_mm=self.sizes.clearance_up_mm,
            package_across_mm=self.sizes.package_across_mm,
            package_up_mm=self.sizes.package_up_mm,
            taper_across_mm=(self.fit.across_mm - self.fit.least_across_mm) * crooked_ratio,
            taper_up_mm=(self.fit.up_mm - self.fit.least_up_mm) * crooked_ratio,
            shape=self.sizes.shape,
        )

    @cached_property
    def members(self) -> tuple[Member, ...]:
        """The sides that are cut alike: top and bottom, left and right; of a polygon all."""
        return members_of(self.sizes)

    @cached_property
    def wood(self) -> Species | None:
        """The wood of the members as the table knows it; None where its name fits several or none."""
        return species_of(self.frame.species, reckoned_as=self.frame.reckoned_as)

    @property
    def _is_square(self) -> bool:
        """Whether the package is cut square: a mat, or an artwork yet to be made for the opening."""
        return self.mat is not None or self.frame.start.given == "wall"
