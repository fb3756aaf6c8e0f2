// Package page decides which page an address draws, what a posted form means, and who may do what.
//
// The server and the phone both call it, so a page is the same on both. It is pure: [Get] returns a page, [Post]
// returns what to write and where to go. The caller writes, then redirects or draws. It knows no HTTP, storage, link
// secrets or clocks.
//
// Start at [Deps] and the table in routes.go. Each page or act has one small file.
package page
