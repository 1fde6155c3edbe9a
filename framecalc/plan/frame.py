"""One frame of the plan: each topic is computed on first use.

Plain numbers go to the topics; their records, findings and figures are collected here.
"""

from collections.abc import Callable, Iterable
from contextlib import suppress
from copy import copy
from functools import cache, cached_property

from framecalc.artwork.findings import artwork_findings
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
from framecalc.errors import FrameCalcError
from framecalc.findings import Finding, Rounding
from framecalc.geometry.quadrilateral import rectangle, scaled
from framecalc.mats.mat import Mat
from framecalc.measures import written_measures
from framecalc.package.layers import Stack, package_findings
from framecalc.package.seat import Cover, Seat, cover, rabbet_findings, seat
from framecalc.plan.advice import Advice, advise, field_of_argument, sentence_of
from framecalc.plan.corners.corners import CornerPlan
from framecalc.plan.figures import Figure, write_figures
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
    unplanned_layers,
    wish_of,
)
from framecalc.plan.lengths import lengths_of
from framecalc.plan.light import Concern, Stage, concerns_of, refusal_of_frame, stops_of, takes_part
from framecalc.plan.package.package import PackagePlan
from framecalc.project import Frame, Layer, Project, project_with
from framecalc.section.findings import section_findings
from framecalc.section.milling import MillingOrder, milling_order
from framecalc.section.profile import FaceShape
from framecalc.section.rabbeted import Section
from framecalc.section.tray import TraySection, tray_section_findings
from framecalc.section.typed_points import ProfilePoint
from framecalc.sizes.chain import Sizes, fit_to_the_tape, known_outside_findings, sizes_findings
from framecalc.sizes.members import Member, members_of
from framecalc.sizes.shape import Shape
from framecalc.sizes.starting_points import SolvedChain, settle
from framecalc.sizes.tray_sizes import TraySizes, tray_around, tray_findings
from framecalc.tables.wood import Species
from framecalc.units import Step, Unit, describe_length, format_length
from framecalc.wood.naming import naming_findings, species_of
from framecalc.words import joined, say


