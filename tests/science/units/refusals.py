"""What a reader refuses."""

import pytest

from growers.science.units import UnitError


def refusal(reader, text, **how):
    """The UnitError that reading `text` raises; its text and kind are checked here for all."""
    with pytest.raises(UnitError) as caught:
        reader(text, **how)
    assert caught.value.params["text"] == (text or "").strip()
    assert caught.value.params["kind"] == reader.__name__.removeprefix("read_")
    return caught.value
