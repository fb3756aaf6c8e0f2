// Package table holds the curves that calc/softsphere found for common clusters, as
// text, so a page answers at once. It knows which clusters it holds, how a curve is
// written, and the substitute for a cluster that it does not hold. It does not relax
// anything itself.
//
// One size: a curve each, in ten-thousandths. Two sizes: a curve each, in steps
// that are small beside the one or two percent by which strings differ from one
// another. More sizes: two sizes replace them, see substitute. For three sizes with up
// to five duplets the table also holds factors that correct pitch and girth.
//
// Start at Kept and Book.Curve. The text is in curves_gen.go, which
// internal/tabulate writes.
package table
