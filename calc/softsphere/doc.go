// Package softsphere computes where the balloons of a garland come to rest: soft
// spheres tied by their necks to a string, relaxed until every force balances.
// From the rest positions come how big a cluster looks, how far apart clusters
// stand at a push, how thick the string is and how much of it is hidden.
//
// The model. Two balloons press each other with a force in proportion to their
// overlap. The contact stiffness of a pressurised shell is about pressure times
// radius, and the pressure in a balloon falls as its radius grows, so one
// stiffness for all sizes is a fair model. It is taken as 1, so that every force
// is given in millimetres of overlap. Each neck is tied to its cluster's knot by
// a weak spring that only pulls, NeckStiffness as stiff as a contact, and no
// balloon swallows its own knot. Knots stand evenly on a straight string with
// periodic ends. Friction, weight, and the pear shape of balloons are left out.
//
// Doubling every diameter and every push doubles every length.
//
// Relaxation is FIRE (Bitzek, Koskinen, Gähler, Moseler, Gumbsch, "Structural
// Relaxation Made Simple", Physical Review Letters 97, 170201, 2006). Starts are
// drawn from calc/rng with fixed seeds, only sums, products,
// quotients and square roots are used, and products are rounded before they are
// added, so every machine comes to the same bits (see package exact).
//
// The package knows spheres and millimetres; it does not know recipes, sizes
// and units of the trade (see calc/cluster). Start at Free and Typical.
package softsphere
