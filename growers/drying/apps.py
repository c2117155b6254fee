from growers.furniture import stages


class Stage(stages.Stage):
    name = "growers.drying"
