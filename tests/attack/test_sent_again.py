"""The mark that each form carries: missing, forged, used again by another page, in other words, by other people."""

from uuid import uuid4

import pytest

from growers.beds.models import Bed, Variety
from growers.people.models import Membership
from tests.attack.house import entries
from tests.conftest import OverHttps
from tests.pages import Pages, words


@pytest.fixture
def writing(hers, mine):
    return Pages(hers, mine.slug)


def mark():
    return str(uuid4())


def added(pages, name, client_id):
    return pages.client.post(pages.address("beds:add_bed"), {"name": name, "client_id": client_id})


@pytest.mark.parametrize("wrong", ["", "nonsense", "0", "{uid}", "\0", "9" * 10_000])
def test_without_a_sound_mark_nothing_is_kept_or_lost(writing, mine, wrong):
    answer = added(writing, "Low Garth", wrong)
    assert answer.status_code == 422
    assert "without its mark" in words(answer)
    assert 'value="Low Garth"' in answer.content.decode()
    assert added(writing, "Low Garth", answer.context["form"]["client_id"].value()).status_code == 302


def test_a_mark_used_on_another_page_keeps_nothing(writing, mine):
    used = mark()
    added(writing, "Low Garth", used)
    answer = writing.client.post(writing.address("beds:add_variety"), {"name": "Long Hesper", "client_id": used})
    assert answer.status_code == 422
    assert not Variety.objects.of(mine).filter(name="Long Hesper").exists()


def test_a_mark_is_a_books_own(writing, mine, theirs, ida):
    used = mark()
    added(writing, "Low Garth", used)
    other = OverHttps()
    other.force_login(ida)
    assert added(Pages(other, theirs.slug), "Low Garth", used).status_code == 302
    assert Bed.objects.of(theirs).filter(name="Low Garth").count() == 1


def test_another_hand_with_the_same_mark_is_asked_and_keeps_nothing_twice(writing, mine, ida):
    used = mark()
    added(writing, "Low Garth", used)
    Membership.objects.create(holding=mine, user=ida, role=Membership.Role.HAND)
    other = OverHttps()
    other.force_login(ida)
    assert added(Pages(other, mine.slug), "High Garth", used).status_code == 422
    assert added(Pages(other, mine.slug), "Low Garth", used).status_code == 302
    assert Bed.objects.of(mine).filter(name__endswith="Garth").count() == 1


def test_what_was_taken_back_and_is_sent_again_is_not_called_kept(writing, mine):
    used = mark()
    added(writing, "Low Garth", used)
    bed = Bed.objects.of(mine).get(name="Low Garth")
    writing.client.post(writing.address("people:take_back", "bed", bed.uid))
    answer = added(writing, "Low Garth", used)
    assert answer.status_code == 422
    assert "struck out since" in words(answer)
    assert added(writing, "Low Garth", answer.context["form"]["client_id"].value()).status_code == 302
    assert Bed.objects.of(mine).filter(name="Low Garth").count() == 1


def test_striking_out_sent_twice_is_striking_out_once(writing, mine):
    added(writing, "Low Garth", mark())
    bed = Bed.objects.of(mine).get(name="Low Garth")
    sent = {"reason": "no such bed", "client_id": mark()}
    for _again in range(2):
        assert writing.client.post(writing.address("people:strike_out", "bed", bed.uid), sent).status_code == 302


def test_taking_back_many_takes_all_or_none(writing, mine, everything):
    added(writing, "Low Garth", mark())
    bed = Bed.objects.of(mine).get(name="Low Garth")
    planted = everything["planting"][0].bed
    both = f"{bed.uid},{planted.uid}"
    page = writing.client.post(writing.address("people:take_back", "bed", both), follow=True)
    assert "can't be struck out" in words(page)
    assert Bed.objects.of(mine).filter(uid__in=[bed.uid, planted.uid]).count() == 2


def test_taking_back_reaches_no_other_book_nor_anything_twice(writing, mine, theirs, everything):
    note, their_note = everything["healthnote"][0], entries(theirs)["healthnote"][0]
    address = writing.address("people:take_back", "healthnote", f"{note.uid},{their_note.uid}")
    assert writing.client.post(address).status_code == 404
    note.refresh_from_db()
    assert note.struck_out_at is None
    for _again in range(2):
        writing.client.post(writing.address("people:take_back", "healthnote", f"{note.uid},{note.uid}"))
    note.refresh_from_db()
    assert note.struck_out_reason == "taken back at once"
    assert note.history.count() == 2
