"""Files of a site that are no pages: those that are shipped, and those that are made for the designer, for another's
theme and for a language."""

from collections.abc import Iterator
from pathlib import Path

from lintarsia.ground.resources import resource
from lintarsia.publishing.pages.appmanifest import app_json
from lintarsia.publishing.pages.frame import DESIGNER_STYLES
from lintarsia.publishing.pages.phrasescript import PHRASES, phrases_script
from lintarsia.publishing.site.hosted import SCRIPT_FILE, SHARED, START_FILE, STYLE_FILE, hosted_scripts, hosted_styles
from lintarsia.publishing.site.pagefiles import CHART_BUNDLE, chart_bundle
from lintarsia.publishing.site.pagespecs import SCRIPTS
from lintarsia.publishing.site.placing import write_inside
from lintarsia.publishing.site.siteplan import SitePlan
from lintarsia.telling.languages import ENGLISH

GUIDES = ("reading", "techniques", "hands", "necks-and-tubes", "infants")


def assets(plan: SitePlan) -> Iterator[tuple[str, Path]]:
    """Styles, scripts and images of a site that is all ours, or of pages in another's: place in the site, and the file
    that is shipped."""
    folder, theirs = resource("site") / "assets", plan.hosted
    for file in sorted(folder.iterdir()):
        if not (file.name in SHARED or file.name == START_FILE if theirs else file.stem != "hosted"):
            continue
        if file.name == PHRASES and plan.language != ENGLISH:
            continue  # it is written with its words
        # A worker may hand out what lies in its own folder and below, so it stands at the head of the site.
        yield plan.layout.worker if file.name == "worker.js" else plan.layout.asset(file.name), file


def guides(plan: SitePlan) -> Iterator[tuple[str, Path]]:
    """Pages written by hand, in Markdown: place in the site, and the file that is shipped."""
    for name in GUIDES:
        yield plan.layout.guide(name), resource("site") / "guide" / f"{name}.md"


def write_own(plan: SitePlan) -> None:
    """Write what is made for this site alone."""
    for name, content in _own(plan):
        write_inside(plan.site, plan.layout.asset(name), content)


def _own(plan: SitePlan) -> Iterator[tuple[str, str | bytes]]:
    imprint = plan.imprint
    if imprint.logo:
        yield imprint.logo_name, imprint.logo
    if plan.hosted:
        yield STYLE_FILE, hosted_styles(imprint)
        yield SCRIPT_FILE, hosted_scripts(SCRIPTS, plan.language)
    elif imprint.styles:
        yield DESIGNER_STYLES, imprint.styles
    if plan.frame is not None:
        yield CHART_BUNDLE, chart_bundle()
    yield "app.json", app_json(plan.title, plan.language)
    if plan.language != ENGLISH:
        yield PHRASES, phrases_script(plan.language)
