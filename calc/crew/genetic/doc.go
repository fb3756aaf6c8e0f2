// Package genetic searches for good orders of tasks. It is a bi-population
// genetic algorithm after D. Debels and M. Vanhoucke, "A bi-population based
// genetic algorithm for the resource-constrained project scheduling problem"
// (ICCSA 2005, LNCS 3483) and "A decomposition-based genetic algorithm for the
// resource-constrained project-scheduling problem" (Operations Research 55,
// 2007); the code is our own.
//
// One population holds plans pushed to the left (every task as early as possible), the other plans pushed to the right.
// Children of the left population are scheduled backwards, by falling finish, into the right one, and their children
// forwards again, by rising start. So every generated schedule is also a justification of its parents (Valls, Ballestín
// and Quintanilla, "Justification and RCPSP", EJOR 165, 2005). A child takes a busy stretch of time from one parent and
// the rest of the order from the other.
// used from one parent and the rest of the order from the other.
// The package does not know what a task needs or how long it takes: a Problem turns an order into a plan. It needs no
// clock: the budget is a number of schedules. Start at New and Search.Improve.
package genetic
