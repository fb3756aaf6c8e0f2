// Package serve answers HTTP: pages, forms, the exchange with phones, news, links in. It is the only package that knows
// echo. What a page says and what a form means is decided by pwa/page, what enters a log by app/sync, what is kept by
// app/store; this package knows who is asking and turns errors into answers, in one place.
//
// Start at [New].
package serve
