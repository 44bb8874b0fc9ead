"""The pocket page: the same engine in a phone's browser, with no signal."""
