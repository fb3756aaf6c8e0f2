// Package cargo answers whether the finished work fits into the car: how many
// loose clusters go into it, how long a section may be, what does not go through
// the door, how to cut what is too long, and how many trips it takes.
//
// Loose balloons are balls poured in at random: their packing fraction is
// measured physics (see packingFraction). Clusters and sections are soft and
// lie in each other's gaps: they take the litres of their balloons over a packing
// (see [CommonPacking]). Whether they go in at all is another question: a cluster
// must pass the door as a ball, and a section is a bent cylinder, a tube whose
// centre line is a circular arc of at most a half circle, no tighter than the
// tube is thick. Different things in one load each take their share of the car,
// which is a fair estimate and not a packing plan. Air-filled work weighs next to nothing: weights, tools
// and cylinders are not counted here.
//
// The package does not know recipes or cars: the caller brings millimetres,
// litres and counts. Start at [Pack].
package cargo
