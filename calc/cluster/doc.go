// Package cluster computes the measures of a cluster of balloons on a garland: its size before it is joined, the
// distance between clusters, how wide their string is, how many a length takes, and which other recipe is closest if a
// colour lacks a size.
//
// It knows balloons only as diameters in recipes written in duplets. It does not know colours, prices, pieces, or how a
// balloon is inflated.
//
// Where the figures come from. calc/softsphere relaxes soft spheres tied to a string. A small table of its curves, made
// by go generate, gives immediate answers for one size, two sizes, and three with up to five duplets, interpolated
// linearly between the tabled ratios. Other recipes are replaced by two sizes that have the same count, mean size,
// spread and volume. Strings relaxed from different starts differ by one or two percent, so no table can be more
// accurate. The table was compared with 400 random recipes of usual sizes, relaxed at the standard push. The pitch of a
// recipe in the table is within 0.8 % for half of them and 4.2 % for 19 of 20 (9.8 % at worst). For other recipes
// it is within 3 % and 11 % (29 % at worst).
//
// No duplet shortens the pitch: it is at least that of every recipe made of some of the same duplets, see table.Rising.
// That lifts one in nine usual recipes of the table, whose relaxed strings get shorter, and one in five others. Without
// it, 19 of 20 would be within 3.1 % in the table and 14.7 % outside. Sizing one size up by as much as
// a tenth may still shorten the pitch: by up to 0.5 % for 19 of 20 recipes and 4.3 % at worst, see
// TestSizingUpHardlyShortensThePitch.
//
// Widths and balls follow a rule that no table of relaxed clusters would keep: no balloon makes anything smaller. They
// are those of equal balloons as large as the largest, where a smaller balloon counts as a part of one. See
// table.Growth, and TestSizesAreNearForRecipesDrawnAtRandom for how near that is. The rule costs accuracy where small
// balloons join large ones, because the push is a share of the mean diameter: the relaxed string then gives way and
// gets narrower.
//
// The functions here are pure and take microseconds, or half a millisecond for eight sizes. A plan uses only them, so
// phone and server count alike. A Model relaxes recipes that are not in the table and caches the results, for somebody
// who looks closer at one recipe.
//
// All sizes have the same push. Builders push clusters together until the balloons give way by the same share of their
// size. One rule of thumb fixes that push (see StandardPush), and every other pitch follows. With the same force in
// newtons, 5-inch quads would be crushed to six a foot, where four to five are usual (from memory).
//
// Start at ParseRecipe, then Measure and ClustersAlong.
package cluster

//go:generate go run ./internal/tabulate
