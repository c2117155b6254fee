class Refusal(Exception):
    """What was asked cannot be done. The sentence is fit to show, and says what would be right."""

    def __init__(self, sentence, field=None):
        super().__init__(sentence)
        self.sentence = sentence
        self.field = field


class Unread(Refusal):
    """What was typed could not be read at all, so another way of reading it may be tried."""
