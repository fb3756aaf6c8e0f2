// Package page decides which page an address draws, what a posted form means, and who may do which.
//
// The server and the phone both call it, so that a page is the same wherever it is drawn. It is pure: [Get] gives a
// page, [Post] says what to write and where to go; the caller writes, then redirects or draws. It knows nothing of
// HTTP, storage, secrets of links and clocks.
//
// Start at [Deps] and the table in routes.go; then one small file a page or act.
package page
