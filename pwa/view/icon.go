package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// icons are drawn by us on a square of 24, as strokes of 1.8 with round ends.
var icons = map[string]string{
	"next":    "M4 12h14M12.5 6l6 6-6 6",
	"job":     "M4 19V9.5C4 5.5 7.5 3 12 3s8 2.5 8 6.5V19M2.5 19h5M16.5 19h5",
	"jobs":    "M4 6.5h16M4 12h16M4 17.5h10",
	"pieces":  "M4 16.5a2.7 2.7 0 1 0 .1 0M9.2 10.2a2.9 2.9 0 1 0 .1 0M15.6 6.8a2.7 2.7 0 1 0 .1 0M19.6 12.8a2.1 2.1 0 1 0 .1 0",
	"counts":  "M9 4 7 20M17 4l-2 16M4.5 9h16M3.5 15h16",
	"pack":    "M5.2 9h13.6l1 11.2H4.2zM8.8 9V7.4a3.2 3.2 0 0 1 6.4 0V9",
	"cards":   "M7 3.5h10.5A1.5 1.5 0 0 1 19 5v11M5 7.5h9.5A1.5 1.5 0 0 1 16 9v10a1.5 1.5 0 0 1-1.5 1.5H5A1.5 1.5 0 0 1 3.5 19V9A1.5 1.5 0 0 1 5 7.5",
	"calc":    "M6 3.5h12A1.5 1.5 0 0 1 19.5 5v14a1.5 1.5 0 0 1-1.5 1.5H6A1.5 1.5 0 0 1 4.5 19V5A1.5 1.5 0 0 1 6 3.5M8 8h8M8.5 12.5h.01M12 12.5h.01M15.5 12.5h.01M8.5 16.5h.01M12 16.5h.01M15.5 16.5h.01",
	"phone":   "M8.5 2.5h7A1.5 1.5 0 0 1 17 4v16a1.5 1.5 0 0 1-1.5 1.5h-7A1.5 1.5 0 0 1 7 20V4a1.5 1.5 0 0 1 1.5-1.5M11 18.2h2",
	"tick":    "M5 12.8 10 17.5 19.5 6.5",
	"undo":    "M8.5 5 4.5 9l4 4M5 9h8.5a5.5 5.5 0 0 1 0 11H9",
	"back":    "M14.5 5 7.5 12l7 7",
	"open":    "M9.5 5l7 7-7 7",
	"care":    "M12 3.5 2.8 19.5h18.4zM12 10v4.5M12 17h.01",
	"people":  "M8.5 11.5a3.5 3.5 0 1 0-.01 0M2.5 20c0-3.5 2.5-5.5 6-5.5s6 2 6 5.5M15.5 4.8a3.4 3.4 0 0 1 0 6.5M17.5 14.8c2.5.6 4 2.5 4 5.2",
	"clock":   "M12 3.5a8.5 8.5 0 1 0 .01 0M12 7.5V12l3.2 2.2",
	"history": "M4.2 8.5A8.5 8.5 0 1 1 3.5 12M4 3.5v5h5M12 8v4.5l3 1.8",
	"print":   "M7 8V3.5h10V8M7 17H4.5A1.5 1.5 0 0 1 3 15.5v-6A1.5 1.5 0 0 1 4.5 8h15A1.5 1.5 0 0 1 21 9.5v6a1.5 1.5 0 0 1-1.5 1.5H17M7 14h10v6.5H7z",
	"share":   "M12 14.5V3M7.5 7 12 2.8 16.5 7M5 11.5v8.5h14v-8.5",
	"plus":    "M12 5v14M5 12h14",
	"edit":    "M4 20l1-4.5L16 4.5l3.5 3.5-11 11zM13.5 7l3.5 3.5",
	"sun":     "M12 8a4 4 0 1 0 .01 0M12 2.5v2M12 19.5v2M2.5 12h2M19.5 12h2M5.3 5.3l1.4 1.4M17.3 17.3l1.4 1.4M5.3 18.7l1.4-1.4M17.3 6.7l1.4-1.4",
	"away":    "M4 8v11.5h16V8M2.8 3.5h18.4V8H2.8zM9.5 12.5h5",
	"wait":    "M7 3.5h10M7 20.5h10M8 3.5c0 4.5 8 4.5 8 8.5s-8 4-8 8.5M16 3.5c0 4.5-8 4.5-8 8.5s8 4 8 8.5",
	"cut":     "M6.5 14.8a2.7 2.7 0 1 0 .01 0M17.5 14.8a2.7 2.7 0 1 0 .01 0M8 15.5 16.5 3.5M16 15.5 7.5 3.5",
	"home":    "M3.5 11 12 3.5 20.5 11M6 9v11h12V9M10 20v-6h4v6",
	"car":     "M3 16.5v-4l2.5-1L8 7h8l3 4.5 2 1v4H19M9 16.5h6M7 14.5a2 2 0 1 0 .01 0M17 14.5a2 2 0 1 0 .01 0",
	"site":    "M4 20.5V6l8-3 8 3v14.5M2.5 20.5h19M10 20.5v-6h4v6M8.5 9.5h.01M15.5 9.5h.01",
	"scan":    "M4 8V4h4M16 4h4v4M20 16v4h-4M8 20H4v-4M8 8h3v3H8zM13 13h3v3h-3zM8 13.5v2.5h2",
}

// Icon draws one of our icons beside words that say the same: screen readers skip it.
func Icon(name string) g.Node {
	return h.SVG(h.Class("icon"), g.Attr("viewBox", "0 0 24 24"), h.Aria("hidden", "true"),
		g.Attr("focusable", "false"),
		g.El("path", g.Attr("d", icons[name])))
}
