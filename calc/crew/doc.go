// Package crew says who does what when, whether it will be done when the doors
// open, and what would help.
//
// A Job is tasks (work, hands, place, what comes before, things shared), people
// and windows. NewSearch finds a Schedule and improves it for as long as it is
// asked. Odds plays the schedule two thousand times with uncertain times. Settle
// gives the plan with the best odds, Carry keeps one for a job that has changed, Left
// takes what is ticked so far out of the job, and Learn turns times seen into rates.
//
// All times are whole minutes from an origin that the caller chooses; work is in
// person-minutes. A schedule played with uncertain times keeps to its plan: who
// does what, and in which order people and things go from one task to the next;
// each task begins as soon as those before it let it (an earliest-start policy: G.
// Igelmund and F. J. Radermacher, "Preselective strategies for the optimization of
// stochastic project networks under resource constraints", Networks 13, 1983). So
// less work or more time can never make a kept plan later.
//
// The package knows no clock, no calendar, no trade: rates, spreads, prices and
// what a change costs in look come from the caller. The same job, seed and budget
// give the same answer on every machine. Start at NewSearch and Odds.
package crew
