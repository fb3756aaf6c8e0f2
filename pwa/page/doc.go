// Package page knows the addresses of the app: which page an address draws, what a posted form means, who may do which.
//
// The server and the phone both call it, so that a page is the same wherever it is drawn. It is pure: [Get] gives a
// page, [Post] says what to write and where to go; the caller writes, then redirects or draws. It refuses to know HTTP,
// storage, links' secrets and clocks.
//
// Start at [Deps] and the table in routes.go; then one small file a page or act.
package page
