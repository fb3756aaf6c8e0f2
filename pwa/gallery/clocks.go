package gallery

import (
	"garlandry/app/forecast"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
)

// clocks draws the clock of a job four days before the doors and on the day, with something tried out.
func clocks(name string, w page.Deps, root string) []Page {
	var pages []Page
	for _, visit := range []struct {
		name   string
		before int64 // days
		query  form.Values
	}{{"clock-", 4, nil}, {"clock-help-", 4, form.Values{"help": {"1"}}}, {"clock-if-", 4, form.Values{"hands": {"2"},
		"sooner": {"30"}}}, {"clock-day-", 0, nil}} {
		at := w
		at.Now -= visit.before * 24 * 60 * minute
		at.Clocks = &forecast.Cache{AtOnce: true}
		reply := page.Get(at, root+"/clock", visit.query)
		pages = append(pages, Page{visit.name + name, reply.Frame, reply.Body})
	}
	return pages
}
