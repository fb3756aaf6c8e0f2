// Package table holds the curves that calc/softsphere computed for common clusters, as text, so that a page gets an
// immediate answer. It knows which clusters it holds, how a curve is written, and the substitute for a cluster that it
// does not hold. It does not relax anything.
//
// For one size there is one curve each, in ten-thousandths. For two sizes there is one curve each, in steps that are
// small compared with the one or two percent by which strings differ. For more sizes, two sizes replace them, see
// substitute. For three sizes with up to five duplets the table also holds factors that correct the pitch, and
// what is added to the coverage. Growth holds the sizes of all clusters.
//
// Start at Kept and Book.Curve. internal/tabulate writes the text to curves_gen.go.
package table
