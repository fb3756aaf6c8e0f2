// Package outline measures the lines that pieces follow: a straight line, a
// circular arc, an arch, a hoop, an ellipse, a parabola, a hanging (catenary)
// swag and a free curve through points.
//
// Every measure is in millimetres. Lengths are along the line itself, from the
// closed formula where there is one and otherwise from Gauss-Legendre
// quadrature good to about nine digits; nothing is rounded here.
//
// The package does not know balloons, recipes or frames: it takes
// measures and returns lengths, equal sections and points to draw. Start at
// [Shape], which gathers the measures of any of the lines, or at the function
// named after the line, such as [ArchMM].
package outline
