"""A warning that our own code gives rise to fails a test; other people's are shown and break nothing."""

import pytest

WARN = "import warnings\nwarnings.warn('planted', {kind})\n"


@pytest.mark.parametrize("module", ["growers", "growers.beds.actions", "tests.beds.test_actions"])
@pytest.mark.parametrize("kind", ["UserWarning", "DeprecationWarning", "RuntimeWarning"])
def test_ours_are_errors(module, kind):
    with pytest.raises(Warning, match="planted"):
        exec(WARN.format(kind=kind), {"__name__": module})  # noqa: S102 - text of our own, a line above


@pytest.mark.parametrize("module", ["pandas.core.frame", "growersly", "another.growers.module"])
def test_other_peoples_are_not(module, recwarn):
    exec(WARN.format(kind="DeprecationWarning"), {"__name__": module})  # noqa: S102 - text of our own, above
    assert [str(warning.message) for warning in recwarn] == ["planted"]