class FramePlan:
    """Everything computed from one frame of a project."""

    def __init__(self, project: Project, frame: Frame) -> None:
        self.project = project
        self.frame = frame

    def is_for(self, project: Project, frame: Frame) -> bool:
        """Whether a project holds the same input objects as this plan, identical and not just equal."""
        ours = self.project
        return frame is self.frame and project.shop is ours.shop and project.unit is ours.unit

    def within(self, project: Project) -> "FramePlan":
        """The same plan in a project that differs elsewhere, with everything computed so far."""
        plan = copy(self)
        plan.project = project
        vars(plan).pop("unconfirmed", None)
        return plan

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

    @property
    def layers(self) -> tuple[Layer, ...]:
        """The layers that are planned, as typed, from the lip to the back."""
        return layers_of(self.frame)

    @property
    def unplanned_layers(self) -> tuple[Layer, ...]:
        """The layers that are kept as typed and not planned: mat boards without a mat, a pane in a tray."""
        return unplanned_layers(self.frame)

    @property
    def blank_width_mm(self) -> float:
        """The width of the blank that a member is milled from."""
        return blank_width_mm(self.frame, face_width_mm=self.settled.face_width_mm)

    @cached_property
    def measurements(self) -> Measurements:
        """The tape measurements of the artwork."""
        return measurements_of(self.frame)

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

    @cached_property
    def corners(self) -> CornerPlan:
        """The plan of the corners: settings, test cuts, closing, joint, seasons."""
        return CornerPlan(
            self.frame.corner,
            self.sizes,
            self.section,
            self.members,
            strap=self.project.shop.strap,
            species=self.wood,
        )

    @cached_property
    def package(self) -> PackagePlan:
        """The plan of the package: mats, weight, gap, growth, retainers, canvas, box."""
        return PackagePlan(
            self.frame,
            settled=self.settled,
            section=self.section,
            stack=self.stack,
            seat=self.seat,
            cover=self.cover,
            step=self.step,
        )

    @cached_property
    def figures(self) -> dict[str, Figure]:
        """Every size that the product shows, written once."""
        return write_figures(self._lengths, step=self.step, is_tray=self.is_tray)

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings of the topics."""
        return tuple(self._findings())

    @cached_property
    def advice(self) -> tuple[Advice, ...]:
        """The findings in words, the worst first, with ways out that make no new stop."""
        return self.advise(self.findings)

    @cached_property
    def concerns(self) -> tuple[Concern, ...]:
        """Everything found or refused on any page of the frame, each at its stage."""
        return self._in_the_way(concerns_of)

    @cached_property
    def unconfirmed(self) -> tuple[str, ...]:
        """Paths of assumed values that take part and that nobody has confirmed."""
        return tuple(path for path in self.project.assumed if path not in self._solved and self._is_used(path))

    def advise(self, findings: Iterable[Finding]) -> tuple[Advice, ...]:
        """Findings in this project's words and unit, the worst first, with ways out that make no new stop."""
        return advise(
            findings, step=self.step, words=self.project.shop.words, path_of=self.path_of, holds=cache(self._holds)
        )

    @property
    def is_ready(self) -> bool:
        """Ready to cut: no stop before cutting, nothing refused at any stage, and nothing that counts only assumed."""
        stands = (concern.stage is Stage.CUTTING or concern.is_refusal for concern in self._stopping)
        return not any(stands) and not self.unconfirmed

    @cached_property
    def stops(self) -> frozenset[str]:
        """The codes of what stops the work at any stage."""
        return frozenset(concern.code for concern in self._stopping)

    def field_of(self, concern: Concern) -> str:
        """The path of the field that a concern is about; nothing where it is about none."""
        field = concern.field
        return field if field.startswith("frames.") else self.path_of(field)

    def sentence_of(self, concern: Concern) -> str:
        """What was found or refused, in this project's words and unit."""
        said = concern.said
        if isinstance(said, FrameCalcError):
            return self._worded(said).sentence
        return sentence_of(said, step=self.step, words=self.project.shop.words)

    def path_of(self, argument: str) -> str:
        """The path of the field that an argument of a topic stands for."""
        field = field_of_argument(argument)
        return field if not field or field.startswith("shop.") else f"frames.{self.frame.id}.{field}"

    def said(self, length_mm: float) -> str:
        """A length to the nearest step, without its unit."""
        return format_length(length_mm, step=self.step, rounding=Rounding.NEAREST).text

    def compute_all(self) -> None:
        """Compute everything that the drawings show, so that an impossible size raises now.

        Raises:
            FrameCalcError: with the path of the field at fault in `field`.
        """
        try:
            _ = self.figures, self.findings, self.members
        except FrameCalcError as error:
            raise self._worded(error) from error

    @property
    def _is_square(self) -> bool:
        """Whether the package is cut square: a mat, or an artwork yet to be made for the opening."""
        return self.mat is not None or self.frame.start.given == "wall"

    def _worded(self, error: FrameCalcError) -> FrameCalcError:
        """A topic's error in this project's unit and words, with the path of the field at fault."""
        lengths = {name: describe_length(length_mm, unit=self.unit) for name, length_mm in error.lengths.items()}
        lengths |= written_measures(error.measures, self.unit)
        sentence = error.wording.format_map(lengths) if lengths else error.sentence
        return type(error)(say(sentence, self.project.shop.words), field=self.path_of(error.field))

    @cached_property
    def _lengths(self) -> tuple[tuple[str, float], ...]:
        """Every size shown to anybody, by the name of its figure."""
        return tuple(lengths_of(self))

    def _findings(self) -> Iterable[Finding]:
        known = self.frame.known
        if self.tray:
            yield from tray_findings(self.tray)
        else:
            usual_mm = sum(allowance.amount_mm for allowance in self.usual_clearance)
            yield from sizes_findings(self.sizes, usual_clearance_mm=usual_mm)
        yield from artwork_findings(
            self.measurements,
            self.fit,
            self.play,
            clearance_across_mm=self.sizes.clearance_across_mm,
            clearance_up_mm=self.sizes.clearance_up_mm,
            is_tray=self.is_tray,
        )
        yield from self.package.mat_findings
        yield from self.package.image_findings
        yield from package_findings(self.stack, self.frame.artwork.kind)
        yield from self.package.gap_findings
        if isinstance(self.section, Section):
            yield from section_findings(self.section)
        else:
            yield from tray_section_findings(self.section)
        yield from rabbet_findings(self.seat, self.cover, kind=self.frame.artwork.kind, held_by=self.package.retainer)
        yield from naming_findings(self.frame.species, reckoned_as=self.frame.reckoned_as)
        yield from known_outside_findings(
            self.sizes,
            known_across_mm=known.outside_across.mm if known.outside_across else None,
            known_up_mm=known.outside_up.mm if known.outside_up else None,
            step_mm=float(self.step.size_mm),
        )

    def _holds(self, path: str, text: str) -> bool:
        """Whether a text at a path can be had, and gives a plan without a stop that is not there already."""
        if self.is_bought and path.startswith(f"frames.{self.frame.id}.section."):
            return False
        try:
            project = project_with(self.project, {path: text})
            return FramePlan(project, project.frame(self.frame.id) or self.frame).stops <= self.stops
        except FrameCalcError:
            return False

    def _is_used(self, path: str) -> bool:
        """Whether an assumed value belongs to this frame and takes part in it."""
        here = f"frames.{self.frame.id}."
        return not path.startswith("frames.") or (
            path.startswith(here) and takes_part(self.frame, path.removeprefix(here))
        )

    @cached_property
    def _solved(self) -> frozenset[str]:
        """Paths of what the starting point solves; none where it cannot."""
        with suppress(FrameCalcError):
            return frozenset(map(self.path_of, self.settled.solved))
        return frozenset()

    @cached_property
    def _stopping(self) -> tuple[Concern, ...]:
        return self._in_the_way(stops_of)

    def _in_the_way(self, find: Callable[..., Iterable[Concern]]) -> tuple[Concern, ...]:
        """What is found on all pages; the refusal alone where nothing can be worked out."""
        try:
            _ = self._lengths, self.findings, self.members
        except FrameCalcError as error:
            return (refusal_of_frame(self._worded(error)),)
        return tuple(find(self.findings, corners=self.corners, package=self.package))
