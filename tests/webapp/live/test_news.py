"""An answer sends what a page does not show yet, and nothing where it shows everything."""

from webapp.live.news import News


def _parts(**shown: str) -> str:
    swaps = 'hx-swap="outerHTML"'
    return "\n".join(f'<hx-partial hx-target="#{at}" {swaps}>{text}</hx-partial>' for at, text in shown.items())


def test_a_page_that_holds_nothing_gets_every_part() -> None:
    answer, _ = News().since("", _parts(light="ready", sizes="300"), asked=1)
    assert "ready" in answer and "300" in answer


def test_a_page_gets_what_it_does_not_hold_and_nothing_twice() -> None:
    news = News()
    _, first = news.since("", _parts(light="ready", sizes="300"), asked=1)
    answer, second = news.since(first, _parts(light="ready", sizes="301"), asked=2)
    assert "301" in answer and "ready" not in answer
    assert news.since(second, _parts(light="ready", sizes="301"), asked=3) == ("", "")


def test_a_part_that_an_answer_leaves_out_is_still_held() -> None:
    news = News()
    _, first = news.since("", _parts(light="ready", drawing="a frame"), asked=1)
    _, second = news.since(first, _parts(light="a field is at fault"), asked=2)
    assert "a frame" not in news.since(second, _parts(light="ready", drawing="a frame"), asked=3)[0]


def test_a_lost_answer_is_made_up_for_by_the_next() -> None:
    news = News()
    _, first = news.since("", _parts(sizes="300"), asked=1)
    news.since(first, _parts(sizes="301"), asked=2)
    assert "301" in news.since(first, _parts(sizes="301"), asked=2)[0]


def test_a_token_that_is_forgotten_brings_everything() -> None:
    news = News(most=1)
    _, first = news.since("", _parts(sizes="300"), asked=1)
    news.since("", _parts(sizes="302"), asked=1)
    assert "300" in news.since(first, _parts(sizes="300"), asked=1)[0]


def test_a_part_that_names_its_target_on_the_next_line_is_held_too() -> None:
    news, part = News(), '<hx-partial\n  hx-target="#line-1">{}</hx-partial>'
    first, token = news.since("", part.format("3 m"), asked=1)
    assert first == part.format("3 m")
    assert news.since(token, part.format("3 m"), asked=2) == ("", "")
    assert news.since(token, part.format("4 m"), asked=3)[0] == part.format("4 m")


def test_only_the_very_form_that_was_answered_last_is_answered() -> None:
    news = News()
    _, token = news.since("", _parts(sizes="300"), asked=7)
    assert news.is_answered(token, asked=7)
    assert not news.is_answered(token, asked=8)
    assert news.since(token, _parts(sizes="300"), asked=8) == ("", "")
    assert news.is_answered(token, asked=8)
    assert not news.is_answered("", asked=0) and not news.is_answered("elsewhere", asked=7)


def test_a_part_and_a_part_within_it_renew_each_other() -> None:
    news = News()
    _, first = news.since("", _parts(**{"plans": "all waiting"}), asked=1)
    _, second = news.since(first, _parts(**{"plans #one": "done", "plans #two": "waiting"}), asked=2)
    assert news.since(second, _parts(**{"plans #one": "done", "plans #two": "waiting"}), asked=2) == ("", "")
    answer, third = news.since(second, _parts(**{"plans": "all waiting"}), asked=3)
    assert "all waiting" in answer
    assert "done" in news.since(third, _parts(**{"plans #one": "done", "plans #two": "waiting"}), asked=4)[0]
