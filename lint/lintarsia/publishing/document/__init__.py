"""A pattern as a document to publish: one model of it, written as HTML, Markdown or PDF."""
