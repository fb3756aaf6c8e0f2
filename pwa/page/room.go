package page

import (
	"math"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// placings lists what the page of the room asks for: the size of the room, if this person may change it, then the
// places of pieces and boxes.
func (r *request) placings() (all []view.Placing) {
	place := []string{"at_mm", "up_mm"}
	if r.frame.Owns() {
		all = append(all, view.Placing{Entity: "brief", Name: "The room",
			Fields: []string{"room_width_mm", "room_height_mm"}})
	}
	for i := range r.job.Pieces {
		p := &r.job.Pieces[i]
		all = append(all, view.Placing{Entity: "piece/" + p.ID, Name: p.Name, Fields: place,
			Placed: p.AtMM != nil || p.UpMM != nil})
	}
	for i := range r.job.Boxes {
		b := &r.job.Boxes[i]
		all = append(all, view.Placing{Entity: "box/" + b.ID, Name: b.Name, Fields: place})
	}
	return all
}

func room(r *request) *Reply {
	things, state := r.placings(), form.NewState()
	for _, t := range things {
		merge(state, form.Fill(nounOf(t.Entity), r.job.State, t.Entity, t.Fields, r.frame.Units), t.Entity)
	}
	return r.draw("Room", view.Room(r.frame, r.job, r.plan(), things, state))
}

// merge adds the form of one thing to that of the page.
func merge(all, one form.State, entity string) {
	one = one.Prefixed(entity + ".")
	for name, values := range one.Values {
		all.Values[name] = values
	}
	for name, message := range one.Errors {
		all.Errors[name] = message
	}
}

// saveRoom takes typed places, a drag, an arrow key, or lets a piece go back to where it goes by itself.
func saveRoom(r *request) *Reply {
	act, itself := r.in.Get(view.FieldAct), r.in.Get("itself")
	if act != "" {
		return r.move(act)
	}
	things, state := r.placings(), form.NewState()
	var changes []job.Change
	for _, t := range things {
		if t.Entity == itself && t.Placed {
			changes = append(changes, job.Put(itself, "at_mm", nil), job.Put(itself, "up_mm", nil))
			continue
		}
		more, read := form.Entity(nounOf(t.Entity), t.Entity, t.Fields, r.in.Within(t.Entity+"."), r.frame.Units)
		changes = append(changes, more...)
		merge(state, read, t.Entity)
	}
	if !state.OK() {
		return r.invalid("Room", view.Room(r.frame, r.job, r.plan(), things, state))
	}
	return r.save(changes, r.at(address.Room), "Places saved.")
}

// move moves a thing of the room: a drag says where it stood and how far it went, and is snapped; an arrow key moves it
// by 10 cm or 4 in, finely by 1 cm or half an inch.
func (r *request) move(act string) *Reply {
	p := r.plan()
	room := p.Room(0)
	item, there := room.Item(r.in.Get("id"))
	if !there {
		return r.trouble(view.LabelRemoved, "Somebody may have removed it.", view.LabelLookAgain)
	}
	step, fine := 100.0, 10.0
	if r.frame.Units == measure.Imperial {
		step, fine = 4*measure.MMPerInch, measure.MMPerInch/2
	}
	if r.in.Get("fine") != "" {
		step = fine
	}
	at, up := item.MiddleMM(), item.BottomMM
	switch act {
	case "left":
		at -= step
	case "right":
		at += step
	case "up":
		up += step
	case "down":
		up -= step
	case "drag":
		unit, half := r.number("unit"), (item.RightMM-item.LeftMM)/2
		at, up = r.number("at")+float64(r.number("x")*unit), r.number("up")-float64(r.number("y")*unit)
		at, up = room.Snap(item.Entity, look.Area{LeftMM: at - half, RightMM: at + half, BottomMM: up,
			TopMM: up + item.TopMM - item.BottomMM})
	default:
		return r.trouble(view.LabelFailed, view.LabelCannot, view.LabelGoBack)
	}
	return r.put(&item, at, up)
}

// number reads a number that the page's script wrote; 0 if it is none.
func (r *request) number(name string) float64 {
	n, err := strconv.ParseFloat(r.in.Get(name), 64)
	if err != nil || !(math.Abs(n) < 1e9) {
		return 0
	}
	return n
}

// put writes where a thing goes, within what its fields allow, to a tenth of a millimetre. What did not move up or down
// stays as it stood.
func (r *request) put(item *look.Item, at, up float64) *Reply {
	var changes []job.Change
	within := func(name string, mm, was float64, itself bool) float64 {
		field, _ := nounOf(item.Entity).Field(name)
		mm = max(field.Min, min(math.Round(mm*10)/10, field.Max))
		if itself || math.Abs(mm-was) > 0.5 {
			changes = append(changes, job.Put(item.Entity, name, mm))
		}
		return mm
	}
	at = within("at_mm", at, item.MiddleMM(), item.Itself)
	item.BottomMM = within("up_mm", up, item.BottomMM, false)
	item.LeftMM, item.RightMM = at, at
	return r.save(changes, r.at(address.Room), view.ItemWords(item, r.frame.Units)+".")
}
