// Package cargo answers whether the finished work fits into the car: how many loose clusters go in, how long a section
// may be, what is too thick for the door, how to cut what is too long, and how many trips are needed.
//
// Loose balloons are modelled as balls poured in at random: their packing fraction is measured (see packingFraction).
// Clusters and sections are soft and fill each other's gaps: they need the litres of their balloons divided by a
// packing (see [CommonPacking]). Whether they go in at all is a separate check: a cluster must pass the door as a ball,
// and a section is a bent tube whose centre line is a circular arc of at most a half circle, with a radius of at least
// the tube's thickness. Different things in one load each take their share of the car, which is a fair estimate but not
// a packing plan. Air-filled work weighs next to nothing; weights, tools and cylinders are not counted here.
//
// The package does not know recipes or cars: the caller gives millimetres, litres and counts. Start at [Pack].
package cargo
