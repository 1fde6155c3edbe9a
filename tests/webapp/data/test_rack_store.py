"""The rack on disk: what is put on it stays, a cut changes it in one step, and can be undone."""

import json
from itertools import count
from pathlib import Path

import pytest

from framecalc.errors import ImpossibleTimber, OutOfRange
from framecalc.project import ProjectErrors
from framecalc.timber.rack import RackChange, RackStick, StickSection, of_section
from webapp.data.errors import NotWritten, UnreadableFile
from webapp.data.rack import KEPT_AWAY, CutWish, NotOnTheRack, RackChanged, RackFolder
from webapp.data.rack_file import CutEntry, RackEntry, RackFile, digest_of, entry_of, new_tags, read_entry

PROBLEM = "ab" * 32
USUAL = {"species": "ash", "length": "1200 mm", "width": "7/8 in", "thickness": "20 mm"}


@pytest.fixture
def rack(tmp_path: Path) -> RackFolder:
    numbers = count(1)
    return RackFolder(tmp_path, new_id=lambda: f"id{next(numbers)}")


def entry(tag: str, **more: object) -> RackEntry:
    return read_entry(USUAL | {"id": f"of{tag.lower()}", "tag": tag} | more)


def change_of_a(file: RackFile) -> RackChange:
    """Stick A becomes an off-cut of 400.27 mm."""
    (taken,) = (stick for stick in file.rack if stick.tag == "A")
    left = RackStick(tag="ash 9", species="ash", length_mm=400.27, width_mm=22.225, thickness_mm=20, is_off_cut=True)
    return RackChange(taken=(taken,), returned=(left,))


def cut_a(rack: RackFolder, *, after: int = 0, shown: str = "") -> CutEntry:
    wish = CutWish(
        project_id="k3fw07qz", project_name="Hall", members="hall", problem=PROBLEM, record='{"plan": 1}', after=after
    )
    return rack.cut(wish, change_of=change_of_a, shown=shown or digest_of(change_of_a(rack.read())))


def tags(rack: RackFolder) -> list[str]:
    return [stick.tag for stick in rack.read().sticks]


def test_an_empty_folder_has_an_empty_rack(rack: RackFolder) -> None:
    assert rack.read().sticks == ()


def test_a_stick_is_kept_as_it_was_typed(rack: RackFolder, tmp_path: Path) -> None:
    rack.put(entry("A"))
    kept = json.loads((tmp_path / "rack.json").read_text("utf-8"))
    assert kept["sticks"][0]["width"] == "7/8 in" and kept["schema"] == 1


def test_a_stick_is_put_on_once(rack: RackFolder) -> None:
    for _ in range(2):
        rack.put(entry("A"))
    assert tags(rack) == ["A"]


def test_a_stick_is_changed_by_its_id(rack: RackFolder) -> None:
    rack.put(entry("A"))
    rack.put(entry("A").model_copy(update={"tag": "A long"}), stamp=entry("A").stamp)
    assert tags(rack) == ["A long"]


def test_a_stick_that_was_changed_meanwhile_is_not_overwritten(rack: RackFolder) -> None:
    rack.put(entry("A"))
    rack.put(entry("A", length="900 mm"), stamp=entry("A").stamp)
    with pytest.raises(RackChanged, match="changed elsewhere"):
        rack.put(entry("A", width="30 mm"), stamp=entry("A").stamp)
    rack.take_away("ofa")
    with pytest.raises(RackChanged, match="taken from the rack"):
        rack.put(entry("A", width="30 mm"), stamp=entry("A").stamp)


def test_two_sticks_have_two_tags(rack: RackFolder) -> None:
    rack.put(entry("A"))
    with pytest.raises(OutOfRange, match="another tag"):
        rack.put(entry("A").model_copy(update={"id": "other"}))
    assert next(new_tags(rack.read(), "ash")) == "ash 1"


def test_a_tag_is_never_given_again(rack: RackFolder) -> None:
    rack.put(entry("A"))
    rack.put(entry("A").model_copy(update={"id": "ofb", "tag": "ash 1"}))
    rack.take_away("ofb")
    cut_a(rack)
    assert next(new_tags(rack.read(), "ash")) == "ash 2"
    assert "ash 9" not in [tag for tag, _ in zip(new_tags(rack.read(), "ash"), range(12), strict=False)]


