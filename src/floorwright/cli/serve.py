"""`floorwright serve`."""

from pathlib import Path

import click

from floorwright.cli.say import say, warn


@click.command("serve")
@click.argument("folder", metavar="[FOLDER]", type=click.Path(path_type=Path, file_okay=False), default=Path())
@click.option("--port", type=click.IntRange(0, 65535), help="Which port to take; the next free one if not said.")
@click.option("--no-browser", is_flag=True, help="Open no browser: only print the link.")
@click.option("--lan", is_flag=True, help="Let others on the same network in, by a link with a key.")
def command(folder: Path, port: int | None, no_browser: bool, lan: bool) -> None:
    """Opens the working screen in the browser, for the job files of a folder.

    Without a FOLDER it is the one that you are in. Ctrl-C ends it.
    """
    from floorwright.web.serve import qr_text, serve, take_post

    folder.mkdir(parents=True, exist_ok=True)
    try:
        post = take_post(port, lan=lan)
    except OSError as error:
        raise click.ClickException(f"Port {port} is taken. Give another, or leave --port out.") from error

    def started() -> None:
        say(f"floorwright is at {post.link}")
        if post.lan is not None:
            say(f"On the same network: {post.lan}\n\n{qr_text(post.lan)}")
            warn(
                "Whoever has that link can read and change every job in this folder, and what is sent is not "
                "encrypted: use it on a network that you trust, and end it with Ctrl-C when you are done."
            )
        if not no_browser:
            click.launch(post.link)

    serve(folder.resolve(), post, started)
