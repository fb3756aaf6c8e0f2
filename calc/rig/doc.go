// Package rig checks whether a stand, a bar or a line will hold: how far a bar dips, whether wind or a push tips or
// slides a frame, and whether line carries its load.
//
// It does not know what the loads are, which piece they belong to, or local codes. Its verdicts are a first check,
// never a permission. If people can be under a load it gives no verdict.
//
// Start at [Bar.Dip], [Frame.Tip] and [Line.Hold]; the texts to show with them are the Caution constants. Lengths are
// millimetres, masses grams (kilograms for ballast), forces newton, speeds metres per second.
package rig