def test_what_is_taken_away_can_be_put_back(rack: RackFolder) -> None:
    rack.put(entry("A"))
    rack.take_away("ofa")
    assert tags(rack) == []
    rack.put_back("ofa")
    assert tags(rack) == ["A"] and rack.read().away == ()
    for nobody in (rack.put_back, rack.take_away):
        with pytest.raises(NotOnTheRack):
            nobody("nobody")


def test_a_button_pressed_twice_does_its_work_once(rack: RackFolder) -> None:
    rack.put(entry("A"))
    for _ in range(2):
        rack.take_away("ofa")
    assert [one.tag for one in rack.read().away] == ["A"] and tags(rack) == []
    for _ in range(2):
        rack.put_back("ofa")
    assert tags(rack) == ["A"] and rack.read().away == ()
    cut = cut_a(rack)
    first, second = (rack.undo(cut.id) for _ in range(2))
    assert first == second and tags(rack) == ["A"]


def test_only_the_last_ones_can_be_put_back(rack: RackFolder) -> None:
    for number in range(KEPT_AWAY + 3):
        rack.put(entry(f"S{number}"))
        rack.take_away(f"ofs{number}")
    assert len(rack.read().away) == KEPT_AWAY


def test_a_cut_takes_its_stick_and_brings_its_off_cut(rack: RackFolder) -> None:
    rack.put(entry("A"))
    rack.put(entry("B"))
    cut_a(rack)
    assert tags(rack) == ["B", "ash 9"]
    back = rack.read().sticks[1]
    assert (back.length.text, back.is_off_cut) == ("400.2 mm", True)


def test_an_off_cut_fits_the_section_that_it_came_from(rack: RackFolder) -> None:
    rack.put(entry("A"))
    cut_a(rack)
    section = StickSection(species="ash", width_mm=22.225, thickness_mm=20)
    assert len(of_section(rack.read().rack, section=section)) == 1


def test_a_cut_is_undone(rack: RackFolder) -> None:
    rack.put(entry("A"))
    before = rack.read().sticks
    cut = cut_a(rack)
    assert [one.id for one in rack.read().cuts_of("k3fw07qz")] == [cut.id]
    assert rack.undo(cut.id).undone
    assert rack.read().sticks == before and rack.read().cuts_of("k3fw07qz") == ()
    with pytest.raises(NotOnTheRack):
        rack.undo("nobody")


def test_undo_restores_the_rack_byte_for_byte(rack: RackFolder, tmp_path: Path) -> None:
    for tag in ("B", "A", "c"):
        rack.put(entry(tag).model_copy(update={"id": f"of{ord(tag)}", "origin": "the yard"}))
    before = json.loads((tmp_path / "rack.json").read_bytes())["sticks"]
    rack.undo(cut_a(rack).id)
    after = json.loads((tmp_path / "rack.json").read_bytes())["sticks"]
    assert json.dumps(after).encode() == json.dumps(before).encode()


def test_what_was_cut_is_kept_whatever_becomes_of_it(rack: RackFolder) -> None:
    rack.put(entry("A"))
    cut = cut_a(rack)
    rack.undo(cut.id)
    kept, text = rack.record(cut.id)
    assert kept.undone and json.loads(text) == {"plan": 1}
    for nobody in ("nobody", "../rack", ""):
        with pytest.raises(NotOnTheRack):
            rack.record(nobody)


def test_a_cut_does_what_was_shown_or_nothing(rack: RackFolder) -> None:
    rack.put(entry("A"))
    with pytest.raises(RackChanged, match="changed meanwhile"):
        cut_a(rack, shown="0" * 16)
    assert tags(rack) == ["A"]


def test_a_plan_is_cut_once_and_again_after_it_was_undone(rack: RackFolder) -> None:
    rack.put(entry("A"))
    cut = cut_a(rack)
    assert cut_a(rack, shown="any") == cut and len(rack.read().cuts) == 1
    rack.undo(cut.id)
    cut_a(rack)
    assert len(rack.read().cuts) == 2


def test_a_plan_is_cut_again_when_that_is_said(rack: RackFolder) -> None:
    rack.put(entry("A"))
    cut_a(rack)
    rack.put(entry("A").model_copy(update={"id": "new"}))
    with pytest.raises(ImpossibleTimber, match="on the rack already"):
        cut_a(rack, after=1)
    rack.take_away(rack.read().sticks[1].id)
    again = cut_a(rack, after=1)
    assert len(rack.read().cuts) == 2 and cut_a(rack, after=1, shown="any") == again


def test_a_cut_whose_off_cut_was_used_cannot_be_undone(rack: RackFolder) -> None:
    rack.put(entry("A"))
    cut = cut_a(rack)
    rack.take_away(cut.returned[0].id)
    with pytest.raises(ImpossibleTimber, match="put it back as it was"):
        rack.undo(cut.id)
    assert not rack.read().cuts[0].undone


