import uuid

import pytest

from growers.bundles.models import Bundle, Taking
from growers.furniture.much import read_much
from growers.people.models import Membership
from growers.stock import actions
from growers.stock.models import Count, Promise
from tests.pages import words


@pytest.fixture(autouse=True)
def march(clock):
    clock("2026-03-20 12:00")


def left(bundle):
    bundle.refresh_from_db()
    return bundle.left_ppb


def test_an_empty_shed_says_what_to_do_first(pages):
    assert "Tie the first bundle" in pages.text("stock:shed")


def test_taking_out_to_work_and_gone(pages, bundle):
    pages.keep("stock:take_out", bundle.uid, much="half", what_for="work", on="today")
    pages.keep("stock:gone", bundle.uid, much="half", what_for="mouse", on="today")
    work, gone = Taking.objects.order_by("pk")
    assert (work.purpose, work.gone, gone.purpose, gone.gone) == ("work", "", "gone", "mouse")
    assert left(bundle) == 250_000_000


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"much": ""}, "Say how much"),
        ({"much": "61 kg"}, "Say “the rest”"),
        ({"much": "2.3 furlongs"}, "can't be read"),
        ({"much": "400 rods"}, "rods of bundle"),
        ({"much": "half", "on": "tomorrow"}, "has not come yet"),
        ({"much": "half", "on": "1 Jan 2026"}, "not tied until"),
        ({"much": "half", "left_weighs": "3 kg"}, "as a weight too"),
    ],
)
def test_what_a_tired_person_types(pages, bundle, typed, sentence):
    typed = {"what_for": "work", "on": "today", "note": "for the fair"} | typed
    answer = pages.send("stock:take_out", bundle.uid, **typed)
    assert answer.status_code == 422
    assert sentence in words(answer)
    assert "for the fair" in words(answer)
    assert left(bundle) == 1_000_000_000


def test_a_comma_is_a_point(pages, bundle):
    pages.keep("stock:take_out", bundle.uid, much="2,3 kg", what_for="work", on="today")
    assert Taking.objects.get().share_ppb == 377_049_180  # 2.3 of 6.1 kg


def test_promised_rods_are_asked_for_twice(pages, bundle, hand, day):
    pages.keep("stock:promise", bundle.uid, whom="Orla Fenn", much="half", on="today")
    text = pages.refused("stock:take_out", bundle.uid, much="4 kg", what_for="work", on="today")
    assert "promised to Orla Fenn" in text
    pages.keep("stock:take_out", bundle.uid, much="4 kg", what_for="work", on="today", promised_too="on")
    assert "Promised" in pages.text("trace:bundle", bundle.uid)


def test_a_promise_is_released(pages, bundle):
    pages.keep("stock:promise", bundle.uid, whom="Orla Fenn", much="half", on="yesterday")
    promise = Promise.objects.get()
    pages.keep("stock:release", promise.uid, on="today")
    promise.refresh_from_db()
    assert str(promise.released_on) == "2026-03-20"


def test_counting_shows_what_the_book_says_and_sets_it_right(pages, bundle):
    text = pages.text("stock:count", bundle.uid)
    assert "6.1 kg" in text
    assert "100 rods" in text
    assert "Give what is left" in pages.refused("stock:count", bundle.uid, why="unwritten", on="today")
    assert "not both" in pages.refused("stock:count", bundle.uid, mass="3 kg", rods="50", why="agrees", on="today")
    pages.keep("stock:count", bundle.uid, rods="80", why="unwritten", on="today")
    assert left(bundle) == 800_000_000
    pages.keep("stock:count", bundle.uid, rods="0", why="unknown", on="today")
    assert left(bundle) == 0


def test_splitting_and_tying_together(pages, bundle, tie):
    pages.keep("stock:split", bundle.uid, much="a third", on="today")
    new = Bundle.objects.get(made="making")
    assert left(bundle) == 666_666_667
    other = tie(mass="4 kg")
    wrong = pages.refused("stock:merge", bundle.uid, tags="123", on="today")
    assert "No bundle has the tag" in wrong
    pages.keep("stock:merge", bundle.uid, tags=f"{new.tag_shown}, {other.tag}", on="today")
    merged = Bundle.objects.filter(made="making").latest("pk")
    assert (left(bundle), left(new), left(other), merged.left_ppb) == (0, 0, 0, 1_000_000_000)


def test_sorting_again(pages, bundle, four_foot, five_foot):
    lines = {"length_1": five_foot.uid, "much_1": "half", "length_2": four_foot.uid, "rejects": "a tenth"}
    answer = pages.keep("stock:regrade", bundle.uid, **lines, on="today")
    long, short = Bundle.objects.filter(made="making").order_by("pk")
    assert (long.length_class, long.part_of_making_ppb) == (five_foot, 500_000_000)
    assert (short.length_class, short.part_of_making_ppb) == (four_foot, 400_000_000)
    assert long.making.rejects_ppb == 100_000_000
    assert answer.url == pages.address("trace:bundle", long.uid)


def test_sorting_says_what_is_missing(pages, bundle, five_foot):
    assert "one bundle or more" in pages.refused("stock:regrade", bundle.uid, on="today")
    assert "of what length" in pages.refused("stock:regrade", bundle.uid, much_1="half", on="today")
    lines = {"length_1": five_foot.uid, "much_1": "half"}
    assert "don't come to all of it" in pages.refused("stock:regrade", bundle.uid, **lines, on="today")


def test_making_white(pages, bundle, five_foot):
    typed = {"type": "white", "length_1": five_foot.uid, "much_1": "the rest", "bark": "30 %", "on": "today"}
    pages.keep("stock:make_into", bundle.uid, **typed)
    white = Bundle.objects.get(made="making")
    assert (white.type, white.making.what, white.making.bark_ppb) == ("white", "white", 300_000_000)


