package page

import (
	"strconv"
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan/look"
	"garlandry/calc/colour"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// photoFields are what a person changes of a photo.
var photoFields = []string{"name", "piece", "distance_mm", "first_x_pct", "first_y_pct", "second_x_pct", "second_y_pct",
	"at_x_pct", "at_y_pct", "light"}

// photoMade are the fields that come with a photo's bytes.
var photoMade = []string{"hash", "type", "bytes", "width_px", "height_px"}

// shownPhotos lists the photos of the job that the visitor may see.
func (r *request) shownPhotos() []job.Photo {
	var all []job.Photo
	for i := range r.job.Photos {
		if p := &r.job.Photos[i]; r.job.ShowsPhoto(p, r.Visitor.Role, r.Visitor.Name) {
			all = append(all, *p)
		}
	}
	return all
}

func (r *request) shownPhoto() (job.Photo, bool) {
	p, known := r.job.Photo(r.address.Item)
	return p, known && r.job.ShowsPhoto(&p, r.Visitor.Role, r.Visitor.Name)
}

func photos(r *request) *Reply {
	return r.draw(view.LabelPhotos, view.PhotoList(r.frame, r.job, r.shownPhotos(), ""))
}

// addPhoto adds a photo whose bytes this phone, or for a browser without scripts the server, has made and kept.
func addPhoto(r *request) *Reply {
	shared := r.in.Get(view.FieldShared) != ""
	wrong := ""
	switch {
	case !job.ValidHash(r.in.Get("hash")):
		wrong = view.LabelNoPhoto
	case shared && len(r.job.SharedPhotos()) >= job.MostSharedPhotos:
		wrong = view.LabelPhotosFull
	}
	typed := r.in.Clone()
	name, _, _ := strings.Cut(truncate(strings.TrimSpace(typed.Get("name")), 80), ".")
	typed.Set("name", orText(name, "Photo"))
	entity := "photo/" + r.newID(typed.Get("name"))
	changes, state := form.Entity(nounOf(entity), entity, append([]string{"name"}, photoMade...), typed, r.frame.Units)
	if wrong == "" && !state.OK() {
		wrong = state.Errors[state.Wrong()[0]]
	}
	if wrong != "" {
		return r.invalid(view.LabelPhotos, view.PhotoList(r.frame, r.job, r.shownPhotos(), wrong))
	}
	var last float64
	for _, p := range r.job.Photos {
		last = max(last, p.Order)
	}
	changes = append(changes, job.Put(entity, "order", last+1), job.Put(entity, "shared", shared),
		job.Put(entity, "light", lightOf(r.in.Get(view.FieldMean))))
	return r.save(changes, r.at(address.Photo, strings.TrimPrefix(entity, "photo/")), "Photo added.")
}

func orText(text, instead string) string {
	if text == "" {
		return instead
	}
	return text
}

// lightOf returns the lightness L* of a mean colour such as "120 99 80" to a whole number; 50 if there is none.
func lightOf(mean string) int {
	parts := strings.Fields(mean)
	if len(parts) != 3 {
		return 50
	}
	var rgb [3]uint8
	for i, part := range parts {
		n, err := strconv.ParseUint(part, 10, 8)
		if err != nil {
			return 50
		}
		rgb[i] = uint8(n)
	}
	return int(colour.RGB{R: rgb[0], G: rgb[1], B: rgb[2]}.Lab().L + 0.5)
}

func photo(r *request) *Reply {
	p, known := r.shownPhoto()
	if !known {
		return r.notFound()
	}
	entity := "photo/" + p.ID
	if r.frame.Edits() && r.in.Has("name") {
		changes, state := form.Entity(nounOf(entity), entity, photoFields, r.in, r.frame.Units)
		tried := job.Try(r.job, changes)
		p, _ = tried.Photo(p.ID)
		state.Errors, state.Alert = map[string]string{}, "" // while somebody is typing
		return r.draw(p.Name, r.drawPhoto(p, state))
	}
	return r.draw(p.Name, r.drawPhoto(p, form.Fill(nounOf(entity), r.job.State, entity, photoFields, r.frame.Units)))
}

func (r *request) drawPhoto(p job.Photo, state form.State) view.Node {
	pieces := make([]job.Choice, len(r.job.Pieces))
	for i := range r.job.Pieces {
		pieces[i] = job.Choice{Value: r.job.Pieces[i].ID, Label: r.job.Pieces[i].Name}
	}
	return view.PhotoPage(r.frame, r.job, p, r.lookOn(&p), view.Editor{Noun: nounOf("photo/x"), Fields: photoFields,
		State: state, Options: map[string][]job.Choice{"piece": pieces}})
}

// lookOn returns what is drawn over a photo: its piece, or all of them. Nil: nothing.
func (r *request) lookOn(p *job.Photo) *look.Look {
	whole := r.plan()
	if p.Piece == "" {
		return whole.Room(view.OnPhoto)
	}
	c := countOf(whole, p.Piece)
	return whole.Look(&c, view.OnPhoto)
}

// savePhoto handles the buttons of a photo's page.
func savePhoto(r *request) *Reply {
	gone := r.bringBack("photo/" + r.address.Item)
	p, known := r.shownPhoto()
	act := r.in.Get(view.FieldAct)
	if !known || gone && act != "" {
		return r.trouble(view.LabelRemoved, "Somebody may have removed it.", view.LabelLookAgain)
	}
	entity, here := "photo/"+p.ID, r.at(address.Photo, p.ID)
	switch act {
	case "share":
		if len(r.job.SharedPhotos()) >= job.MostSharedPhotos {
			return r.trouble(view.LabelNotSaved, view.LabelPhotosFull, view.LabelGoBack)
		}
		return r.save([]job.Change{job.Put(entity, "shared", true)}, here, "Shared with the crew.")
	case "unshare":
		return r.save([]job.Change{job.Put(entity, "shared", false)}, here, "No longer shared.")
	case "remove":
		reply := r.save([]job.Change{job.Put(entity, "removed", true)}, r.at(address.Photos), "Removed "+p.Name+".")
		reply.Undo = &view.Action{Act: "restore", Entity: entity, Back: r.at(address.Photos)}
		return reply
	}
	changes, state := form.Entity(nounOf(entity), entity, photoFields, r.in, r.frame.Units)
	if gone {
		changes, state = restoring(entity, changes, state)
	}
	if !state.OK() {
		return r.invalid(p.Name, r.drawPhoto(p, state))
	}
	return r.save(changes, here, "Saved "+p.Name+".")
}
