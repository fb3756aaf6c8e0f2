// Package table holds the curves of common recipes, made by calc/nest and kept
// as text, so that a page answers at once. It knows which recipes are in it and
// how a curve is written; it refuses to relax anything itself.
//
// Start at Mixed and Alike. The curves are in curves_gen.go, which
// internal/tabulate writes.
package table
