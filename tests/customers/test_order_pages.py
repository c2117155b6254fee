"""The pages of orders, of who waits, of complaints and returns, and the lists that can be narrowed."""

import uuid

import pytest

from growers.customers import actions
from growers.customers.models import Complaint, Order, OrderLine, OrderPromise, Returned, Sale, SaleLine, Waiting
from growers.drying import actions as drying
from growers.furniture.much import read_much
from growers.people.models import Membership
from tests import ground
from tests.pages import words


@pytest.fixture(autouse=True)
def february(clock):
    clock("2026-02-05 12:00")


@pytest.fixture
def order(hand, orla, pellock, day):
    said = {"variety": pellock, "state": "green", "wanted_by": day("2026-03-01")}
    return actions.take_order(**hand, customer=orla, on=day("2026-02-01"), much=read_much("3 kg"), **said)


@pytest.fixture
def line(order):
    return order.lines.get()


def test_an_order_from_the_first_word_to_the_last_rod(pages, bundle, pellock):
    typed = {"new_customer": "Orla Fenn", "much": "3 kg", "variety": pellock.uid, "wanted_by": "1 Mar", "on": "2 Feb"}
    pages.keep("customers:take_order", **typed, state="green")
    order = Order.objects.get()
    assert (str(order.wanted_by), str(order.on), order.customer.name) == ("2026-03-01", "2026-02-02", "Orla Fenn")
    line = order.lines.get()
    text = pages.text("customers:order", order.uid)
    assert "3 kg: Pellock, brown, green" in text
    assert "Still to fill all of it" in text
    assert bundle.tag_shown in text
    pages.keep("customers:promise_line", line.uid, bundle.uid)
    assert "3 kg promised to Orla Fenn" in pages.text("customers:order", order.uid)
    # The form already says what remains.
    form = pages.open("customers:fill", line.uid, bundle.uid).context["form"]
    assert (form["much"].value(), form["state_said"].value()) == ("3 kg", "green")
    assert "order_line" not in form.fields
    pages.keep("customers:fill", line.uid, bundle.uid, much="1.2 kg")
    text = pages.text("customers:order", order.uid)
    assert "Still to fill 1.8 kg" in text
    assert "1.8 kg still to fill" in pages.text("customers:orders")
    assert "standing" in text
    pages.keep("customers:fill", line.uid, bundle.uid)
    assert "· filled · wanted by" in pages.text("customers:order", order.uid)
    assert "Towards order of Orla Fenn" in pages.text("customers:sale", Sale.objects.first().uid)


def test_a_sale_from_the_bundles_own_page_can_go_towards_an_order(pages, bundle, order, line):
    pages.keep("customers:sell", bundle.uid, much="1 kg", state_said="green", order_line=line.uid)
    sold = SaleLine.objects.get()
    assert (sold.order_line, sold.sale.customer) == (line, order.customer)
    pages.keep("customers:correct_saleline", sold.uid, order_line="", price="9")
    sold.refresh_from_db()
    assert (sold.order_line, str(sold.price)) == (None, "9.00")


def test_no_order_is_offered_that_the_bundle_does_not_answer_to(pages, hand, cut, order, day):
    other = ground.tied(hand, ground.cut(hand, ground.planted(hand, "Merrow Red")), on=day("2026-01-12"))[0]
    assert "order_line" not in pages.open("customers:sell", other.uid).context["form"].fields


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({"much": ""}, "Say how much is wanted"),
        ({"much": "half"}, "A part of what?"),
        ({"much": "3 m"}, "can't be read"),
        ({"much": "0 rods"}, "“0” is not more than nothing"),
        ({"much": "3 kg", "new_customer": ""}, "Choose a customer, or write a new name."),
        ({"much": "3 kg", "wanted_by": "1 Feb 2026", "on": "2 Feb 2026"}, "can't be wanted before it was ordered"),
        ({"much": "3 kg", "on": "tomorrow"}, "has not come yet"),
    ],
)
def test_a_tired_order_is_answered_beside_the_field(pages, typed, sentence):
    said = {"new_customer": "Orla Fenn", "on": "today", "note": "for June"} | typed
    text = pages.send("customers:take_order", **said)
    assert text.status_code == 422
    assert sentence in words(text)
    assert "for June" in text.content.decode()
    assert not Order.objects.exists()


