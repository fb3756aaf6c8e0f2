// Package view draws every page and every part of a page as a function of plain values: a [Frame] (who looks, where,
// when, in which units), a job, its plan. The server renders pages whole with [Document]; the phone renders the four
// parts [Top], [State], [Page] and [Nav] and puts them where the same ids stand.
//
// It refuses to know addresses' meaning, storage, network, clocks and languages of scripts: it has no net/http, no os,
// no state of its own, and never decides what a tick does. A form says what it wants in the fields of [Action].
//
// Two rules hold everywhere. A helper's page never shows prices, the client's contact or settings. Nothing is drawn by
// inline style or inline script, so that the strictest content policy holds; colours of balloons are SVG fill
// attributes.
//
// Start at [Frame] and [Document]; then one file a page: jobs.go, overview.go, counts.go, pack.go, cards.go, card.go,
// next.go, history.go, phone.go, join.go, trouble.go; parts stand in files of their own: action.go, field.go, beads.go,
// icon.go, pieces of type and number in words.go. How markup is written, as templates, is in markup.go. [Gallery] shows
// them all.
package view
