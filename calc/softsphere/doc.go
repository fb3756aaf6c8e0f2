// Package softsphere computes where the balloons of a garland come to rest: soft spheres tied by their necks to a
// string, relaxed until every force balances. The rest positions give the size of a free cluster, the distance between
// clusters at a push, the widths of the string and how much of its background is hidden.
//
// The model. Two balloons press each other with a force proportional to their overlap. The contact stiffness of a
// pressurised shell is about pressure times radius, and the pressure in a balloon falls as its radius grows, so one
// stiffness for all sizes is a fair model. It is set to 1, so that every force is in millimetres of overlap. Each neck
// is tied to its cluster's knot by a weak spring that only pulls, NeckStiffness as stiff as a contact, and no balloon
// contains its own knot. Knots are evenly spaced on a straight string with periodic ends. Friction, weight, and the
// pear shape of balloons are ignored.
//
// Doubling every diameter and every push doubles every length.
//
// Relaxation is FIRE (Bitzek, Koskinen, Gähler, Moseler, Gumbsch, "Structural Relaxation Made Simple", Physical Review
// Letters 97, 170201, 2006). Starts come from calc/rng with fixed seeds. The code uses only sums, products, quotients
// and square roots, and rounds products before it adds them, so every machine gets the same bits (see package exact).
//
// The package knows spheres and millimetres, but not the trade's recipes, sizes and units (see calc/cluster). Start at
// Free and Typical.
package softsphere
