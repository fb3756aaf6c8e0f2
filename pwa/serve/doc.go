// Package serve is the HTTP server: pages, forms, sync with phones, event streams and links. It is the only package
// that imports echo. Package page decides what pages show and what forms mean, package sync what enters a log, and
// package store keeps it. This package identifies the visitor and turns errors into answers.
//
// Start at [New].
package serve
