package gallery

import (
	"fmt"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/task"
)

// Now is the moment at which the gallery's pages are drawn: 8 May 2027, 8:40 UTC, 9:40 in Lisbon.
const Now = int64(1809765600000)

const minute = int64(60000)

// reading is the demo job: the reopening of a town library's reading room.
const reading = `{"garlandry":1,
"brief":{"title":"Reading room reopening","date":"2027-05-08","venue":"Town library, east door","place":"indoors",
"in":"2027-05-08T08:30","doors":"2027-05-08T11:00","down":"2027-05-08T18:00","floor":"carpet","fixing":"removable",
"power":"near","parking":"Yard behind the library, ring at the blue door","children":"Story hour from two",
"units":"imperial","zone":"Europe/Lisbon"},
"contact":{"name":"Aurelia Brandt","phone":"+00 555 0100","email":"aurelia@library.example",
"agreed":"480 in all, half beforehand"},
"colours":[{"id":"coral","name":"Coral","value":"#e5604d","sizes":[5,11,18]},{"id":"inkblue","name":"Ink blue",
"value":"#24416b","sizes":[5,11,18]},{"id":"sand","name":"Sand","value":"#dcbd8c","finish":"mirror","sizes":[5,11]},
{"id":"blush","name":"Blush","value":"#f2b8a8","finish":"pastel","sizes":[5,11,18]}],
"crew":[{"id":"me","name":"Dora","skill":"practised","home":true},{"id":"ines","name":"Ines","skill":"practised"},
{"id":"tomasz","name":"Tomasz","skill":"beginner"},{"id":"bea","name":"Bea","skill":"beginner",
"from":"2027-05-08T09:30"}],
"kit":[{"id":"f1","kind":"frame","name":"Black frame","width_mm":2438,"height_mm":2438,"tested_mm":2438},{"id":"p1",
"kind":"pump","name":"Pump with two nozzles","count":2},{"id":"l1","kind":"ladder","name":"Step ladder"},{"id":"c1",
"kind":"car","name":"Estate car","litres":1400,"longest_mm":1900}],
"pieces":[
{"id":"door","name":"Door garland","kind":"garland","line":"arch","width_mm":2438,"height_mm":2438,"frame":"f1",
"recipe":"2x11@10 + 1x18@16","colours":[{"colour":"coral","weight":2},{"colour":"inkblue","weight":1},
{"colour":"sand","weight":1},{"colour":"blush","weight":1}],"priority":"must","built":"home","order":1},
{"id":"hoop","name":"Photo hoop","kind":"hoop","diameter_mm":1800,"part_pct":60,"recipe":"3x11@10",
"colours":[{"colour":"inkblue","weight":1},{"colour":"sand","weight":1}],"priority":"should","built":"home","order":2},
{"id":"tables","name":"Reading tables","kind":"tables","count":6,"each":5,"size_in":11,"to_in":10,
"colours":[{"colour":"blush","weight":1},{"colour":"coral","weight":1}],"priority":"could","built":"site","order":3}]}`

// long has names at their limits, as people type them.
const long = `{"garlandry":1,
"brief":{"title":
"Reopening of the reading room, the newspaper corner and the children's shelves on both floors of the library",
"date":"2027-05-08",
"venue":"Town library, through the yard, second door on the left after the bicycle racks, up the stairs",
"in":"2027-05-08T08:30","doors":"2027-05-08T09:00","units":"metric"},
"colours":[{"id":"a","name":"Dusty rose with a touch of grey","value":"#c9a6a0","finish":"pearl","sizes":[5,11]},
{"id":"b","name":"Supercalifragilisticexpialidociousblue","value":"#1e2f97","sizes":[5,11,18]}],
"crew":[{"id":"m","name":"Maximiliane-Alexandrina of the second reading circle","skill":"beginner"}],
"pieces":[{"id":"g","name":"Garland along the banister from the ground floor to the gallery, outer side",
"kind":"garland","line":"typed","length_mm":24000,"recipe":"2x11@10 + 1x18@16","colours":[{"colour":"a","weight":1},
{"colour":"b","weight":1}],"built":"site"}]}`

// marked has names that are markup, quotes and emoji.
const marked = `{"garlandry":1,
"brief":{"title":"<script>alert('x')</script> & \"friends\" 🎈","date":"2027-05-08",
"venue":"<b>Hall</b> 'B' & Co 🏛️",
"in":"2027-05-08T08:30","doors":"2027-05-08T11:00","units":"metric","notes":"<img src=x onerror=alert(1)>"},
"colours":[{"id":"c","name":"<i>Red</i> & 'co' ❤️","value":"#cc2222","sizes":[5,11,18]}],
"crew":[{"id":"m","name":"Zoë <3 \"Z\" 👩‍🎨","skill":"practised"}],
"pieces":[{"id":"p","name":"Arch & \"door\" <main> 🚪","kind":"garland","line":"arc","width_mm":3000,"height_mm":900,
"recipe":"3x11@10","colours":[{"colour":"c","weight":1}],"notes":"</textarea><script>"}],
"added":[{"id":"x","list":"pack","text":"Tape & \"glue\" <wide>","count":2,"bag":"Box <1>"},{"id":"y","list":"site",
"text":"Say hi to 'Sam' & <all>"}]}`

