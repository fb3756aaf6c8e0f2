// Package plan computes what a job needs: counts, pack list, cards, notes and the window. Each line has a stable key,
// so progress survives a change of design. Start at [Make].
//
// Its parts build on each other in this order: phrase, figures, count, rigging, transport, packing, task. All of them
// are pure: no clock, no storage, no randomness.
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
	Drive    float64          // minutes of one drive to the venue

	// HeliumLead is how many minutes before the doors filling with helium begins, 0 if nothing floats.
	HeliumLead float64 `json:",omitempty"`

	looks       *looks
	roomNotes   []count.Note // those of the notes that are about the room
	builtOnSite []string     // names of pieces made at home that the car does not take
	floats      []Float
}

// Floats returns how long the balloons of each piece with helium float, if the job says when the doors open.
func (p *Plan) Floats() []Float { return p.floats }

// BuiltOnSite names the pieces planned for home that the car does not take, so they must be built on site.
func (p *Plan) BuiltOnSite() []string { return p.builtOnSite }

// RoomNotes returns those of the notes that say what does not fit into the room.
func (p *Plan) RoomNotes() []count.Note { return p.roomNotes }

// Figure returns the value of a figure that the plan used; 0 for any other key.
func (p *Plan) Figure(key string) float64 {
	for i := range p.Figures {
		if p.Figures[i].Key == key {
			return p.Figures[i].Value
		}
	}
	return 0
}
