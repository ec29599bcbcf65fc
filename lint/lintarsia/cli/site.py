"""`lintarsia site`: charts in, a folder of pages out; or served, and made anew when a chart changes."""

import os
from collections.abc import Callable
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import Seconds
from lintarsia.cli.ofpattern import is_pattern, pieces_and_sizes
from lintarsia.cli.output import refuse_source, write_answer
from lintarsia.cli.overlooked import refuse_misnamed_alone, why_none
from lintarsia.cli.progress import counter
from lintarsia.cli.settings_option import allow_outside_rules, named_settings
from lintarsia.ground.trouble import SettingsTrouble, Trouble

if TYPE_CHECKING:
    from lintarsia.settings import Settings


@click.command(short_help="Make pages of charts.")
@click.argument("paths", nargs=-1, type=click.Path())
@click.option("--output", "-o", type=click.Path(), metavar="FOLDER", help="Where the pages go; a file with --single.")
@click.option("--title", help="What the site is called.  [default: Charts; with --public, Patterns]")
@click.option("--base-url", default="", metavar="URL", help="Where the site will be found, for link previews.")
@click.option("--changes-from", multiple=True, metavar="REV", help="Tell what has changed since a git revision that "
              "went out. May be given several times.")  # fmt: skip
@click.option("--language", metavar="CODE", help="Of the pages' own words: en, de, fr or nb.  "
              "[default: as the settings say]")  # fmt: skip
@click.option("--public", is_flag=True, help="For everybody: what a knitter needs, and no results.")
@click.option("--single", is_flag=True, help="One chart or piece as one file, to be sent by mail.")
@pieces_and_sizes
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file for every chart.")
@allow_outside_rules
@click.option("--jobs", type=click.IntRange(1), help="Processes to use at most (default: as many as pay).")
@click.option(
    "--most-seconds",
    type=Seconds(),
    metavar="N",
    help="End the work on a chart after N seconds: its page says so, and the exit status is 1.",
)
@click.option("--serve", is_flag=True, help="Show the pages here, and make them anew when a chart changes.")
@click.option("--host", default="127.0.0.1", show_default=True, help="With --serve: the address to listen at.")
@click.option("--port", type=click.IntRange(0, 65535), default=8321, show_default=True, help="With --serve.")
def command(
    paths: tuple[str, ...],
    output: str | None,
    title: str | None,
    base_url: str,
    changes_from: tuple[str, ...],
    language: str | None,
    public: bool,
    single: bool,
    piece: str | None,
    size: str | None,
    settings_file: str | None,
    jobs: int | None,
    most_seconds: float | None,
    serve: bool,
    host: str,
    port: int,
) -> int:
    """Make pages to knit from of the charts that PATHS name (default: the current folder).

    The pages need no server: they open from a disk. An old site stands until the new one is whole, and files in
    FOLDER that are not of its making stay. With --public they are for everybody: patterns, charts and the guide,
    without results, rules and test knits. With --single one chart, or one piece of a pattern in one size, becomes one
    file that needs nothing else. Exit status: 0 made, 1 made but for charts that were not finished in the time given,
    2 not made.

    \b
    Examples:
      lintarsia site -o pages
      lintarsia site charts --title "My charts" -o pages
      lintarsia site charts --changes-from v1.0 -o pages
      lintarsia site charts --serve
      lintarsia site charts --public -o shop
      lintarsia site charts --language de -o seiten
      lintarsia site --single fox.chart.yaml -o fox.html
    """
    if single:
        settings = named_settings(settings_file)
        odd = serve or most_seconds is not None
        return _single(paths, output, settings, piece, size, public=public, language=language or "", serve=odd)
    if piece is not None or size is not None:
        raise click.UsageError("--piece and --size go with --single; a site has a page for every piece and size")
    if output is None and not serve:
        raise click.UsageError("name a folder for the pages with --output, or look at them with --serve")
    if base_url and not base_url.startswith(("http://", "https://")):
        raise Trouble(f"--base-url {base_url!r} is no web address; it starts with https:// or http://")

    def build(folder: str) -> tuple[str, ...]:
        settings = named_settings(settings_file)  # anew each time: where pages are served, they may have changed
        named = paths or (".",)
        refuse_misnamed_alone(named, settings)
        from lintarsia.publishing.site.building import build_site

        built = build_site(
            named,
            folder,
            title=title or "",
            base_url=base_url,
            public=public,
            settings=settings,
            cores=jobs,
            progress=counter("drawing charts", 10),
            most_seconds=most_seconds,
            changes_from=changes_from,
            language=language or "",
        )
        if not built.files:  # its overview says the same, and whoever begins a site before the first chart has no fault
            click.echo(f"lintarsia: {why_none(named)}", err=True)
        for file in built.late:
            click.echo(f"lintarsia: {file} took longer than {most_seconds:g} s; its page says so", err=True)
        return built.late

    if not serve:
        assert output is not None
        late = build(output)
        click.echo(f"made {os.path.join(output, 'index.html')}")
        return FOUND if late else OK
    from lintarsia.ground.scratch import scratch_folder

    with scratch_folder() as scratch:
        folder = output if output is not None else os.path.join(scratch, "site")
        watched = [*(paths or (".",)), *_settings_files(paths, settings_file)]
        _serve(lambda: build(folder), watched, folder, host, port, language or "")
    return OK


def _single(
    paths: tuple[str, ...], output: str | None, settings: "Settings | None", piece: str | None, size: str | None, *,
    public: bool, language: str, serve: bool,
) -> int:  # fmt: skip
    if len(paths) != 1 or serve:
        raise click.UsageError(
            "--single makes one file of one chart or pattern: name it, without --serve or --most-seconds"
        )
    file = output if output is not None else f"{os.path.basename(paths[0]).partition('.')[0]}.html"
    refuse_source(file, "an answer", "with --output", paths)  # before the page is made
    from lintarsia.publishing.site.building import build_single

    is_pattern(paths[0], piece, size)
    page = build_single(paths[0], settings, piece=piece, size=size, public=public, language=language)
    write_answer(file, page, paths)
    click.echo(f"made {file}")
    return OK


def _serve(build: Callable[[], object], watched: list[str], folder: str, host: str, port: int, language: str) -> None:
    from lintarsia.publishing.site.serving import Serving

    Serving(build, watched, folder, host=host, port=port, language=language, tell=click.echo).run()


def _settings_files(paths: tuple[str, ...], given: str | None) -> list[str]:
    """The settings files that hold for `paths`, watched like the charts."""
    if given is not None:
        return [given]
    from lintarsia.settings import find_settings

    found: set[str | None] = set()
    for path in paths or (".",):
        try:
            found.add(find_settings(path).file)
        except SettingsTrouble as trouble:  # told by the build; when it is mended, that is seen
            found.add(trouble.file)
    return [file for file in found if file is not None]
