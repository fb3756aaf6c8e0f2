// Package latex knows one balloon: how big it is, what is in it, how hard its
// rubber presses, how it grows in heat and thin air, and what it lifts.
//
// It does not know how balloons are tied together (package cluster), how many
// to buy (package stock), or anything about colours, jobs or screens. It reads
// no clock and keeps no state: every answer follows from its arguments.
//
// Start at [Sizes] and [Find] for the table of sizes, at [Describe] for one
// balloon, at [Heat] for growth between filling and showing, and at [Floating]
// for helium. Lengths are millimetres, volumes litres, masses grams, temperatures
// degrees Celsius, pressures pascal, altitudes metres above sea level.
//
// Figures carry a mark: "published", "common practice", "from memory".
package latex
