"""Photos beside their project: kept, copied, thrown away and brought back; and those that are not there."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest
from PIL import Image
from small_pictures import encoded, noise

from framecalc.project import Photo
from webapp.data.errors import NoSuchProject, NotWritten
from webapp.data.photos import CleanPhoto, NoSuchPhoto, Photos, first_corners
from webapp.data.pictures import clean_photo, straight_photo
from webapp.data.store import Store
from webapp.pages.projects.demos import demos


@pytest.fixture
def store(data_dir: Path) -> Iterator[Store]:
    store = Store(data_dir)
    yield store
    store.close()


def taken(photo: CleanPhoto) -> Photo:
    corners = first_corners(photo.across, photo.up)
    return Photo.model_validate({"id": photo.photo_id, "across": photo.across, "up": photo.up, **corners})


def test_a_kept_photo_comes_back_and_lies_beside_the_revisions(store: Store, data_dir: Path) -> None:
    project_id = store.create(next(iter(demos().values())))
    photo = clean_photo(encoded(noise()))
    photos = Photos(store)
    photos.keep(project_id, photo)
    assert photos.read(project_id, photo.photo_id) == photo.content
    beside = data_dir / "projects" / project_id / "photos"
    assert {path.name for path in beside.iterdir()} == {f"{photo.photo_id}.jpg", "originals"}
    assert straight_photo(photos, project_id, taken(photo), aspect_ratio=1)[:2] == b"\xff\xd8"


@pytest.mark.parametrize(("kind", "ending"), [("JPEG", "jpg"), ("MPO", "jpg"), ("PNG", "png"), ("WEBP", "webp")])
def test_the_original_is_kept_byte_for_byte_with_all_it_says(
    store: Store, data_dir: Path, kind: str, ending: str
) -> None:
    project_id = store.create(next(iter(demos().values())))
    exif = Image.Exif()
    exif[0x010F] = "A camera"
    more = {"save_all": True, "append_images": [noise(20, 20)]} if kind == "MPO" else {}
    sent = encoded(noise(), kind, exif=exif, **more) + b"what hangs on behind it"
    photo = clean_photo(sent)
    Photos(store).keep(project_id, photo)
    original = data_dir / "projects" / project_id / "photos" / "originals" / f"{photo.photo_id}.{ending}"
    assert original.read_bytes() == sent and b"A camera" in sent and b"A camera" not in photo.content


def test_photos_and_originals_go_with_a_copy_and_with_the_trash(store: Store, data_dir: Path) -> None:
    project_id = store.create(next(iter(demos().values())))
    photo, photos = clean_photo(encoded(noise())), Photos(store)
    photos.keep(project_id, photo)
    copy_id = store.copy(project_id, name="copy", fill=partial(photos.copy, project_id))
    assert photos.read(copy_id, photo.photo_id) == photo.content
    originals = (data_dir / "projects" / copy_id / "photos" / "originals").iterdir()
    assert [path.read_bytes() for path in originals] == [photo.original]
    store.delete(project_id)
    assert not [path for path in (data_dir / "projects" / project_id).rglob("*")]
    with pytest.raises(NoSuchProject):
        photos.read(project_id, photo.photo_id)
    store.undelete(project_id)
    assert photos.read(project_id, photo.photo_id) == photo.content


@pytest.mark.parametrize("photo_id", ["../shop", "..%2fshop", "", "0" * 31, "0" * 32 + ".jpg", "Z" * 32])
def test_a_photo_that_is_not_there_is_not_found_by_any_name(store: Store, photo_id: str) -> None:
    project_id = store.create(next(iter(demos().values())))
    with pytest.raises(NoSuchPhoto):
        Photos(store).read(project_id, photo_id)
    with pytest.raises(NoSuchPhoto):
        Photos(store).read(project_id, "0" * 32)


def test_the_first_photo_on_a_full_disk_is_refused_in_words(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise OSError(28, "No space left on device")

    project_id = store.create(next(iter(demos().values())))
    monkeypatch.setattr(Path, "mkdir", refuse)
    with pytest.raises(NotWritten, match="No space left"):
        Photos(store).keep(project_id, clean_photo(encoded(noise())))


def test_a_photo_that_was_damaged_where_it_is_kept_is_told(store: Store, data_dir: Path) -> None:
    project_id = store.create(next(iter(demos().values())))
    photo, photos = clean_photo(encoded(noise())), Photos(store)
    photos.keep(project_id, photo)
    path = data_dir / "projects" / project_id / "photos" / f"{photo.photo_id}.jpg"
    for content in (photo.content[:200], b"", photo.content[: len(photo.content) // 2]):
        path.write_bytes(content)
        with pytest.raises(NoSuchPhoto, match="damaged: take it again"):
            straight_photo(photos, project_id, taken(photo), aspect_ratio=1)
