"""Charts, plans and results to pages, through MkDocs."""
