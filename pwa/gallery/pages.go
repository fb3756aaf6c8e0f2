package gallery

import (
	"fmt"
	"strings"

	g "maragu.dev/gomponents"

	"garlandry/app/forecast"
	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/calc/measure"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/view"
)

// Page is one view with sample data: a name for its address, the frame, the body.
type Page struct {
	Name  string // "overview-half"
	Frame view.Frame
	Body  g.Node
}

// Document returns the page's whole HTML with the assets of the build.
func (p Page) Document(a view.Assets) g.Node {
	if whole, is := p.Body.(standalone); is {
		return whole(a)
	}
	f := p.Frame
	f.Assets = a
	return view.Document(f, p.Body)
}

// Standalone reports whether the page has no app around it: no header, no tabs, no scripts.
func (p Page) Standalone() bool {
	_, is := p.Body.(standalone)
	return is
}

// Find returns the page of that name.
func Find(name string) (Page, bool, error) {
	pages, err := Pages()
	if err != nil {
		return Page{}, false, err
	}
	for _, p := range pages {
		if p.Name == name {
			return p, true, nil
		}
	}
	return Page{}, false, nil
}

// Index lists every page, as links below the given address.
func Index(address string) (g.Node, error) {
	pages, err := Pages()
	if err != nil {
		return nil, err
	}
	return g.Group{view.Heading("For people who work on the pages", "Gallery"),
		view.ListPanel(g.Map(pages, func(p Page) g.Node {
			return view.RowLink("", strings.TrimSuffix(address, "/")+"/"+p.Name, p.Name,
				string(p.Frame.Role)+" · "+p.Frame.Title, "")
		}))}, nil
}

// Pages lists every view with sample data, in the order of a job's life.
func Pages() ([]Page, error) {
	var pages []Page
	for _, sample := range []struct {
		name, file string
		half       bool
	}{{"empty", empty, false}, {"demo", reading, false}, {"half", reading, true}, {"long", long, true}, {"marked",
		marked, true}} {
		j, p, err := Sample(sample.file, sample.half)
		if err != nil {
			return nil, fmt.Errorf("gallery %s: %w", sample.name, err)
		}
		pages = append(pages, ofJob(sample.name, j, p)...)
		pages = append(pages, editing(sample.name, j, p)...)
	}
	j, p, err := Sample(alone, false)
	if err != nil {
		return nil, fmt.Errorf("gallery alone: %w", err)
	}
	pages = append(pages, clocks("alone", world(j, p), address.Job.Path(j.ID))...)
	return append(append(append(pages, outside()...), leavings()...), calculators()...), nil
}

func frame(role job.Role, name, path, title string) view.Frame {
	return view.Frame{
		Title:  title,
		Role:   role,
		Name:   name,
		Path:   path,
		Now:    Now,
		Offset: 60,
		Zoned:  true,
		Units:  measure.Imperial,
		Device: view.Device{Here: true, Version: "build 7", Online: true, Asked: true, Jobs: 2,
			Stored: 412, Bytes: 640000, Shared: Now - 2*minute, Persisted: true},
	}
}

