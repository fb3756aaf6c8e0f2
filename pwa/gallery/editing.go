package gallery

import (
	"strings"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/calc"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"
)

// world is what the editing pages are asked in: one sample job, seen by its owner.
func world(j job.Job, p plan.Plan) page.Deps {
	n := 0
	return page.Deps{
		Visitor: page.Visitor{Role: job.Owner, Name: "Dora"}, Now: Now,
		Jobs:   func() []view.JobRow { return []view.JobRow{{ID: j.ID, Title: j.Brief.Title, Date: j.Brief.Date}} },
		Job:    func(id string) (job.Job, bool) { return j, id == j.ID },
		Plan:   func(job.Job) plan.Plan { return p },
		Device: frame(job.Owner, "Dora", "/", "").Device,
		NewID:  func() string { n++; return "fresh" + strings.Repeat("0", n%5+8) },
	}
}

// editing draws the pages that change a job.
func editing(name string, j job.Job, p plan.Plan) []Page {
	j = photographed(j)
	w := world(j, p)
	root := address.Job.Path(j.ID)
	type visit struct{ name, path, kind string }
	var visits []visit
	for _, name := range []string{"brief", "colours", "crew", "kit", "added", "figures", "pieces", "room", "boxes"} {
		visits = append(visits, visit{name, root + "/" + name, ""})
	}
	visits = append(visits, visit{"piece-new", root + "/pieces/new", ""},
		visit{"piece-new-garland", root + "/pieces/new", job.PieceKinds()[0].Value})
	for _, piece := range j.Pieces {
		visits = append(visits, visit{"piece-" + piece.ID, root + "/pieces/" + piece.ID, ""})
	}
	visits = append(visits, visit{"photos", root + "/photos", ""})
	for _, photo := range j.Photos {
		visits = append(visits, visit{"photo-" + photo.ID, root + "/photos/" + photo.ID, ""})
	}
	for i, piece := range j.Pieces {
		if i == 0 || len(j.LayersOf(piece.ID)) > 0 {
			visits = append(visits, visit{"layers-" + piece.ID, address.Layers.Path(j.ID, piece.ID), ""})
		}
	}
	if len(p.Cards) > 0 {
		visits = append(visits, visit{"change", root + "/change/" + p.Cards[0].Key, ""})
	}
	pages := make([]Page, 0, len(visits)+1)
	for _, v := range visits {
		query := form.Values{}
		if v.kind != "" {
			query.Set("kind", v.kind)
		}
		reply := page.Get(w, v.path, query)
		pages = append(pages, Page{v.name + "-" + name, reply.Frame, reply.Body})
	}
	if len(j.Pieces) > 0 {
		picked := job.Try(j, []job.Change{job.Put("piece/"+j.Pieces[0].ID, "pattern", job.ByHand)})
		reply := page.Get(world(picked, plan.Make(picked)), root+"/pieces/"+j.Pieces[0].ID,
			form.Values{"cluster": {"3"}})
		pages = append(pages, Page{"piece-hand-" + name, reply.Frame, reply.Body})
	}
	f := frame(job.Owner, "Dora", root+"/share", "Share").InJob(j)
	pages = append(pages, Page{"share-" + name, f, view.Share(f, sharing())})
	pages = append(pages, clocks(name, w, root)...)
	wrong := page.Post(w, root+"/brief",
		form.Values{"title": {""}, "altitude_mm": {"<very high>"}, "in": {"2027-05-08T12:00"}, "doors": {"2027-05-08T11:00"}})
	return append(pages, Page{"brief-wrong-" + name, wrong.Frame, wrong.Body})
}

// photographed adds photos to a job with pieces: one that is to scale, and one that is not yet.
func photographed(j job.Job) job.Job {
	if len(j.Pieces) == 0 {
		return j
	}
	var changes []job.Change
	for i, id := range []string{"hall", "stairs"} {
		entity := "photo/" + id
		changes = append(changes, job.Put(entity, "name", "Wall behind the <cake>"),
			job.Put(entity, "hash", strings.Repeat(string("ab"[i]), 64)), job.Put(entity, "bytes", 200000),
			job.Put(entity, "width_px", 1600), job.Put(entity, "height_px", 1200), job.Put(entity, "shared", true))
	}
	return job.Try(j, append(changes, job.Put("photo/hall", "distance_mm", 2400)))
}

// sharing is what a page of helper links may hold.
func sharing() view.SharePage {
	return view.SharePage{
		Room: roomUses(),
		Links: []view.Link{
			{ID: "l1", Name: "Ines", Role: job.Lead, Made: Now - 90*60*minute, Ends: Now + 48*60*minute,
				Until: "2027-05-11", LastSeen: Now - 4*minute,
				Devices: []view.LinkDevice{{ID: "i1", Label: "iPhone, Safari", Seen: Now - 4*minute},
					{ID: "i2", Seen: Now - 90*minute}}},
			{ID: "l2", Name: "Tomasz <tall>", As: "Tomek", Role: job.Helper, Made: Now - 80*60*minute, Revoked: true, Held: 2},
		},
		Held: []view.Held{
			{Op: "o1", Name: "Tomasz <tall>", What: "Ticked: Load the car", When: Now - 50*minute, BeforeEnd: true},
			{Op: "o2", Name: "Tomasz <tall>", What: "+4: Make the clusters for <Door garland>", When: Now - 20*minute},
		},
		Late:    []view.Held{{Op: "o3", Name: "Bea", What: "Packed 40: Coral 11 in", When: Now - 30*minute}},
		Devices: ownDevices(),
		Clients: []view.ClientLink{
			{ID: "c1", Shows: view.ClientShows{Title: true, Measures: true}, Made: Now - 50*60*minute,
				Ends: Now + 30*24*60*minute, Until: "2027-06-07"},
			{ID: "c2", Made: Now - 90*60*minute, Ends: Now + 30*24*60*minute, Until: "2027-06-07", Over: true},
		},
	}
}

// calculators draws the new-job page, the import page, the list of calculators and each of them with its example.
func calculators() []Page {
	w := world(job.Job{ID: "none", State: job.NewState()}, plan.Plan{})
	visits := map[string]string{"new": address.New.Path(), "import": address.Import.Path(),
		"calc": address.Calculators.Path()}
	names := []string{"new", "import", "calc"}
	for _, c := range calc.All() {
		visits["calc-"+c.Name] = address.Calculator.Path(c.Name)
		names = append(names, "calc-"+c.Name)
	}
	pages := make([]Page, 0, len(names))
	for _, name := range names {
		reply := page.Get(w, visits[name], form.Values{})
		pages = append(pages, Page{name, reply.Frame, reply.Body})
	}
	return pages
}
