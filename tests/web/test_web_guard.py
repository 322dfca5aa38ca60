"""Who is let in, and what a page may do."""

import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from floorwright.web.app import create_app
from floorwright.web.guard import Guard, hosts_of, new_key
from floorwright.web.pages import script_hashes, version

ORIGIN = "http://localhost:8000"


def test_a_strangers_name_for_this_machine_is_refused(client: TestClient) -> None:
    answer = client.get("/api/jobs", headers={"host": "stranger.example:8000"})
    assert answer.status_code == 421
    assert "address" in answer.json()["error"]["message"]


@pytest.mark.parametrize("origin", ["https://stranger.example", "null", "http://localhost:9000", "file://"])
def test_another_sites_page_changes_nothing(client: TestClient, origin: str) -> None:
    answer = client.post("/api/jobs", json={"name": "x", "text": ""}, headers={"origin": origin})
    assert answer.status_code == 403
    assert client.get("/api/jobs").json()["jobs"] == []


def test_a_change_that_names_no_page_is_refused(app: object, tmp_path: Path) -> None:
    with TestClient(create_app(tmp_path, Guard(hosts=hosts_of(8000))), base_url=ORIGIN) as bare:
        assert bare.post("/api/jobs", json={"name": "x", "text": ""}).status_code == 403


def test_another_sites_page_may_not_load_the_app_s_data(client: TestClient) -> None:
    strange = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors", "sec-fetch-dest": "script"}
    assert client.get("/api/jobs", headers=strange).status_code == 403
    followed = {"sec-fetch-site": "cross-site", "sec-fetch-mode": "navigate", "sec-fetch-dest": "document"}
    assert client.get("/", headers=followed).status_code == 200


def test_on_the_network_the_key_is_asked_for_and_kept_in_a_cookie(tmp_path: Path) -> None:
    key = new_key()
    app = create_app(tmp_path, Guard(hosts=hosts_of(8000), key=key))
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client:
        assert client.get("/").status_code == 401
        assert client.get("/api/jobs", params={"key": "wrong"}).status_code == 401
        opened = client.get("/", params={"key": key})
        assert opened.status_code == 200
        assert "httponly" in opened.headers["set-cookie"].lower()
        assert "samesite=strict" in opened.headers["set-cookie"].lower()
        assert client.get("/api/jobs").status_code == 200


def test_every_answer_carries_the_policy(client: TestClient) -> None:
    for address in ("/", "/api/jobs", "/static/app.js", "/nothing"):
        headers = client.get(address).headers
        policy = headers["content-security-policy"]
        assert "default-src 'none'" in policy
        assert "unsafe-inline" not in policy.split("script-src", 1)[1].split(";", 1)[0]
        assert headers["x-content-type-options"] == "nosniff"


def test_the_pages_one_inline_script_is_the_one_that_the_policy_names(client: TestClient) -> None:
    answer = client.get("/")
    assert answer.text.count("<script") == 2
    assert script_hashes()[0] in answer.headers["content-security-policy"]
    assert "http://" not in answer.text
    assert "https://" not in answer.text


def test_only_the_package_s_own_files_are_served(client: TestClient) -> None:
    assert client.get("/static/vendor/preact.js").headers["content-type"].startswith("text/javascript")
    for name in ("../app.py", "..%2fapp.py", "app.py", "", "vendor", "%2e%2e/pages.py", "app/main.js", "index.html"):
        assert client.get(f"/static/{name}").status_code == 404


def test_a_file_asked_for_by_its_version_is_kept_and_any_other_is_not(client: TestClient) -> None:
    page = client.get("/")
    assert page.headers["cache-control"] == "no-cache"
    kept = re.findall(r'"(/static/[^"]+)"', page.text)
    assert any(address.endswith("/app.js") for address in kept)
    for address in kept:
        found = client.get(address)
        assert found.status_code == 200, address
        assert "immutable" in found.headers["cache-control"]
        name = address.split("/", 3)[3]
        again = client.get(f"/static/{name}", headers={"accept-encoding": "identity"})
        assert again.content == found.content
        assert again.headers["cache-control"] == "no-cache"
        assert (found.headers.get("content-encoding"), again.headers.get("content-encoding")) == ("gzip", None)
    assert client.get(kept[0].replace(version(), "0" * 16)).status_code == 404
