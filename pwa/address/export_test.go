package address

// Pages returns every page.
func Pages() []Page { return pages[:] }