def test_a_refused_disk_leaves_the_rack_as_it_was(rack: RackFolder, monkeypatch: pytest.MonkeyPatch) -> None:
    rack.put(entry("A"))

    def refuse(path: Path, text: str) -> None:
        raise NotWritten("nothing was saved")

    monkeypatch.setattr("webapp.data.rack.write_safely", refuse)
    with pytest.raises(NotWritten):
        cut_a(rack)
    assert tags(rack) == ["A"]


def test_a_damaged_file_is_said_and_not_overwritten(rack: RackFolder, tmp_path: Path) -> None:
    (tmp_path / "rack.json").write_text('{"schema": 1, "sticks": [{"id": "x"}]}', "utf-8")
    with pytest.raises(UnreadableFile, match="damaged"):
        rack.put(entry("A"))


def test_a_damaged_rack_goes_on_as_it_was_before_its_last_change(rack: RackFolder, tmp_path: Path) -> None:
    path = tmp_path / "rack.json"
    for tag in ("A", "B"):
        rack.put(entry(tag))
    rack.mend()
    assert tags(rack) == ["A", "B"]
    path.write_bytes(b"\0" * 100)
    rack.mend()
    assert tags(rack) == ["A"]
    assert (tmp_path / "rack-damaged-1.json").read_bytes() == b"\0" * 100
    (tmp_path / "rack-before.json").write_text("[]", "utf-8")
    path.write_text("{", "utf-8")
    rack.mend()
    assert tags(rack) == [] and (tmp_path / "rack-damaged-2.json").exists()


def test_a_file_changed_by_hand_is_read_anew(rack: RackFolder, tmp_path: Path) -> None:
    rack.put(entry("A"))
    assert rack.read() is rack.read()
    path = tmp_path / "rack.json"
    path.write_text(path.read_text("utf-8").replace("1200 mm", "900.5 mm"), "utf-8")
    assert rack.read().sticks[0].length.mm == 900.5
    path.unlink()
    assert rack.read().sticks == ()


@pytest.mark.parametrize(
    ("path", "text", "sentence"),
    [("length", "1 mm", "100 mm to"), ("width", "wide", "Enter a length"), ("thickness", "400 mm", "Enter ")],
)
def test_nonsense_gets_a_sentence(path: str, text: str, sentence: str) -> None:
    with pytest.raises(ProjectErrors, match=sentence) as refusal:
        entry("A", **{path: text})
    assert set(refusal.value.sentences) == {path}


def test_a_section_is_kept_exactly() -> None:
    stick = RackStick(tag="A", species="", length_mm=500.09, width_mm=100 / 3, thickness_mm=20)
    kept = entry_of(stick, "x1")
    assert kept.length.text == "500 mm"
    assert kept.width.mm == pytest.approx(100 / 3, abs=5e-7)


def test_the_first_cut_on_a_full_disk_is_refused_in_words_and_leaves_the_rack(
    rack: RackFolder, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    rack.put(entry("A"))
    monkeypatch.setattr(Path, "mkdir", refuse)
    with pytest.raises(NotWritten, match="No space left"):
        cut_a(rack)
    assert tags(rack) == ["A"] and not rack.read().cuts


@pytest.mark.parametrize("when", ["yesterday", "", "0001-01-01T00:00:00+14:00"])
def test_a_cut_without_its_time_is_damage_that_is_named(rack: RackFolder, tmp_path: Path, when: str) -> None:
    rack.put(entry("A"))
    cut_a(rack)
    path = tmp_path / "rack.json"
    document = json.loads(path.read_text("utf-8"))
    document["cuts"][0]["when"] = when
    path.write_text(json.dumps(document))
    with pytest.raises(UnreadableFile, match=r"rack\.json is damaged: .*when it was made"):
        rack.read()


def test_a_cut_undone_at_no_time_is_damage_that_is_named(rack: RackFolder, tmp_path: Path) -> None:
    """Fault: the page of the cut broke down."""
    rack.put(entry("A"))
    rack.undo(cut_a(rack).id)
    path = tmp_path / "rack.json"
    document = json.loads(path.read_text("utf-8"))
    document["cuts"][0]["undone"] = "2026-13-45"
    path.write_text(json.dumps(document))
    with pytest.raises(UnreadableFile, match=r"rack\.json is damaged: .*when it was undone"):
        rack.read()
