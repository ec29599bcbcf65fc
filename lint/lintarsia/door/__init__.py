"""The Python door: what `import lintarsia` hands out. Commands are for people and pipes, this is for scripts."""