def test_a_scale_shows_what_it_changes_before_it_does(pages, bundle):
    typed = {"from_on": "1 Jan 2026", "to_on": "today", "way": "light", "part": "4 %", "why": "against a 5 kg weight"}
    answer = pages.send("stock:scale", **typed)
    # A scale 4 % light shows 96 of 100: 6.1 / 0.96 = 6.354 kg.
    assert "6.35 kg" in words(answer)
    bundle.refresh_from_db()
    assert bundle.tied_mass_kg == pytest.approx(6.1)
    pages.keep("stock:scale", **typed, sure=answer.context["form"].sure)
    bundle.refresh_from_db()
    assert bundle.tied_mass_kg == pytest.approx(6.1 / 0.96)
    assert bundle.tied_mass_text == "6.1 kg"


def test_a_scale_by_a_known_weight(pages, bundle):
    typed = {"from_on": "1 Jan 2026", "to_on": "today", "known": "5 kg", "why": "against a 5 kg weight"}
    assert "Give both weights" in pages.refused("stock:scale", **typed)
    answer = pages.send("stock:scale", **typed, showed="4.8 kg")
    pages.keep("stock:scale", **typed, showed="4.8 kg", sure=answer.context["form"].sure)
    bundle.refresh_from_db()
    assert bundle.tied_mass_kg == pytest.approx(6.1 * 5 / 4.8)


def test_another_part_is_asked_about_anew(pages, bundle):
    typed = {"from_on": "1 Jan 2026", "to_on": "today", "way": "light", "why": "against a 5 kg weight"}
    sure = pages.send("stock:scale", **typed, part="4 %").context["form"].sure
    assert pages.send("stock:scale", **typed, part="5 %", sure=sure).status_code == 422


@pytest.mark.parametrize("kind", ["taking", "count", "promise"])
def test_every_kind_can_be_corrected(pages, hand, bundle, day, kind):
    on = day("2026-03-01")
    records = {
        "taking": lambda: actions.take_out(
            **hand, bundle=bundle, on=on, purpose="gone", gone="mouse", much=read_much("half")
        ),
        "count": lambda: actions.count(**hand, bundle=bundle, on=on, why="unwritten", rods=80),
        "promise": lambda: actions.promise(**hand, bundle=bundle, whom="Orla Fenn", on=on, much=read_much("half")),
    }
    record = records[kind]()
    name = f"stock:correct_{kind}"
    form = pages.open(name, record.uid).context["form"]
    shown = {
        field: form.fields[field].prepare_value(form[field].value()) for field in form.fields if field != "client_id"
    }
    pages.keep(name, record.uid, **{field: value for field, value in shown.items() if value is not None})
    again = {"taking": Taking, "count": Count, "promise": Promise}[kind].objects.of(hand["holding"]).get()
    assert left(bundle) == {"taking": 500_000_000, "count": 800_000_000, "promise": 1_000_000_000}[kind]
    assert again.on == on


def test_the_shed_is_narrowed(pages, bundle, tie, other_cut, four_foot, hand, day):
    other = tie(cut=other_cut, length_class=four_foot)
    text = pages.text("stock:shed")
    assert bundle.tag_shown in text
    assert other.tag_shown in text
    for name, value, shown, hidden in [
        ("variety", other_cut.planting.variety.uid, other, bundle),
        ("length", four_foot.uid, other, bundle),
    ]:
        text = pages.text("stock:shed", **{name: str(value)})
        assert shown.tag_shown in text
        assert hidden.tag_shown not in text
    assert other.tag_shown in pages.text("stock:shed", winter="2025/26", type="brown", answer="cant_say")
    assert "Nothing in the book answers to that" in pages.text("stock:shed", answer="dry")


def test_the_shed_says_what_is_left_and_free(pages, bundle):
    pages.keep("stock:promise", bundle.uid, whom="Orla Fenn", much="half", on="today")
    text = pages.text("stock:shed")
    assert "6.1 kg" in text
    assert "3.05 kg free, promised to Orla Fenn" in text
    pages.keep("stock:take_out", bundle.uid, much="the rest", what_for="work", on="today", promised_too="on")
    assert bundle.tag_shown not in pages.text("stock:shed")


def test_a_double_tap_takes_once(pages, bundle):
    sent = {"client_id": str(uuid.uuid4()), "much": "half", "what_for": "work", "on": "today"}
    for _tap in range(2):
        assert pages.client.post(pages.address("stock:take_out", bundle.uid), sent).status_code == 302
    assert left(bundle) == 500_000_000


def test_a_reader_may_not_take(client, pages, bundle, tam):
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    sent = {"much": "half", "what_for": "work", "on": "today"}
    assert client.post(pages.address("stock:take_out", bundle.uid), sent).status_code == 403
    assert left(bundle) == 1_000_000_000


def test_another_holdings_bundle_is_not_found(client, ida, other, bundle):
    client.force_login(ida)
    for page in ("take-out", "gone", "count", "promise", "split", "merge", "regrade", "make-into"):
        assert client.get(f"/nether-sallow/stock/{bundle.uid}/{page}/").status_code == 404


def test_a_correction_is_not_taken_back_with_the_record_itself(pages, bundle):
    answer = pages.keep("stock:promise", bundle.uid, whom="Orla Fenn", much="half", on="yesterday")
    assert "Take it back" in words(pages.client.get(answer.url))
    promise = Promise.objects.get()
    for page, typed in (("stock:correct_promise", {"whom": "Ida Rushby"}), ("stock:release", {})):
        answer = pages.keep(page, promise.uid, **typed)
        page = words(pages.client.get(answer.url))
        assert "Take it back" not in page
    promise.refresh_from_db()
    assert promise.struck_out_at is None
