"""The run of MkDocs that builds a whole site with our own theme."""

import logging
import os

from mkdocs.commands.build import build
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import Abort, PluginError

from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.madepage import EXTENSIONS
from lintarsia.publishing.site.making import Making
from lintarsia.publishing.site.plugin import LintarsiaPlugin


def build_pages(making: Making, docs: str) -> None:
    """Build a whole site of ours where its plan says; `docs` is an empty folder. Raises Trouble on any failure."""
    plan = making.plan
    plugin = LintarsiaPlugin(making)
    config = MkDocsConfig(config_file_path=os.path.join(os.path.dirname(docs), "mkdocs.yml"))
    config.load_dict(
        {
            "site_name": plan.title,
            "site_dir": plan.site,
            "docs_dir": docs,
            "use_directory_urls": plan.layout.folders,
            "theme": {"name": None, "custom_dir": str(resource("site") / "theme")},
            "plugins": [],
            "markdown_extensions": list(EXTENSIONS),
            **({"site_url": plan.frame.site_url} if plan.frame and plan.frame.site_url else {}),
        }
    )
    errors, _ = config.validate()
    if errors:
        raise Trouble("; ".join(f"{key}: {' '.join(str(error).split())}" for key, error in errors))
    config.theme.static_templates = set()
    plugin.load_config({})
    config.plugins["lintarsia"] = plugin
    logging.getLogger("mkdocs").setLevel(logging.CRITICAL)  # what goes wrong is raised, and told once
    try:
        with making.speaking():
            build(config)
    except (Abort, PluginError) as failure:
        told = failure.__context__ if isinstance(failure, Abort) and failure.__context__ else failure
        raise Trouble(str(told).removeprefix("lintarsia: ")) from None
