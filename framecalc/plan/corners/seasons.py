"""The wood of one frame through the year: how far its mitres open, and what would reduce it."""

from framecalc.errors import OutOfRange
from framecalc.findings import Finding
from framecalc.project.corners import Seasons
from framecalc.records import Record, cached_property
from framecalc.tables.wood import Species, wood_species
from framecalc.wood.moisture import (
    MeterReading,
    equilibrium_pct,
    meter_findings,
    read_meter,
    unmetered_findings,
    warmed_humidity_pct,
)
from framecalc.wood.movement import Coefficients, coefficient_per_pct, coefficients_of, movement_findings
from framecalc.wood.seasons import MONTHS, Air, Levers, Year, find_levers, mitre_gap_mm, through_the_year, two_seasons


class WoodInRoom(Record):
    """A wood of the table in this room: how it moves, and how far the frame's mitres would open in it at worst."""

    species: Species
    coefficients: Coefficients
    flat_sawn_mm: float
    quarter_sawn_mm: float


class SeasonsPlan:
    """The plan of the wood in the air of the room."""

    def __init__(
        self,
        seasons: Seasons,
        *,
        species: Species | None,
        face_width_mm: float,
        gap_mm: float,
        spline_depth_mm: float,
        sides: int,
        is_jointed: bool,
    ) -> None:
        self._seasons = seasons
        self.species = species
        self._face_width_mm = face_width_mm
        self._gap_mm = gap_mm
        self._spline_depth_mm = spline_depth_mm
        self._sides = sides
        self._is_jointed = is_jointed

    @property
    def spline_depth_mm(self) -> float:
        """The depth of the spline counted as a lever; 0 for none [mm]."""
        return self._spline_depth_mm

    @cached_property
    def coefficients(self) -> Coefficients | None:
        """The movement of that wood per per cent of moisture."""
        return coefficients_of(self.species) if self.species else None

    @property
    def is_metered(self) -> bool:
        """Whether the wood's moisture was measured."""
        return self._seasons.moisture is not None

    @cached_property
    def assembled_pct(self) -> float:
        """The moisture content at glue-up: by meter, else what the year's middle air would bring it to."""
        seasons = self._seasons
        if seasons.moisture is not None:
            return float(seasons.moisture)
        dry_pct, moist_pct = (
            equilibrium_pct(air.temperature_c, humidity_pct=air.humidity_pct) for air in seasons_of(self._seasons)
        )
        return (dry_pct + moist_pct) / 2

    @cached_property
    def year(self) -> Year | None:
        """How far the mitres open month by month if nothing held them: an upper bound."""
        if self.coefficients is None:
            return None
        return through_the_year(
            self._face_width_mm,
            coefficient_per_pct=coefficient_per_pct(self.coefficients, ring_deg=self._ring_deg),
            assembled_pct=self.assembled_pct,
            air=self.air,
            sides=self._sides,
        )

    @cached_property
    def woods(self) -> tuple[WoodInRoom, ...]:
        """Every wood of the table in this room, the one that opens least first."""
        moistures_pct = [equilibrium_pct(air.temperature_c, humidity_pct=air.humidity_pct) for air in self.air]
        change_pct = max((moisture_pct - self.assembled_pct for moisture_pct in moistures_pct), key=abs)
        found = (self._in_this_room(species, change_pct) for species in wood_species())
        return tuple(sorted(found, key=lambda wood: wood.flat_sawn_mm))

    @cached_property
    def levers(self) -> Levers | None:
        """The changes that would reduce the worst gap of the year."""
        if self.year is None or self.coefficients is None:
            return None
        return find_levers(
            self.year,
            face_width_mm=self._face_width_mm,
            coefficients=self.coefficients,
            ring_deg=self._ring_deg,
            gap_mm=self._gap_mm,
            spline_depth_mm=self._spline_depth_mm,
            sides=self._sides,
        )

    @cached_property
    def air(self) -> tuple[Air, ...]:
        """The air of twelve months.

        Raises:
            OutOfRange: the typed text is not twelve humidities.
        """
        return air_of(self._seasons)

    @cached_property
    def meter(self) -> MeterReading | None:
        """The meter's reading against the room as it is now, when both are typed."""
        seasons = self._seasons
        if seasons.moisture is None or seasons.room_temperature is None or seasons.room_humidity is None:
            return None
        return read_meter(
            float(seasons.moisture),
            temperature_c=float(seasons.room_temperature),
            humidity_pct=float(seasons.room_humidity),
        )

    @cached_property
    def warmed_pct(self) -> float | None:
        """The humidity of outdoor air once it is warmed to the room of the driest month, when it is typed."""
        seasons = self._seasons
        if seasons.outdoor_temperature is None or seasons.outdoor_humidity is None:
            return None
        return warmed_humidity_pct(
            outdoor_c=float(seasons.outdoor_temperature),
            outdoor_humidity_pct=float(seasons.outdoor_humidity),
            indoor_c=float(seasons.winter_temperature),
        )

    @cached_property
    def findings(self) -> tuple[Finding, ...]:
        """The findings about the year."""
        _ = self.air
        found = meter_findings(self.meter) if self.meter else ()
        if self.coefficients is None or self.year is None:
            return found
        if self._is_jointed and not self.is_metered:
            found = unmetered_findings(self.assembled_pct)
        moistures = [month.moisture_pct for month in self.year.months]
        return (*found, *movement_findings(self.coefficients, least_pct=min(moistures), most_pct=max(moistures)))

    def _in_this_room(self, species: Species, change_pct: float) -> WoodInRoom:
        coefficients = coefficients_of(species)
        flat_mm, quarter_mm = (
            mitre_gap_mm(self._face_width_mm, coefficient_per_pct=per_pct, change_pct=change_pct, sides=self._sides)
            for per_pct in (coefficients.tangential_per_pct, coefficients.radial_per_pct)
        )
        return WoodInRoom(species=species, coefficients=coefficients, flat_sawn_mm=flat_mm, quarter_sawn_mm=quarter_mm)

    @property
    def _ring_deg(self) -> float:
        return float(self._seasons.ring)


