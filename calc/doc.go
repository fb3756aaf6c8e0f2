// Package calc is the list of calculators. Each has its name, inputs with units and ranges, outputs, cautions, sources,
// a worked example and its function. The command line, the pages and the documentation are made from this list.
//
// The package does not know jobs, colours on screen, HTML, files or clocks. The arithmetic is in the packages below it
// (cluster, latex, outline, stock, rig, cargo). This package parses inputs, and shows results step by step and drawn to
// scale. Everything is a pure function of its arguments.
//
// Start at All and Find; Calculator.Compute then takes what a person typed. Each calculator is one file of its own
// name, listed in all.go.
package calc
