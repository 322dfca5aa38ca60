"""A server that stands as long as the tests run, its processes warm: given a folder on its input, it serves that one.

python -m tests.web.browser.standing FOLDER
"""

import sys
import threading
from pathlib import Path

import uvicorn

from floorwright.web.app import Office, create_app
from floorwright.web.book import Book
from floorwright.web.desk import Desk
from floorwright.web.serve import take_post
from floorwright.web.shelf import Shelf


def main() -> None:
    post = take_post(0, lan=False)
    app = create_app(Path(sys.argv[1]), post.guard)
    server = uvicorn.Server(uvicorn.Config(app, log_level="warning", access_log=False, timeout_graceful_shutdown=1))

    def swap() -> None:
        office: Office = app.state.office
        for line in sys.stdin:
            folder = Path(line.rstrip("\n"))
            office.desk = Desk(Shelf(folder), Book(folder))
            office.grounds.clear()
            office.packs.clear()
            print(post.link, flush=True)
        server.should_exit = True

    threading.Thread(target=swap, daemon=True).start()
    server.run(sockets=[post.listener])


if __name__ == "__main__":
    main()
