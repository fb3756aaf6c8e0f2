// Package latex describes one balloon: its size, its gas, the pressure of its rubber, its growth in heat and at
// altitude, and its lift.
//
// It does not know how balloons are tied together (package cluster), how many to buy (package stock), or anything about
// colours, jobs or screens. It uses no clock and keeps no state.
//
// Start at [Sizes] and [Find] for the table of sizes, at [Describe] for one balloon, at [Heat] for growth between
// filling and showing, and at [Floating] for helium. Lengths are millimetres, volumes litres, masses grams,
// temperatures degrees Celsius, pressures pascal, altitudes metres above sea level.
//
// Figures carry a mark: "published", "common practice", "from memory".
package latex
