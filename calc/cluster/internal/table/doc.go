// Package table holds what calc/softsphere found for common clusters, kept as text, so
// that a page answers at once. It knows which clusters are in it, how a curve is
// written, and what stands in for a cluster that is not; it refuses to relax
// anything itself.
//
// One size: a curve each, in ten-thousandths. Two sizes: a curve each, in steps
// that are small beside the one or two percent by which strings differ from one
// another. More sizes: two sizes stand in, see standIn, and of three sizes with up
// to four duplets it is kept by how much the pitch is off.
//
// Start at Kept and Book.Curve. The text is in curves_gen.go, which
// internal/tabulate writes.
package table
