// Package outline measures the lines that pieces follow: straight line, circular arc, arch, hoop, ellipse, parabola,
// hanging (catenary) swag, and free curve through points.
//
// Measures are in millimetres. Lengths are along the line: from the closed formula where there is one, otherwise from
// Gauss-Legendre quadrature good to about nine digits. Nothing is rounded.
//
// The package does not know balloons, recipes or frames. It takes measures and returns lengths, equal sections and
// points to draw. Start at [Shape], which holds the measures of any line, or at the function named after the line, such
// as [ArchMM].
package outline
