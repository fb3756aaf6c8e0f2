// Package cluster answers what a cluster of balloons does on a garland: how big
// its ball is, how far apart clusters stand, how many a length takes, and which
// other recipe comes nearest when a colour lacks a size.
//
// It knows balloons only as diameters in recipes written in duplets. It does
// not know colours, prices, pieces, or how a balloon is blown up.
//
// Where the figures come from. calc/softsphere relaxes soft spheres tied to a string;
// a small table of its curves, made by go generate, answers here at once: one
// size, two sizes, and three with up to five duplets, straight between the tabled
// ratios. Other recipes are replaced by two sizes that have the same count, mean
// size, spread and volume. Strings relaxed from different starts differ by one or
// two percent, so no table can be nearer. It was compared with 400 recipes of usual
// sizings, drawn at random and relaxed at the standard push. The pitch of a recipe
// in the table is within 1.1 % for half of them and 4 % for 19 of 20 (7.5 % at
// worst, where clusters fold); of another within 4 % and 14 % (23 % at worst).
// Girth and ball are within 3 % for 19 of 20 of both.
//
// The functions here are pure and take microseconds. A plan uses only them, so
// phone and server count alike. A Model relaxes recipes that the table does not
// hold and keeps the answers, for someone who looks closer at one recipe.
//
// One push for all. Builders push clusters together until the balloons give by
// the same share of their size, whatever is in them; that push is fixed by one
// rule of thumb (see StandardPush), and every other pitch follows. The same
// force in newtons for all sizes would crush 5-inch quads to six a foot, where
// four to five a foot are usual (from memory).
//
// Start at ParseRecipe, then Measure and ClustersAlong.
package cluster

//go:generate go run ./internal/tabulate
