"""What is kept of revisions: bounded by the size of their files, what was asked for longest goes first."""

from concurrent.futures import ThreadPoolExecutor

from webapp.data.kept import Keeping, Stamp


def stamp(number: int, *, size: int = 40, project_id: str = "k3fw07qz", file: int = 1) -> Stamp:
    return Stamp(project_id=project_id, number=number, file=file, changed_ns=1, size=size)


def test_what_is_kept_is_found_by_its_stamp_alone() -> None:
    keeping: Keeping[str] = Keeping()
    keeping.keep(stamp(1), "one")
    assert keeping.find(stamp(1)) == "one"
    assert keeping.find(stamp(2)) is None
    assert keeping.find(stamp(1, file=2)) is None


def test_what_was_asked_for_longest_goes_first() -> None:
    keeping: Keeping[str] = Keeping(most_bytes=100)
    keeping.keep(stamp(1), "one")
    keeping.keep(stamp(2), "two")
    keeping.find(stamp(1))
    keeping.keep(stamp(3), "three")
    assert keeping.all() == ("one", "three")


def test_a_file_larger_than_all_that_is_kept_is_handed_out_and_let_go() -> None:
    keeping: Keeping[str] = Keeping(most_bytes=100)
    assert keeping.keep(stamp(1, size=101), "large") == "large"
    assert keeping.all() == ()


def test_the_revisions_of_a_project_are_dropped_together() -> None:
    keeping: Keeping[str] = Keeping(most_bytes=100)
    for number in (1, 2):
        keeping.keep(stamp(number, size=20), f"{number}")
    keeping.keep(stamp(1, size=60, project_id="00000000"), "other")
    keeping.drop("k3fw07qz")
    assert keeping.all() == ("other",)
    keeping.keep(stamp(3), "three")
    assert keeping.all() == ("other", "three")


def test_threads_that_read_at_once_get_one_and_the_same() -> None:
    keeping: Keeping[object] = Keeping(most_bytes=400)
    with ThreadPoolExecutor(8) as threads:
        found = list(threads.map(lambda turn: (turn % 10, keeping.keep(stamp(turn % 10), object())), range(2000)))
    assert len({id(one) for _, one in found}) == 10
    with ThreadPoolExecutor(8) as threads:
        list(threads.map(lambda turn: keeping.keep(stamp(turn), object()), range(2000)))
    assert len(keeping.all()) == 10