def seasons_of(seasons: Seasons) -> tuple[Air, Air]:
    """The air of the driest month and of the dampest one, as typed."""
    return (
        Air(temperature_c=float(seasons.winter_temperature), humidity_pct=float(seasons.winter_humidity)),
        Air(temperature_c=float(seasons.summer_temperature), humidity_pct=float(seasons.summer_humidity)),
    )


def air_of(seasons: Seasons) -> tuple[Air, ...]:
    """The air of twelve months: as typed, or spread over the year from the two seasons.

    Raises:
        OutOfRange: the typed text is not twelve humidities.
    """
    spread = two_seasons(*seasons_of(seasons))
    if not seasons.months.strip():
        return spread
    humidities = [_humidity(word) for word in seasons.months.split()]
    if len(humidities) != MONTHS:
        raise OutOfRange(
            f"Enter twelve numbers, with spaces between them, not {len(humidities)}",
            field="corner.seasons.months",
        )
    return tuple(
        Air(temperature_c=air.temperature_c, humidity_pct=humidity)
        for air, humidity in zip(spread, humidities, strict=True)
    )


def driest_and_dampest(seasons: Seasons) -> tuple[Air, Air]:
    """The driest and the dampest air of the year: of the twelve months where they are typed, else of the two seasons.

    Months that are none are refused where they are typed, and do not count here.
    """
    try:
        year = air_of(seasons)
    except OutOfRange:
        year = seasons_of(seasons)
    return min(year, key=lambda air: air.humidity_pct), max(year, key=lambda air: air.humidity_pct)


def _humidity(word: str) -> float:
    try:
        humidity = float(word.removesuffix("%").replace(",", "."))
    except ValueError:
        humidity = -1.0
    if not 1 <= humidity <= 99:
        raise OutOfRange("Enter humidities of 1 to 99%", field="corner.seasons.months")
    return humidity
