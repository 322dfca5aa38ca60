"""`python -m floorwright`, and the `floorwright` command: runs it and turns every ending into an exit code."""

import os
import sys

from floorwright.cli import codes

TRACEBACK = "FLOORWRIGHT_TRACEBACK"


def main(arguments: list[str] | None = None) -> None:
    """Runs a command and exits: 0 fine, 1 a finding of severity error, 2 wrong option or argument, 3 our own fault or
    the disk's, 130 stopped by Ctrl-C. No traceback reaches a person unless FLOORWRIGHT_TRACEBACK is set.
    """
    # Small matrices gain nothing from a second thread, and sums split among threads differ in their last bits.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        code = _run(sys.argv[1:] if arguments is None else arguments)
        sys.stdout.flush()
    except KeyboardInterrupt:
        sys.stderr.write("Stopped.\n")
        code = codes.STOPPED
    except BrokenPipeError:
        # The reader of our output went away (`| head`): nothing is wrong, and Python must not complain at exit.
        sys.stdout = open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123, SIM115 - open until the very end
        code = codes.FINE
    except Exception as fault:
        if os.environ.get(TRACEBACK):
            raise
        sys.stderr.write(f"floorwright: {_excuse(fault)}\n")
        code = codes.FAULT
    sys.exit(code)


def _run(arguments: list[str]) -> int:
    """Runs a command and returns its exit code.

    Not by `click.Command.main`, which takes Ctrl-C and broken pipes for ends of its own.
    """
    import click

    from floorwright.cli.main import commands
    from floorwright.cli.say import warn

    try:
        with commands.make_context("floorwright", list(arguments)) as context:
            commands.invoke(context)
    except click.exceptions.Exit as ending:
        return ending.exit_code
    except click.exceptions.NoArgsIsHelpError as bare:
        warn(bare.format_message())
        return codes.USAGE
    except click.ClickException as problem:
        where: click.Context | None = getattr(problem, "ctx", None)
        hint = f" (`{where.command_path} --help` shows how.)" if where else ""
        warn(f"floorwright: {problem.format_message()}{hint}")
        return codes.USAGE
    return codes.FINE


def _excuse(fault: Exception) -> str:
    """Returns in one line what went wrong that is no fault of the job: the disk's, or ours."""
    said = " ".join(str(fault).split())
    if isinstance(fault, OSError):
        where = f"{fault.filename}: " if fault.filename else ""
        return f"the disk refuses: {where}{fault.strerror or said}"
    return (
        f"a fault of ours, not of your job ({type(fault).__name__}: {said}). No file of yours was changed. "
        f"Please report it with the job file; {TRACEBACK}=1 shows where it happened."
    )


if __name__ == "__main__":
    main()
