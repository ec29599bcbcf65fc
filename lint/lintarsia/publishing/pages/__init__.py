"""What stands on the pages of a site: each part of a page from a chart, a plan, results or a pattern."""
