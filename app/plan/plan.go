// Package plan computes what a job needs from what a job is: counts, pack list, cards and the window, each line under a
// stable key that means the thing, so that progress survives a change of design.
//
// It is pure: no clock, no storage, no randomness. It holds the trade's default tables; every figure carries its mark
// and gives way to the user's own. Start at [Make].
package plan

import (
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
)

// Plan is everything derived from a job.
type Plan struct {
	Pieces   []count.PieceCount  // in the job's order
	Balloons []count.BalloonLine // by size, then colour in palette order
	Ties     int                 // 260s used as ties, without spares
	Pack     []packing.Bag       // in packing order
	Cards    []task.Card         // in working order: home, load, site, take-down
	Window   Window
	Notes    []count.Note     // what the plan decided or warns of
	Figures  []figures.Figure // table values the plan used

	stays []string // names of pieces made at home that the car does not take
}
