// Package serve is the HTTP server: pages, forms, sync with phones, event streams and links. It is the only package
// that imports echo. Package page decides what pages say and what forms mean, package sync what enters a log, and
// package store keeps it. This package knows who is asking and turns errors into answers.
//
// Start at [New].
package serve
