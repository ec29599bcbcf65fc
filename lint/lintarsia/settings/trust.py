"""Whether settings may bring code of their own: not where strangers wrote them, unless whoever runs this says so.

To run the rules that settings name is to run what their writer likes. A pull request is written by anybody, and the
machine that checks it holds the keys of whoever owns it. An editor checks what is opened, before anybody has read it.
"""

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar

REFUSE = "LINTARSIA_REFUSE_OUTSIDE_RULES"
ALLOW = "LINTARSIA_ALLOW_OUTSIDE_RULES"
OPTION = "--allow-outside-rules"

# What CI systems set for a proposed change alone, from memory of what their makers document. Of
# several names in one entry all have to be set; some systems state "false" for all other runs.
PROPOSED: tuple[tuple[str, ...], ...] = (
    ("GITHUB_HEAD_REF",),
    ("CI_MERGE_REQUEST_ID",),
    ("CI_MERGE_REQUEST_IID",),
    ("CI_EXTERNAL_PULL_REQUEST_IID",),
    ("CI_COMMIT_PULL_REQUEST",),
    ("TRAVIS_PULL_REQUEST",),
    ("CIRCLE_PULL_REQUEST",),
    ("CIRCLE_PR_NUMBER",),
    ("APPVEYOR_PULL_REQUEST_NUMBER",),
    ("SYSTEM_PULLREQUEST_PULLREQUESTID",),
    ("BITBUCKET_PR_ID",),
    ("BUILDKITE_PULL_REQUEST",),
    ("DRONE_PULL_REQUEST",),
    ("CIRRUS_PR",),
    ("SEMAPHORE_GIT_PR_NUMBER",),
    ("CHANGE_ID", "JENKINS_URL"),
)
# What began the run, where that is said in a word: how the word begins.
EVENTS: Mapping[str, tuple[str, ...]] = {
    "GITHUB_EVENT_NAME": ("pull_request",),  # pull_request_target, which holds the keys, among them
    "CI_PIPELINE_SOURCE": ("merge_request", "external_pull_request"),
    "CI_PIPELINE_EVENT": ("pull_request",),
    "DRONE_BUILD_EVENT": ("pull_request",),
    "BUILD_REASON": ("PullRequest",),
    "CODEBUILD_WEBHOOK_EVENT": ("PULL_REQUEST",),
}
VARIABLES = frozenset({REFUSE, ALLOW, *(name for names in PROPOSED for name in names), *EVENTS})

_handed_over: ContextVar[bool] = ContextVar("handed_over", default=False)


@contextmanager
def handed_over() -> Iterator[None]:
    """While an editor or a pipe hands a chart over: nobody need have looked at the settings that hold for its name."""
    token = _handed_over.set(True)
    try:
        yield
    finally:
        _handed_over.reset(token)


def refusal(environ: Mapping[str, str]) -> str | None:
    """Why rules from elsewhere are refused here, for the user; None where they may run."""
    if environ.get(REFUSE):
        return f"rules from elsewhere run code of their own, which {REFUSE} forbids here"
    if environ.get(ALLOW):
        return None
    variable = proposed_by(environ)
    if variable is not None:
        why = f"are refused where CI runs a pull request ({variable} says so)"
    elif _handed_over.get():
        why = "are refused for a chart that is handed over by an editor or a pipe"
    else:
        return None
    return f"rules from elsewhere run code of their own, and {why}; {OPTION} lets them run"


def proposed_by(environ: Mapping[str, str]) -> str | None:
    """The variable by which CI says that it runs a change that is only proposed; None where none does."""
    for names in PROPOSED:
        if all(environ.get(name, "") not in ("", "false", "0") for name in names):
            return names[0]
    return next((name for name, words in EVENTS.items() if environ.get(name, "").startswith(words)), None)


@contextmanager
def allowed() -> Iterator[None]:
    """While whoever runs this has said that they may; by the environment, so that other processes know it too."""
    before = os.environ.get(ALLOW)
    os.environ[ALLOW] = "1"
    try:
        yield
    finally:
        if before is None:
            del os.environ[ALLOW]
        else:
            os.environ[ALLOW] = before
