from django.shortcuts import render

from growers.drying.actions import judge_stale
from growers.furniture.lists import paged

from ..filters import ShedFilter
from ..queries.shed import shed_bundles, shed_rows


def shed(request):
    judge_stale(request.holding, request.today)
    bundles = shed_bundles(request.holding)
    narrow = ShedFilter(request.GET, bundles, holding=request.holding, today=request.today, now=request.now)
    page = paged(request, narrow.qs)
    context = {"filter": narrow, "page": page, "rows": shed_rows(request.holding, page.object_list, request.today)}
    return render(request, "stock/shed.html", context)
