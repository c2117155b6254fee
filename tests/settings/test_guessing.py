"""Guessing passwords at the door."""

import pytest

PASSWORD = "osier-and-sallow"


@pytest.fixture
def knock(client, holding):
    """Tries to sign in at Hallow Carr's door; the status of the answer."""

    def knocked(username="wren", password="wrong", address="192.0.2.7"):
        return client.post("/sign-in/", {"username": username, "password": password}, REMOTE_ADDR=address, secure=True)

    return knocked


def test_the_eighth_wrong_password_closes_the_door_with_a_sentence(knock):
    assert {knock().status_code for _time in range(7)} == {200}
    closed = knock()
    assert closed.status_code == 429
    assert "a quarter of an hour" in closed.content.decode()
    assert knock(password=PASSWORD).status_code == 429


def test_others_and_elsewhere_are_not_shut_out(knock, ida):
    for _time in range(8):
        knock()
    assert knock(username="ida", password=PASSWORD).status_code == 302
    assert knock(password=PASSWORD, address="192.0.2.8").status_code == 302


def test_the_right_password_clears_the_count(knock, client):
    for _time in range(7):
        knock()
    assert knock(password=PASSWORD).status_code == 302
    client.logout()
    assert knock().status_code == 200


def test_a_page_allows_nothing_but_our_own_scripts_and_styles(client, db):
    policy = client.get("/sign-in/", secure=True).headers["Content-Security-Policy"]
    assert "default-src 'self'" in policy
    assert "unsafe" not in policy
    assert client.get("/sign-in/", secure=True).headers["X-Frame-Options"] == "DENY"
