"""A small sound book with every kind of entry in it, and every relation between entries in use."""

from datetime import UTC, date, datetime
from types import SimpleNamespace

from growers.baskets.models import Basket, Pattern, PatternPart, RodsUsed, StayedTight
from growers.beds.models import Bed, GapUp, HealthNote, Planting, Variety
from growers.bundles import actions as bundles
from growers.customers.models import (
    Complaint,
    Customer,
    Order,
    OrderLine,
    OrderPromise,
    Returned,
    Sale,
    SaleLine,
    Sheet,
    Waiting,
)
from growers.drying.models import (
    AirFile,
    AirReading,
    DrynessAnswer,
    MeterReading,
    OvenTest,
    PooledRates,
    Weighing,
    Word,
)
from growers.furniture.much import read_much
from growers.harvest.models import Cut, CuttingDay, GreenOut, LengthClass
from growers.people.actions import write
from growers.people.rules import name_key
from growers.science.units import read_mass
from growers.soaking.models import (
    Batch,
    BenchResult,
    BendCheck,
    DriedAgain,
    GoneOver,
    Lift,
    Mellow,
    Redamp,
    Spoiled,
    Steam,
    Tank,
    WaterReading,
)
from growers.stock import actions as stock

CUT_ON, TIED_ON, LATER = date(2025, 12, 28), date(2026, 1, 10), date(2026, 6, 1)
NOON = datetime(2026, 6, 1, 12, tzinfo=UTC)


class Book:
    """Writes entries, keyword by keyword, into one holding."""

    def __init__(self, holding, by):
        self.holding, self.by = holding, by

    def add(self, model, **fields):
        return write(model(holding=self.holding, **fields), by=self.by)

    def named(self, model, name, **fields):
        return self.add(model, name=name, name_key=name_key(name), **fields)

    def do(self, action, **said):
        return action(holding=self.holding, by=self.by, **said)


def ground(holding, by):
    """Two plantings, a cut of each, lengths, a place and a tank: what a ledger stands on."""
    book = Book(holding, by)
    bed = book.named(Bed, "Beck Side")
    red, tansel = book.named(Variety, "Merrow Red"), book.named(Variety, "Grey Tansel")
    plantings = [
        book.add(Planting, bed=bed, variety=variety, planted_year=2019, stools=300) for variety in (red, tansel)
    ]
    cuts = [book.add(Cut, planting=planting, first_on=CUT_ON) for planting in plantings]
    for each in cuts:
        book.add(CuttingDay, cut=each, on=CUT_ON, bundles=9)
    lengths = [
        book.add(LengthClass, label=f"{feet} ft", name_key=f"{feet} ft", min_m=feet * 0.3048, max_m=(feet + 1) * 0.3048)
        for feet in (4, 5)
    ]
    place = book.do(bundles.add_place, name="Long Shed")
    tank = book.named(Tank, "Old Trough")
    return SimpleNamespace(
        book=book,
        bed=bed,
        varieties=[red, tansel],
        plantings=plantings,
        cuts=cuts,
        lengths=lengths,
        place=place,
        tank=tank,
    )


def tied(base, cut=0, how_many=1, **said):
    said = {"on": TIED_ON, "length_class": base.lengths[1], "mass": read_mass("6 kg"), "rods": 240} | said
    return base.book.do(bundles.tie, cut=base.cuts[cut], how_many=how_many, **said)


def sound_book(holding, by):
    """Everything a book can hold, once or more; each part by the ledger's own actions where it has any."""
    base = ground(holding, by)
    shed(base)
    ledger(base)
    dry(base)
    soak(base)
    sell(base)
    return base


def shed(base):
    book = base.book
    book.add(GapUp, planting=base.plantings[0], on=TIED_ON, stools=40)
    book.add(HealthNote, planting=base.plantings[0], on=LATER, what="rust")
    book.add(GreenOut, cut=base.cuts[0], on=CUT_ON, what="sets", where="sold", pieces=50)
    base.reds = tied(base, 0, 4, place=base.place)
    base.tansels = tied(base, 1, 2, place=base.place)
    base.stack = book.do(
        bundles.stack_up, name="North rack", bundles=base.reds[:2], on=TIED_ON, telltales=base.reds[:1]
    )
    bought_on = {"on": TIED_ON, "length_class": base.lengths[1]}
    [base.bought] = book.do(bundles.buy_in, supplier="Ida Rushby", variety=base.varieties[0], **bought_on)
    base.found = book.do(bundles.find, likely_variety=base.varieties[0], **bought_on)
    find = base.found.origins.get().find
    book.do(bundles.settle_find, find=find, variety=base.varieties[1])


def ledger(base):
    book, on = base.book, LATER
    base.scale = book.do(stock.correct_scale, from_on=TIED_ON, to_on=TIED_ON, factor=1.04, why="read light")
    base.mixed = book.do(stock.merge, bundles=[base.reds[3], base.tansels[1]], on=on)
    base.child = base.mixed.bundles.get()
    base.promise = book.do(stock.promise, bundle=base.reds[2], whom="Orla Fenn", on=on, much=read_much("1 kg"))
    base.gone = book.do(
        stock.take_out, bundle=base.reds[2], on=on, purpose="gone", gone="given", much=read_much("1 kg"),
        promise=base.promise,
    )  # fmt: skip
    base.count = book.do(stock.count, bundle=base.reds[2], on=on, why="unwritten", mass=read_mass("4 kg"))
    base.count_scale = book.do(stock.correct_scale, from_on=on, to_on=on, factor=0.99, why="read heavy")


