// Package view draws every page and every part of a page. Each is a function of plain values: a [Frame] (who looks,
// where, when, in which units), a job, its plan. The server sends whole pages with [Document]. The phone draws the four
// parts [Top], [State], [Page] and [Nav] and puts them where the same ids stand.
//
// Pages are written with gomponents and with the components that they share: button.go, form.go, field.go, list.go,
// notice.go, panel.go, part.go, icon.go. The other files hold one page each. labels.go holds the labels that appear in
// more than one place, format.go writes numbers, times and plurals. Package gallery shows every page.
//
// The package has no I/O, no clock and no state of its own. It never decides what a form does: a form names what it
// wants in the fields of [Action].
//
// Three rules hold everywhere. A helper's page never shows prices, the client's contact or settings. No page has inline
// style or inline script, so that the strictest content policy holds; colours of balloons are SVG fill attributes. A
// function that other packages call never returns nil, since they render what it gives on its own.
package view
