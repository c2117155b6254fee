"""What the stages after this one do when something befalls their records."""


class Hook:
    """What stages do when something befalls a kind of record; several may have their say about one kind."""

    def __init__(self):
        self.acts = []

    def register(self, model):
        def keep(act):
            self.acts.append((model, act))
            return act

        return keep

    def __call__(self, record, **said):
        for model, act in self.acts:
            if isinstance(record, model):
                act(record, **said)


before_strike_out = Hook()  # act(record, *, by)
on_strike_out = Hook()  # act(record, *, by)
on_put_back = Hook()  # act(record, *, by)
on_correct = Hook()  # act(record, *, before, by)
