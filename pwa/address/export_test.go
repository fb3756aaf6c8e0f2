package address

// Pages gives every page.
func Pages() []Page { return pages[:] }