// alone is a job for one decorator, with a frame that takes two people to put up.
const alone = `{"garlandry":1,
"brief":{"title":"Naming day at the boathouse","date":"2027-05-08","venue":"Boathouse, upper room","place":"indoors",
"in":"2027-05-08T08:30","doors":"2027-05-08T13:00","down":"2027-05-08T18:00","drive_min":20,"floor":"hard",
"units":"metric","zone":"Europe/Lisbon"},
"colours":[{"id":"moss","name":"Moss","value":"#6d8a4f","sizes":[5,11,18]},{"id":"cream","name":"Cream",
"value":"#f1e6cf","finish":"pastel","sizes":[5,11]}],
"crew":[{"id":"me","name":"Dora","skill":"practised","home":true,"drives":true}],
"kit":[{"id":"f1","kind":"frame","name":"Slim frame","width_mm":2200,"height_mm":2300},
{"id":"p1","kind":"pump","name":"Pump"},
{"id":"c1","kind":"car","name":"Small car","litres":900,"longest_mm":1500}],
"pieces":[{"id":"cradle","name":"Cradle garland","kind":"garland","line":"arch","width_mm":2200,"height_mm":2300,
"frame":"f1","recipe":"2x11@10","colours":[{"colour":"moss","weight":2},{"colour":"cream","weight":1}],
"priority":"must","built":"site","order":1},
{"id":"tables","name":"Cake tables","kind":"tables","count":3,"each":5,"size_in":11,"to_in":10,
"colours":[{"colour":"cream","weight":1}],"priority":"could","built":"site","order":2}]}`

// empty is a job of which only the title is known.
const empty = `{"garlandry":1,"brief":{"title":"New job"}}`

// story writes what people did in a job as accepted records, a step apart.
type story struct {
	step   int64 // milliseconds
	state  *job.State
	number uint64
	at     int64
}

func (s *story) do(by job.Author, changes ...job.Change) {
	for _, c := range changes {
		s.number++
		s.at += s.step
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		s.state.Apply(
			job.Rec{
				Op: job.Op{ID: fmt.Sprintf("sample%06d", s.number), Device: "sample", Number: s.number,
					Version: job.Version, Kind: kind, Entity: c.Entity, Field: c.Field, Value: c.Value, Delta: c.Delta},
				Effective: s.at,
				Author:    by,
			},
		)
	}
}

// Sample returns a job and its plan from a job file, with progress made by the demo's helpers if half is set.
func Sample(file string, half bool) (job.Job, plan.Plan, error) {
	changes, err := job.DecodeFile([]byte(file))
	if err != nil {
		return job.Job{}, plan.Plan{}, fmt.Errorf("read the sample: %w", err)
	}
	shared := &story{state: job.NewState(), at: Now - 3*24*60*minute, step: 1}
	private := &story{state: job.NewState(), at: shared.at, step: 1}
	owner := job.Author{Role: job.Owner, Name: "Dora"}
	for _, c := range changes {
		if job.Private(c.Entity) {
			private.do(owner, c)
		} else {
			shared.do(owner, c)
		}
	}
	j := job.Read("sample", shared.state, private.state)
	p := plan.Make(j)
	if half {
		shared.at, shared.step = Now-90*minute, minute
		shared.halfDone(p)
		j = job.Read("sample", shared.state, private.state)
		p = plan.Make(j)
	}
	return j, p, nil
}

// halfDone ticks, counts and packs as on the morning of the day.
func (s *story) halfDone(p plan.Plan) {
	owner, ines, tomasz := job.Author{Role: job.Owner, Name: "Dora"}, job.Author{
		Role: job.Helper,
		Name: "Ines",
	}, job.Author{Role: job.Helper, Name: "Tomasz"}
	counting := 0
	for i, c := range p.Cards {
		switch {
		case c.Count > 0 && counting == 0:
			counting++
			s.do(owner, job.Put(c.Key, "taken", "Ines"))
			s.do(ines, job.Count(c.Key, int64(c.Count/2)), job.Count(c.Key, 2))
			s.do(tomasz, job.Count(c.Key, 1))
			s.do(ines, job.TakeBack(c.Key, fmt.Sprintf("sample%06d", s.number)))
		case c.Count > 0 && c.Place == task.Home:
			counting++
			s.do(tomasz, job.Count(c.Key, int64(c.Count)), job.Put(c.Key, "took", int(1.5*c.Minutes)+1))
		case c.Place == task.Home && i < 4: // far more than planned
			s.do(owner, job.Put(c.Key, "done", true), job.Put(c.Key, "took", int(5*c.Minutes)+1))
		}
	}
	n, more := 0, 0
	for _, bag := range p.Pack {
		for _, line := range bag.Lines {
			n++
			switch {
			case more < 2 && line.Need > 20:
				more++
				s.do(ines, job.Put(line.Key, "have", line.Need-12))
			case n%9 == 7 && line.Need > 3:
				s.do(ines, job.Put(line.Key, "have", line.Need+8))
			case n%3 != 0:
				s.do(tomasz, job.Put(line.Key, "have", line.Need))
			}
		}
	}
	s.do(ines, job.Put("pack/latex/24/coral", "have", 6))
	s.do(owner, job.Put("pack/supply/wipes", "unneeded", true), job.Put(p.Balloons[0].Key, "bought", p.Balloons[0].Buy),
		job.Put(p.Balloons[1].Key, "bought", p.Balloons[1].Buy/2))
}