// ofJob draws the reading pages of one job, for its owner and for a helper.
func ofJob(name string, j job.Job, p plan.Plan) []Page {
	var pages []Page
	clock := forecast.New(j, p, Now/minute+60, forecast.Quick, nil)
	add := func(page string, f view.Frame, body func(view.Frame) g.Node) {
		pages = append(pages, Page{page + "-" + name, f, body(f)})
	}
	at := func(role job.Role, rest, title string) view.Frame {
		who := map[job.Role]string{job.Owner: "Dora", job.Helper: "Ines"}[role]
		path := "/jobs/" + j.ID
		if rest != "" {
			path += "/" + rest
		}
		f := frame(role, who, path, title).InJob(j)
		f.Clock = clock
		return f
	}
	waiting := func(f view.Frame) view.Frame {
		f.Device.Online, f.Device.Waiting, f.Device.Ticks, f.Device.Oldest = false, 3, 3, Now-7*minute
		return f
	}
	add("overview", at(job.Owner, "", "Overview"), func(f view.Frame) g.Node { return view.Overview(f, j, p, nil) })
	forClient(j, p, at, add)
	add("counts", at(job.Owner, "counts", "Counts"), func(f view.Frame) g.Node { return view.Counts(f, j, p) })
	add("shop", at(job.Owner, "shop", "Shop"),
		func(f view.Frame) g.Node {
			return view.Shop(f, priced(j), packing.Shop(priced(j), p.Balloons, p.Pack), shopTyped(name, j))
		})
	add("shop-helper", at(job.Helper, "shop", "Shop"),
		func(f view.Frame) g.Node {
			return view.Shop(f, j, packing.Shop(j, p.Balloons, p.Pack), form.NewState())
		})
	add("pack", at(job.Owner, "pack", "Pack"), func(f view.Frame) g.Node { return view.Pack(f, j, p, false) })
	add("pack-left", at(job.Helper, "pack", "Pack"), func(f view.Frame) g.Node { return view.Pack(f, j, p, true) })
	add("cards", at(job.Owner, "cards", "Cards"), func(f view.Frame) g.Node { return view.Cards(f, j, p, view.AllCards) })
	add("cards-mine", at(job.Helper, "cards", "Cards"),
		func(f view.Frame) g.Node { return view.Cards(f, j, p, view.MineCards) })
	add("sheets", at(job.Owner, "cards", "Cards on paper"), func(f view.Frame) g.Node { return view.CardSheet(f, j, p) })
	add("build", at(job.Helper, "sheet", view.LabelBuildSheet),
		func(f view.Frame) g.Node { return view.BuildSheets(f, j, p, "") })
	add("next", waiting(at(job.Helper, "next", "Next")), func(f view.Frame) g.Node { return view.Next(f, j, p) })
	add("history", at(job.Owner, "history", "History"), func(f view.Frame) g.Node { return view.History(f, j, p, "") })
	sampleCards(p, func(kind string, c task.Card) {
		path := "cards/" + strings.TrimPrefix(c.Key, "card/")
		draw := func(f view.Frame) g.Node { return view.CardPage(f, j, p, c) }
		add("card-"+kind, at(job.Owner, path, c.Title), draw)
		add("card-"+kind+"-helper", at(job.Helper, path, c.Title), draw)
		if kind == "count" {
			add("card-cluster", at(job.Helper, path, c.Title), func(f view.Frame) g.Node {
				f.Cluster = "2"
				return view.CardPage(f, j, p, c)
			})
			add("history-card", at(job.Helper, "history", "History"),
				func(f view.Frame) g.Node { return view.History(f, j, p, c.Key) })
		}
	})
	return pages
}

// forClient draws what a client sees, for the owner and by a link.
func forClient(j job.Job, p plan.Plan, at func(role job.Role, rest, title string) view.Frame,
	add func(page string, f view.Frame, body func(view.Frame) g.Node)) {
	add("look", at(job.Owner, "look", view.LabelClientView),
		func(f view.Frame) g.Node { return view.OwnClientSheet(f, j, p) })
	add("client", view.Frame{Path: "/look/x", Title: view.LabelClientView}, func(view.Frame) g.Node {
		return standalone(func(a view.Assets) g.Node {
			return view.ClientPage(a, j, p, view.ClientShows{Title: true, Measures: true, Crew: true})
		})
	})
}

// sampleCards calls show with the first card to count, the first to tick and the first that is done.
func sampleCards(p plan.Plan, show func(kind string, c task.Card)) {
	var counted, ticked, done bool
	for _, c := range p.Cards {
		kind := ""
		switch {
		case c.Count > 0 && !counted:
			kind, counted = "count", true
		case c.Count == 0 && !c.Done && !ticked && c.Piece != "":
			kind, ticked = "tick", true
		case c.Count == 0 && c.Done && !done:
			kind, done = "done", true
		default:
			continue
		}
		show(kind, c)
	}
}