def test_cancelling_and_standing_again(pages, order):
    pages.keep("customers:cancel_order", order.uid, on="today")
    assert "cancelled Thu 5 Feb 2026" in pages.text("customers:order", order.uid)
    assert "was cancelled on" in pages.refused("customers:add_line", order.uid, much="1 kg")
    pages.keep("customers:reopen_order", order.uid)
    pages.keep("customers:add_line", order.uid, much="2 bundles", type="white")
    text = pages.text("customers:order", order.uid)
    assert "2 bundles: white" in text
    assert "Nothing in the shed is free that would do." in text


def test_whole_bundles_from_the_shed(pages, hand, bundle, cut, day):
    other = ground.tied(hand, cut, on=day("2026-01-12"))[0]
    page = pages.open("stock:shed")
    assert f'value="{bundle.uid}"' in page.content.decode()
    ticked = f"?bundle={bundle.uid}&bundle={other.uid}"
    address = pages.address("customers:sell_bundles") + ticked
    form = pages.client.get(address).context["form"]
    assert sorted(form["bundles"].value()) == sorted([str(bundle.uid), str(other.uid)])
    typed = {"client_id": str(uuid.uuid4()), "bundles": [bundle.uid, other.uid], "state_said": "green", "on": "today"}
    typed |= {"new_customer": "Orla Fenn", "price": "20"}
    for _tap in range(2):
        assert pages.client.post(address, typed).status_code == 302
    assert [str(line.price) for line in SaleLine.objects.order_by("pk")] == ["20.00", "20.00"]
    assert "Altogether 40.00 GBP" in pages.text("customers:sale", Sale.objects.get().uid)


def test_whole_bundles_not_known_to_be_dry_are_each_asked_about(pages, bundle):
    address = pages.address("customers:sell_bundles") + f"?bundle={bundle.uid}"
    typed = {"client_id": str(uuid.uuid4()), "bundles": [bundle.uid], "state_said": "dry", "on": "today"}
    answer = pages.client.post(address, typed)
    assert f"The book says of bundle {bundle.tag_shown}" in words(answer)
    assert not Sale.objects.exists()


@pytest.mark.parametrize("asked", ["", "?bundle=", "?bundle=twelve", "?bundle=00000000-0000-4000-8000-000000000000"])
def test_nothing_ticked_goes_back_to_the_shed(pages, asked):
    answer = pages.client.get(pages.address("customers:sell_bundles") + asked, follow=True)
    assert "Tick the bundles that are sold" in words(answer)


def test_who_waits_and_is_told(pages, hand, bundle, pellock, orla, day):
    pages.keep("customers:wait_for", customer=orla.uid, variety=pellock.uid)
    row = Waiting.objects.get()
    assert "nothing dry and free yet" in pages.text("customers:waiting")
    drying.give_word(**hand, of=bundle, on=day("2026-02-04"), says="dry")
    assert "1 bundle is dry and free" in pages.text("customers:waiting")
    assert f"Tell Orla Fenn: Pellock is there {bundle.tag_shown} · You call it dry." in pages.text("today:today")
    assert bundle.tag_shown in pages.text("customers:told", row.uid)
    pages.keep("customers:told", row.uid)
    assert "told Thu 5 Feb 2026" in pages.text("customers:waiting")
    assert "Tell Orla Fenn" not in pages.text("today:today")