def dry(base):
    book, on = base.book, LATER
    red = base.reds[0]
    weighed = {"mass_kg": 5.0, "mass_unit": "kg", "mass_text": "5"}
    base.weighing = book.add(Weighing, bundle=red, on=on, scale=base.scale, **weighed)
    for thing in ({"cut": base.cuts[0]}, {"stack": base.stack}, {"bundle": red}):
        book.add(OvenTest, on=on, wet_g=100, dry_g=80, **thing)
        book.add(MeterReading, on=on, moisture=0.2, **thing)
        book.add(Word, on=on, says="dry", **thing)
    file = book.add(AirFile, place=base.place, kept=1, first_at=NOON, last_at=NOON)
    book.add(AirReading, place=base.place, at=NOON, temperature_c=12, humidity=0.7, file=file)
    rates = book.add(PooledRates, on=on, rates={"log_k": -3.6})
    book.add(
        DrynessAnswer,
        bundle=red,
        judged_on=on,
        bundle_evidence_no=1,
        holding_evidence_no=1,
        rates=rates,
        answer="not_yet",
        how_known="measured",
        details={"chances": 3},
    )


def soak(base):
    book, on = base.book, LATER
    part = read_much("a third")
    taking = book.do(stock.take_out, bundle=base.reds[1], on=on, purpose="soak", much=part)
    book.add(
        WaterReading,
        tank=base.tank,
        at=NOON,
        temperature_c=9,
        low_c=9,
        high_c=9,
        temperature_text="9",
        temperature_unit="C",
    )
    base.batch = book.add(
        Batch,
        taking=taking,
        tank=base.tank,
        in_at=NOON,
        in_until_at=NOON,
        in_water_ppb=500_000_000,
        left_ppb=500_000_000,
    )
    base.check = book.add(BendCheck, batch=base.batch, at=NOON, result="folds")
    base.lift = book.add(Lift, batch=base.batch, at=NOON, until_at=NOON, part_ppb=500_000_000)
    book.add(Steam, lift=base.lift, at=NOON, minutes=40)
    book.add(Redamp, lift=base.lift, how="soaked", tank=base.tank, at=NOON)
    book.add(GoneOver, lift=base.lift, on=on)
    base.mellow = book.add(Mellow, lift=base.lift, began_at=NOON)
    base.bench = book.add(BenchResult, lift=base.lift, at=NOON, result="right")
    new = bundles.NewBundle(1_000_000_000, base.lengths[1])
    base.again = book.do(bundles.dried_again, parent=base.reds[1], new=new, on=on)
    base.dried = book.add(DriedAgain, batch=base.batch, bundle=base.again, on=on, part_ppb=200_000_000)
    base.spoiled = book.add(Spoiled, batch=base.batch, on=on, part_ppb=100_000_000, cause="slimy")
    pattern = book.named(Pattern, "round log basket")
    book.named(PatternPart, "stakes", pattern=pattern, rods=24, length_class=base.lengths[1])
    base.basket = book.add(Basket, name="log basket", pattern=pattern, made_on=on)
    base.used = book.add(
        RodsUsed,
        basket=base.basket,
        batch=base.batch,
        part_of_batch_ppb=200_000_000,
        said_how="part",
        said_text="a fifth",
    )
    unsoaked = book.do(stock.take_out, bundle=base.tansels[0], on=on, purpose="work", much=part)
    base.unsoaked = book.add(RodsUsed, basket=base.basket, taking=unsoaked, said_how="part", said_text="a third")
    book.add(StayedTight, basket=base.basket, on=on, result="tight")


def sell(base):
    book, on = base.book, LATER
    base.customer = book.named(Customer, "Orla Fenn")
    base.sale = book.add(Sale, customer=base.customer, on=on)
    base.sold = book.do(stock.take_out, bundle=base.tansels[0], on=on, purpose="sale", much=read_much("half"))
    like = {"variety": base.varieties[1], "length_class": base.lengths[1]}
    order = book.add(Order, customer=base.customer, on=on)
    wanted = {"much_how": "mass", "much_value": 2, "much_unit": "kg", "much_text": "2 kg"}
    order_line = book.add(OrderLine, order=order, **wanted, **like)
    book.add(OrderPromise, order_line=order_line, promise=base.promise)
    book.add(Waiting, customer=base.customer, on=on, **like)
    base.line = book.add(SaleLine, sale=base.sale, taking=base.sold, order_line=order_line)
    new = bundles.NewBundle(1_000_000_000, base.lengths[1])
    base.back = book.do(bundles.came_back, parent=base.tansels[0], new=new, on=on, soaked_before=False)
    base.returned = book.add(
        Returned, line=base.line, bundle=base.back, on=on, part_ppb=500_000_000, said_how="part", said_text="half"
    )
    book.add(Complaint, line=base.line, on=on, what="brittle")
    book.add(Complaint, bundle=base.back, customer=base.customer, on=on, what="brittle")
    book.add(Sheet, variety=base.varieties[0])
    book.add(Sheet, bundle=base.reds[0])
