import pytest

from interchange.fit.ties import Ties


@pytest.mark.parametrize(
    ("tied", "groups"),
    [
        pytest.param([], [], id="nothing"),
        pytest.param(["a"], ["a"], id="one by itself"),
        pytest.param(["ab", "cd"], ["ab", "cd"], id="two apart"),
        pytest.param(["ab", "cd", "bc"], ["abcd"], id="tied afterwards, by way of others"),
        pytest.param(["abc", "de", "f", "ea"], ["abcde", "f"], id="one stays by itself"),
        pytest.param(["ab", "ab", "ba"], ["ab"], id="tied again"),
        pytest.param(["aa"], ["a"], id="to itself"),
    ],
)
def test_groups(tied, groups):
    ties = Ties()
    for names in tied:
        ties.tie(*names)
    assert sorted("".join(sorted(group)) for group in ties.groups()) == groups