// outside draws the pages outside of a job.
func outside() []Page {
	rows := jobRows()
	list := []outsidePage{
		{"jobs", frame(job.Owner, "Dora", "/", "Jobs"), func(f view.Frame) g.Node { return view.Jobs(f, rows, 2) }},
		{"jobs-none", frame(job.Owner, "Dora", "/", "Jobs"), func(f view.Frame) g.Node { return view.Jobs(f, nil, 0) }},
		{"away", frame(job.Owner, "Dora", "/away", "Archive"), func(f view.Frame) g.Node {
			return view.Archive(f, rows[:2])
		}},
		{"away-none", frame(job.Owner, "Dora", "/away", "Archive"), func(f view.Frame) g.Node {
			return view.Archive(f, nil)
		}},
		{"phone", frame(job.Owner, "Dora", "/phone", "This phone"), func(f view.Frame) g.Node { return view.Phone(f, rows) }},
		{"phone-trouble", frame(job.Owner, "Dora", "/phone", "This phone"),
			func(f view.Frame) g.Node { return view.Phone(f, rows[:1]) }},
		{"phone-server", frame(job.Owner, "Dora", "/phone", "This phone"),
			func(f view.Frame) g.Node { return view.Phone(f, nil) }},
		{"join", frame("", "", "/j", "Help with a job"), func(f view.Frame) g.Node { return view.Join(f, view.JoinForm{}) }},
		{"join-plain-http", frame("", "", "/j", "Help with a job"), func(f view.Frame) g.Node {
			f.OverHTTP = true
			return view.Join(f, view.JoinForm{})
		}},
		{"join-wrong", frame("", "", "/j", "Help with a job"), func(f view.Frame) g.Node {
			return view.Join(
				f,
				view.JoinForm{Name: "<Ines>", Code: "abc", NameError: "Type a name of 1 to 60 characters.",
					CodeError: "This code opens nothing. Look again: it has 26 letters and digits."},
			)
		}},
		{"join-owner", frame("", "", "/j", "Your jobs"),
			func(f view.Frame) g.Node { return view.Join(f, view.JoinForm{Owner: true}) }},
		{"join-ended", frame("", "", "/j", "Link ended"), view.JoinEnded},
		{"join-open", frame("", "", "/j/open", "Open the app"), func(f view.Frame) g.Node {
			return view.JoinOpen(f, view.JoinAs{Code: "abc", Name: "Ines", Role: job.Helper})
		}},
		{"join-open-other", frame(job.Owner, "Dora", "/j/open", "Open the app"), func(f view.Frame) g.Node {
			return view.JoinOpen(
				f,
				view.JoinAs{Code: "abc", Name: "Ines with a long name <&>", Role: job.Lead, In: true,
					NowName: "Dora", NowRole: job.Owner},
			)
		}},
	}
	list = append(list, exceptions(rows)...)
	pages := make([]Page, 0, len(list))
	for _, x := range list {
		set(x.name, &x.f)
		pages = append(pages, Page{x.name, x.f, x.body(x.f)})
	}
	return pages
}

// priced gives a job prices of bags. They are made up.
func priced(j job.Job) job.Job {
	j.Prices = map[string]string{"latex/11": "100 for 9.90, 50 for 5.60", "latex/5": "100 for 4.20",
		"latex/11/coral": "72 for 6.50", "tie/260": "100 for 7.00", "supply/shine-spray": "1 for 8.50"}
	return j
}

// shopTyped fills in the shop's form. One of the samples has an error in it.
func shopTyped(sample string, j job.Job) form.State {
	state := form.NewState()
	state.Values.Set(view.BagsInput("latex/11"), "100 for 9.90, 50 for 5.60")
	if sample == "half" {
		key := view.BagsInput("latex/11/" + j.Colours[1].ID)
		state.Values.Set(key, "a crate")
		_, _, err := packing.ReadBags("a crate")
		state.Fail(key, j.Colours[1].Name+" 11-inch: "+err.Error()+".")
	}
	return state
}
