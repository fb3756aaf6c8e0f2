// Package crew plans who does what when, and computes the odds of being done when the doors open.
//
// A Job is tasks (work, hands, place, predecessors, shared things), people and windows. Settle searches for schedules
// and returns the one with the best odds. Carry keeps an older schedule for a changed job. Left returns the remaining
// job after some ticks. Learn turns observed times into rates.
//
// All times are whole minutes from an origin that the caller chooses; work is in person-minutes. The odds come from
// simulating a schedule two thousand times with random durations. The simulation follows the plan: who does what, and
// in which order people and things go from one task to the next. Each task begins as soon as its predecessors allow (an
// earliest-start policy: G. Igelmund and F. J. Radermacher, "Preselective strategies for the optimization of stochastic
// project networks under resource constraints", Networks 13, 1983). So less work or more time never makes a kept plan
// later.
//
// The package knows no clock, no dates and no trade: rates, spreads, prices and the visual cost of a change come from
// the caller. The same job, seed and budget give the same answer on every machine. Start at Settle.
package crew
