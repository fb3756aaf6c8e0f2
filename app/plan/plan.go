// Package plan computes what a job needs: counts, pack list, cards, notes and the window. Each line has a stable key
// that names the thing, so progress survives a change of design. Start at [Make].
//
// Its parts build on each other in this order: phrase, figures, count, rigging, transport, packing, task. All of them are
// pure: no clock, no storage, no randomness.
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
