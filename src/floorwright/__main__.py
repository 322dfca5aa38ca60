"""`python -m floorwright`, and the `floorwright` command: runs it and turns every ending into an exit code."""

import os
import sys

CODE_BROKEN_PIPE = 0
CODE_USAGE = 2
CODE_FAULT = 3
CODE_STOPPED = 130


def main(arguments: list[str] | None = None) -> None:
    """Runs a command and exits: 0 fine, 1 a finding of severity error, 2 wrong option or argument, 3 our own fault or
    the disk's, 130 stopped by Ctrl-C. No traceback reaches a person unless FLOORWRIGHT_TRACEBACK is set.
    """
    import click

    from floorwright.cli.main import commands

    try:
        code = commands.main(arguments, prog_name="floorwright", standalone_mode=False)
        sys.stdout.flush()
        sys.exit(code if isinstance(code, int) else 0)
    except click.exceptions.Exit as ending:
        sys.exit(ending.exit_code)
    except click.ClickException as problem:
        problem.show()
        sys.exit(CODE_USAGE)
    except (KeyboardInterrupt, click.Abort):
        click.echo("Stopped.", err=True)
        sys.exit(CODE_STOPPED)
    except BrokenPipeError:
        # The reader of our output went away (`| head`): nothing is wrong, and Python must not complain at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(CODE_BROKEN_PIPE)
    except OSError as problem:
        if os.environ.get("FLOORWRIGHT_TRACEBACK"):
            raise
        where = f"{problem.filename}: " if problem.filename else ""
        click.echo(f"floorwright: {where}{problem.strerror or problem}", err=True)
        sys.exit(CODE_FAULT)
    except Exception as fault:
        if os.environ.get("FLOORWRIGHT_TRACEBACK"):
            raise
        click.echo(
            f"floorwright: a fault of ours, not of your job ({type(fault).__name__}: {fault}). Nothing was changed. "
            "Please report it with the job file; FLOORWRIGHT_TRACEBACK=1 shows where it happened.",
            err=True,
        )
        sys.exit(CODE_FAULT)


if __name__ == "__main__":
    main()