def test_every_new_kind_can_be_corrected_and_keeps_its_history(pages, hand, order, line, bundle, orla, sell, day):
    sold = sell("1 kg", customer=orla)
    waiting = actions.wait_for(**hand, customer=orla, on=day("2026-02-01"))
    complaint = actions.complain(**hand, line=sold, on=day("2026-02-02"), what="mould", note="in the middle")
    back = actions.bring_back(**hand, line=sold, on=day("2026-02-03"), much=read_much("half"))
    for record in (order, line, waiting, complaint, back):
        address = f"customers:correct_{record.kind}"
        before = {f.attname: getattr(record, f.attname) for f in record._meta.concrete_fields}
        pages.keep(address, record.uid, why="to see")
        record.refresh_from_db()
        assert record.history.count() == 2, record.kind
        assert {f.attname: getattr(record, f.attname) for f in record._meta.concrete_fields} == before, record.kind
        assert "to see" in pages.text("people:record", record.kind, record.uid)
        assert (
            pages.address(address, record.uid) in pages.open("people:record", record.kind, record.uid).content.decode()
        )


def test_a_complaint_of_a_bundle_that_no_sale_tells_of(pages, bundle, orla):
    pages.keep("customers:complain_of_bundle", bundle.uid, what="black_marks", customer=orla.uid, on="today")
    complaint = Complaint.objects.get()
    assert (complaint.whom, complaint.about) == (orla, bundle)
    assert "black marks" in pages.text("customers:customer", orla.uid)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ({}, "Tap one."),
        ({"what": "brittle", "water": "4 kg"}, "temperature"),
        ({"what": "brittle", "hours": "long"}, "length of time"),
        ({"what": "brittle", "on": "1 Feb 2026"}, "was not sold until"),
    ],
)
def test_a_tired_complaint(pages, sell, typed, sentence):
    sold = sell(on="2026-02-02")
    assert sentence in pages.refused("customers:complain", sold.uid, **({"on": "today"} | typed))
    assert not Complaint.objects.exists()


@pytest.mark.parametrize(
    ("much", "sentence"),
    [("", "Say how much"), ("3 kg", "more than was sold"), ("40 rods", "not in the book that way")],
)
def test_a_tired_return(pages, sell, much, sentence):
    sold = sell("2.3 kg")
    assert sentence in pages.refused("customers:bring_back", sold.uid, much=much)
    assert not Returned.objects.exists()


def test_lists_can_be_narrowed(pages, hand, order, orla, pellock, bundle, cut, sell, day):
    tam = actions.add_customer(**hand, name="Tam Birk")
    red = ground.tied(hand, ground.cut(hand, ground.planted(hand, "Merrow Red")), on=day("2026-01-12"))[0]
    sell("1 kg", customer=orla, on="2026-02-01")
    sold = sell("half", customer=tam, bundle=red, on="2026-02-03", state_said="green")
    actions.complain(**hand, line=sold, on=day("2026-02-04"), what="mould")
    actions.wait_for(**hand, customer=tam, on=day("2026-02-01"))
    actions.take_order(**hand, customer=tam, on=day("2026-02-01"), much=read_much("2 bundles"))
    merrow = red.origins.get().cut.planting.variety

    def found(page, **asked):
        """Of these two, whose rows are listed."""
        text = pages.text(page, **asked).split("Show these")[-1]
        return [name for name in ("Orla Fenn", "Tam Birk") if name in text]

    assert found("customers:sales") == ["Orla Fenn", "Tam Birk"]
    assert found("customers:sales", variety=merrow.uid) == ["Tam Birk"]
    assert found("customers:sales", customer=orla.uid) == ["Orla Fenn"]
    assert found("customers:sales", state="green") == ["Tam Birk"]
    assert found("customers:sales", first="2 Feb") == ["Tam Birk"]
    assert found("customers:sales", last="2 Feb") == ["Orla Fenn"]
    assert found("customers:orders", variety=pellock.uid) == ["Orla Fenn"]
    assert found("customers:orders", customer=tam.uid, status="standing") == ["Tam Birk"]
    assert found("customers:orders", status="filled") == []
    assert found("customers:complaints", what="mould", answered="no") == ["Tam Birk"]
    assert found("customers:complaints", answered="yes") == []
    assert found("customers:waiting", customer=tam.uid, told="no") == ["Tam Birk"]
    page = pages.open("customers:customers", name="birk")
    assert [each.name for each in page.context["page"]] == ["Tam Birk"]
    page = pages.open("customers:customers", wants="order")
    assert {each.name for each in page.context["page"]} == {"Orla Fenn", "Tam Birk"}
    page = pages.open("customers:customers", wants="told")
    assert [each.name for each in page.context["page"]] == ["Tam Birk"]


