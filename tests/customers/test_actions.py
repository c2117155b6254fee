from decimal import Decimal

import pytest

from growers.bundles.models import Taking
from growers.customers import actions
from growers.customers.models import Customer, Sale, SaleLine, Sheet
from growers.customers.queries import due, open_sheet, said_of, sales_of
from growers.drying import actions as drying
from growers.furniture.refusals import Refusal
from growers.people.actions import put_back, strike_out
from growers.stock import actions as stock
from tests import ground


def test_a_sale_by_weight(sell, bundle, orla):
    line = sell("2.3 kg", customer=orla, price=Decimal("23.00"))
    # 2.3 of 6 kg as tied = 0.383333333 of the bundle; 0.616666667 is left.
    assert line.taking.share_ppb == 383_333_333
    bundle.refresh_from_db()
    assert bundle.left_ppb == 616_666_667
    assert line.taking.purpose == Taking.Purpose.SALE
    assert (line.price, line.currency) == (Decimal("23.00"), "GBP")
    assert (line.sale.customer, line.state_said) == (orla, "dry")


def test_what_was_said_that_day_is_kept_with_the_line(sell, oven, bundle):
    oven("110 g", "100 g", "2026-11-10")  # (110 - 100) / 100 = 10 % of the dry weight
    line = sell(on="2026-11-20")
    assert line.answer_said == "dry"
    assert line.how_known_said.startswith("by its own oven test")
    assert line.winter_said == "2025/26"


def test_what_was_said_stays_said_when_the_evidence_changes(sell, oven, hand, wren, day, now, bundle):
    test = oven("110 g", "100 g", "2026-11-10")
    line = sell(on="2026-11-20")
    strike_out(record=test, by=wren, reason="another bundle's rods", at=now)
    drying.give_word(**hand, of=bundle, on=day("2026-11-21"), says="mould")
    assert said_of(bundle, day("2026-11-22")).answer == "damp_found"
    line.refresh_from_db()
    assert line.answer_said == "dry"
    assert "oven test" in line.how_known_said


def test_a_late_entry_says_what_was_known_on_the_day_of_sale(sell, oven):
    oven("110 g", "100 g", "2026-11-10")
    assert sell(on="2026-03-01").answer_said == "cant_say"


def test_winter_said_stays_when_the_cut_is_corrected(sell, hand, wren, bundle, cut, day):
    line = sell()
    other = ground.cut(hand, cut.planting, on=day("2024-12-20"))
    from growers.bundles.actions import was_of_cut

    was_of_cut(**hand, bundle=bundle, cut=other, at=bundle.created_at, why="the old tag said so")
    assert said_of(bundle, day("2026-02-02")).winter == "2024/25"
    line.refresh_from_db()
    assert line.winter_said == "2025/26"


def test_two_bundles_on_one_day_are_one_sale(sell, orla, hand, cut, day):
    second = ground.tied(hand, cut, label="4 ft", on=day("2026-01-11"))[0]
    first = sell(customer=orla)
    assert sell("half", customer=orla, bundle=second).sale == first.sale
    assert sell(on="2026-02-02", customer=orla, much="0.5 kg").sale != first.sale
    assert Sale.objects.count() == 2


def test_somebody_unnamed_begins_a_sale_of_their_own(sell):
    assert sell().sale != sell().sale


def test_a_new_customer_is_written_down_once(sell, holding):
    first = sell(new_customer="Orla Fenn")
    assert first.sale.customer.name == "Orla Fenn"
    assert sell(new_customer="orla  fenn").sale == first.sale
    assert Customer.objects.count() == 1


def test_a_sale_keeps_a_promise(sell, hand, bundle, day):
    from growers.furniture.much import read_much

    promise = stock.promise(**hand, bundle=bundle, whom="Orla Fenn", on=day("2026-01-20"), much=read_much("half"))
    with pytest.raises(Refusal, match="promised to Orla Fenn"):
        sell("4 kg")
    line = sell("3 kg", promise=promise)
    promise.refresh_from_db()
    assert promise.kept_by == line.taking


