"""Making a site: charts drawn over the cores, pages put together by MkDocs, the folder swapped in whole."""