@pytest.mark.parametrize("page", ["sales", "orders", "waiting", "complaints", "customers"])
def test_an_empty_list_says_what_to_do_first(pages, page):
    assert 'class="empty"' in pages.open(f"customers:{page}").content.decode() or page == "customers"
    asked = pages.text(f"customers:{page}", customer="nobody", first="never", name="zzz")
    assert "Traceback" not in asked


def of_everything(hand, orla, bundle, sell, order, day):
    line = order.lines.get()
    sold = sell("1 kg", customer=orla)
    waiting = actions.wait_for(**hand, customer=orla, on=day("2026-02-01"))
    complaint = actions.complain(**hand, line=sold, on=day("2026-02-02"), what="mould")
    back = actions.bring_back(**hand, line=sold, on=day("2026-02-03"), much=read_much("half"))
    return [
        ("order", order), ("add_line", order), ("cancel_order", order), ("close_order", order), ("reopen_order", order),
        ("correct_order", order), ("correct_orderline", line), ("told", waiting), ("correct_waiting", waiting),
        ("complain", sold), ("complain_of_bundle", bundle), ("complaint", complaint), ("correct_complaint", complaint),
        ("bring_back", sold), ("correct_returned", back),
    ]  # fmt: skip


def test_another_holding_finds_none_of_it(client, ida, other, hand, orla, bundle, sell, order, line, day):
    pages = of_everything(hand, orla, bundle, sell, order, day)
    from django.urls import reverse

    client.force_login(ida)
    for name, record in pages:
        for method in (client.get, client.post):
            assert method(reverse(f"customers:{name}", args=["nether-sallow", record.uid])).status_code == 404, name
    for name in ("fill", "promise_line"):
        address = reverse(f"customers:{name}", args=["nether-sallow", line.uid, bundle.uid])
        assert client.get(address).status_code == 404, name
    sell_all = reverse("customers:sell_bundles", args=["nether-sallow"])
    assert client.get(f"{sell_all}?bundle={bundle.uid}").status_code == 302
    # The records of another book are no choice in one's own.
    typed = {"client_id": str(uuid.uuid4()), "customer": orla.uid, "much": "1 kg", "type": "brown", "on": "today"}
    answer = client.post(reverse("customers:take_order", args=["nether-sallow"]), typed)
    assert "not in your book" in words(answer)
    assert Order.objects.count() == 1


def test_a_reader_sees_but_does_not_write(client, tam, hand, orla, bundle, sell, order, line, day, pages):
    kept = of_everything(hand, orla, bundle, sell, order, day)
    Membership.objects.filter(user=tam).update(role=Membership.Role.READER)
    client.force_login(tam)
    for name in ("sales", "orders", "waiting", "complaints", "customers"):
        pages.open(f"customers:{name}")
    for name, record in kept:
        assert client.post(pages.address(f"customers:{name}", record.uid)).status_code in (403, 405) or name == "order"
    for name in ("take_order", "wait_for", "sell_bundles"):
        assert client.post(pages.address(f"customers:{name}")).status_code == 403, name
    assert "They want more" not in pages.text("customers:order", order.uid)


def test_a_double_tap_is_one_order_one_promise_one_return(pages, bundle, order, line, sell):
    sold = sell("1 kg")
    for name, args, typed, model in [
        ("take_order", [], {"new_customer": "Tam Birk", "much": "1 kg", "type": "brown"}, Order),
        ("promise_line", [line.uid, bundle.uid], {"much": "1 kg"}, OrderPromise),
        ("bring_back", [sold.uid], {"much": "half"}, Returned),
        ("add_line", [order.uid], {"much": "1 kg", "type": "brown"}, OrderLine),
    ]:
        before = model.objects.count()
        sent = {"client_id": str(uuid.uuid4()), "on": "today"} | typed
        for _tap in range(2):
            assert pages.client.post(pages.address(f"customers:{name}", *args), sent).status_code == 302, name
        assert model.objects.count() == before + 1, name
