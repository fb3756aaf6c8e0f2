// Package calc is the one list of calculators: for each its name, inputs with
// units and ranges, outputs, cautions, sources, a worked example and the
// function that does it. The command line, the pages and the documentation are
// made from this list.
//
// The package does not know jobs, colours on screen, HTML, files or clocks.
// The arithmetic is in the packages below it (cluster, latex, outline, stock, rig,
// cargo). Here inputs are read from text, and results are shown step by step and
// drawn to scale. Everything is a pure function of its arguments.
//
// Start at All and Find; then Calculator.Compute takes what a person typed.
// Each calculator is one file of its own name, entered in all.go.
package calc
