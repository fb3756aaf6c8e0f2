// Package rcpsp schedules tasks that share things there are only so many of: the
// resource-constrained project scheduling problem. Every task has one duration
// and needs fixed amounts while it runs; it is not interrupted.
//
// Serial and Parallel build one schedule from priorities (Kelley 1963; Bedworth
// and Bailey 1982; compared in R. Kolisch, "Serial and parallel
// resource-constrained project scheduling methods revisited", EJOR 90, 1996).
// Justify improves one by pushing it to the right and to the left again. Search
// is the metaheuristic of package genetic on top of them. Times are whole units
// from 0.
//
// The package knows nothing of people, windows or chance: package crew does.
// Start at New and Project.Search.
package rcpsp