def test_more_than_there_is_writes_nothing(sell, bundle, orla):
    with pytest.raises(Refusal):
        sell("7 kg", customer=orla)
    assert not Sale.objects.exists()
    assert not SaleLine.objects.exists()


def test_striking_out_a_sale_gives_the_rods_back_and_putting_back_takes_them(sell, bundle, wren, orla, now):
    line = sell("half", customer=orla)
    strike_out(record=line.sale, by=wren, reason="changed their mind", at=now)
    bundle.refresh_from_db()
    assert bundle.left_ppb == 1_000_000_000
    put_back(record=line.sale, by=wren)
    bundle.refresh_from_db()
    line.refresh_from_db()
    assert bundle.left_ppb == 500_000_000
    assert line.struck_out_at is None


def test_a_line_taken_back_gives_its_rods_back_and_leaves_no_sale_in_the_lists(sell, bundle, wren, holding, now):
    line = sell("half")
    assert list(sales_of(holding)) == [line.sale]
    strike_out(record=line, by=wren, reason="taken back", at=now)
    bundle.refresh_from_db()
    assert bundle.left_ppb == 1_000_000_000
    assert not sales_of(holding).exists()


def test_a_sale_moved_to_another_day_moves_its_rods(sell, hand, day, orla):
    line = sell()
    actions.correct_sale(**hand, sale=line.sale, on=day("2026-02-03"), customer=orla, why="read the diary")
    line.taking.refresh_from_db()
    assert line.taking.on == day("2026-02-03")
    with pytest.raises(Refusal, match="not tied until"):
        actions.correct_sale(**hand, sale=line.sale, on=day("2026-01-09"))


def test_price_and_state_are_corrected(sell, hand):
    line = sell(price=Decimal("23.00"))
    actions.correct_sale_line(**hand, saleline=line, state_said="semi_dry", price=None)
    line.refresh_from_db()
    assert (line.price, line.currency, line.state_said) == (None, "", "semi_dry")
    assert line.history.count() == 2


def test_a_sheet_keeps_its_link_through_withdrawing_and_sharing(hand, pellock, day, now):
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-01"))
    token = sheet.token
    assert open_sheet(token, now=now) == sheet
    actions.withdraw_sheet(**hand, sheet=sheet)
    assert open_sheet(token, now=now) is None
    assert actions.share_sheet(**hand, variety=pellock, today=day("2026-02-01")).token == token
    assert open_sheet(token, now=now) == sheet


def test_a_sheet_ends_with_its_last_day_in_the_holdings_zone(hand, pellock, day, holding, utc):
    holding.zone = "Pacific/Auckland"  # 13 hours ahead of UTC in February
    holding.save()
    sheet = actions.share_sheet(**hand, variety=pellock, today=day("2026-02-01"), expires_on=day("2026-02-10"))
    assert open_sheet(sheet.token, now=utc("2026-02-10 10:59")) == sheet
    assert open_sheet(sheet.token, now=utc("2026-02-10 11:00")) is None


def test_a_day_that_is_past_is_refused(hand, pellock, day):
    with pytest.raises(Refusal, match="past"):
        actions.share_sheet(**hand, variety=pellock, today=day("2026-02-01"), expires_on=day("2026-01-31"))
    assert not Sheet.objects.exists()


def test_whoever_bought_dry_rods_is_to_be_told_of_damp(sell, oven, hand, holding, orla, bundle, day, now):
    oven("110 g", "100 g", "2026-11-10")
    line = sell(on="2026-11-20", customer=orla)
    today = day("2026-11-25")
    drying.judge_stale(holding, today)
    assert due(holding, today=today, now=now) == []
    drying.give_word(**hand, of=bundle, on=today, says="mould")
    drying.judge_stale(holding, today)
    (tell,) = due(holding, today=today, now=now)
    assert "Orla Fenn" in tell.sentence
    assert (tell.urgent, tell.page, tell.args) == (True, "customers:sale", (line.sale.uid,))
