package view_test

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	g "maragu.dev/gomponents"
	"pgregory.net/rapid"

	"garlandry/app/job"
	"garlandry/app/plan"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/packing"
	"garlandry/app/plan/task"
	"garlandry/calc/cluster"
	"garlandry/pwa/view"
)

func cards() []task.Card {
	return []task.Card{
		{Key: "card/a", Title: "Done one", Place: task.Home, Done: true},
		{Key: "card/b", Title: "Waits", Place: task.Home, Waits: []string{"Done one"}, TakenBy: "Ines"},
		{Key: "card/c", Title: "Bea's", Place: task.Home, TakenBy: "Bea"},
		{Key: "card/d", Title: "Free", Place: task.Site, Count: 48, Unit: "clusters", Made: 31, Minutes: 96},
		{Key: "card/e", Title: "Mine", Place: task.Site, TakenBy: "Ines"},
		{Key: "card/f", Title: "Gone", Place: task.Site, Gone: true},
		{Key: "card/g", Title: "Down", Place: task.TakeDown},
	}
}

func TestNextCard(t *testing.T) {
	all := cards()
	key := func(name string, list []task.Card) string {
		c, ok := view.NextCard(plan.Plan{Cards: list}, name)
		if !ok {
			return "none"
		}
		return c.Key
	}
	assert.Equal(t, "card/e", key("Ines", all), "her own ready card comes first")
	assert.Equal(t, "card/d", key("Tomasz", all),
		"then the first free one, never one that waits, is taken, gone or take-down")
	assert.Equal(t, "card/b", key("Ines", all[:3]), "then her own card that still waits")
	assert.Equal(t, "none", key("Tomasz", all[:3]))
	assert.Equal(t, "card/g", key("Tomasz", all[5:]), "take-down comes when nothing else is ready")
}

func TestPackTicksMeanAll(t *testing.T) {
	lines := []packing.Line{
		{
			Key:  "pack/none",
			Name: "None",
			Need: 52,
		}, {Key: "pack/all", Name: "All", Need: 52, Have: 52}, {Key: "pack/more", Name: "More", Need: 64, Have: 52},
		{
			Key:  "pack/over",
			Name: "Over",
			Need: 40,
			Have: 52,
		}, {Key: "pack/gone", Name: "Gone", Have: 6}, {Key: "pack/one", Name: "One", Need: 1},
	}
	doc := tree(t,
		view.Pack(ines(), job.Job{}, plan.Plan{Pack: []packing.Bag{{Key: "crate", Name: "Crate", Lines: lines}}}, false))
	for key, want := range map[string]struct{ act, n, pressed, says string }{
		"none": {"pack", "52", "false", ""}, "all": {"unpack", "0", "true", ""},
		"more": {"pack", "64", "false", "12 more: 52 packed"},
		"over": {"unpack", "40", "false", "Take 12 out: 52 packed"},
		"gone": {"unpack", "0", "false", "No longer needed: take 6 out"}, "one": {"pack", "1", "false", ""},
	} {
		row := doc.Find("#row-pack-" + key)
		form := row.Find("form.tick")
		assert.Equal(t, want.act, form.Find("[name=act]").AttrOr("value", ""), key)
		assert.Equal(t, want.n, form.Find("[name=n]").AttrOr("value", ""), key)
		assert.Equal(t, want.pressed, form.Find("button").AttrOr("aria-pressed", ""), key)
		assert.Equal(t, want.says, row.Find(".delta").Text(), key)
	}
	assert.Contains(t, doc.Find(".panelhead").Text(), "1 of 6")
	left := tree(t,
		view.Pack(ines(), job.Job{}, plan.Plan{Pack: []packing.Bag{{Key: "crate", Name: "Crate", Lines: lines}}}, true))
	assert.Equal(t, 0, left.Find("#row-pack-all").Length(), "packed lines must be left out")
	assert.Equal(t, 5, left.Find("li.tickrow").Length())
}

func TestCardsByPlaceAndWhose(t *testing.T) {
	p := plan.Plan{Cards: cards()}
	all := tree(t, view.Cards(ines(), job.Job{}, p, view.AllCards))
	assert.Equal(t, 3, all.Find("section[id^=place-]").Length(), "a place without cards must have no section")
	assert.Contains(t, all.Find("#row-list-card-b").Text(), "Waits for: Done one")
	assert.Contains(t, all.Find("#row-list-card-d").Text(), "31 of 48 clusters done · 34 min · up for grabs")
	assert.Contains(t, all.Find("#row-list-card-e").Text(), "yours")
	assert.Equal(t, 1, all.Find("#place-home details #row-list-card-a").Length(), "done cards must be folded away")
	assert.Equal(t, 0, all.Find("section[id^=place-] #row-list-card-f").Length())
	assert.Contains(t, all.Text(), "No longer needed")
	mine := tree(t, view.Cards(ines(), job.Job{}, p, view.MineCards))
	assert.Equal(t, 2, mine.Find("section[id^=place-] li.tickrow").Length())
	free := tree(t, view.Cards(ines(), job.Job{}, p, view.FreeCards))
	assert.Equal(t, 2, free.Find("section[id^=place-] li.tickrow").Length())
	assert.Contains(t, tree(t, view.Cards(ines(), job.Job{}, plan.Plan{Cards: cards()[2:3]}, view.MineCards)).Text(),
		"Nothing is yours yet")
}

func TestCardPage(t *testing.T) {
	j := history(t)
	counting := task.Card{Key: "card/make/door", Title: "Make clusters", Place: task.Home, Count: 25,
		Made: 8, Unit: "clusters", Minutes: 50, HandsMin: 1, HandsMax: 4, Steps: []string{"Fill.", "Tie."},
		Cautions: []task.Caution{{Text: "Wear glasses."}}, Note: "Mind the cat", TakenBy: "Bea", Beyond: 2}
	f := ines()
	doc := tree(t, view.CardPage(f, j, plan.Plan{Cards: []task.Card{counting}}, counting))
	assert.Equal(t, "8 of 25 clusters made", strings.TrimSpace(doc.Find(".doing .big").Text()))
	assert.Contains(t, doc.Find(".tally").Text(), "Tomasz +3, 1 min ago")
	assert.Equal(t, 2, doc.Find("ol.steps li").Length())
	assert.Contains(t, doc.Find(".cautions").Text(), "Wear glasses.")
	assert.Contains(t, doc.Find(".delta").Text(), "2 more than needed")
	assert.Contains(t, doc.Find("#whose").Text(), "Bea is on it.")
	assert.Contains(t, doc.Find(".doing").Text(), "1 to 4 people. About 34 min for one.")
	assert.Equal(t, 0, doc.Find("textarea").Length(), "a helper may only read the note")
	assert.Contains(t, doc.Text(), "Mind the cat")
	assert.Equal(t, 1,
		tree(t, view.CardPage(dora(), j, plan.Plan{}, counting)).Find("form:has([value=note]) textarea").Length(),
		"the owner may write it")

	ticking := task.Card{Key: "card/sweep", Title: "Sweep", Place: task.Site, HandsMin: 2, HandsMax: 2, Minutes: 24}
	assert.Equal(t, "tick",
		tree(t, view.CardPage(f, j, plan.Plan{}, ticking)).Find(".doing form [name=act]").AttrOr("value", ""))
	assert.Contains(t, tree(t, view.CardPage(f, j, plan.Plan{}, ticking)).Find(".doing").Text(),
		"2 people at once. About 12 min.")
	assert.Equal(t, 1, tree(t, view.CardPage(f, j, plan.Plan{}, ticking)).Find("#whose").Length())
	ticking.Done = true
	done := tree(t, view.CardPage(f, j, plan.Plan{}, ticking))
	assert.Equal(t, "untick", done.Find(".doing form [name=act]").AttrOr("value", ""))
	assert.Contains(t, done.Find(".alldone").Text(), "Done by Ines")
	assert.Equal(t, 0, done.Find("#whose").Length(), "a done card must not be on offer")
	assert.Contains(t, tree(t, view.CardSheet(f, j, plan.Plan{Cards: []task.Card{ticking}})).Text(), "About 12 min",
		"paper must show the whole time")

	kit := plan.Plan{
		Pack: []packing.Bag{
			{Key: "bag/tools", Name: "Tool box",
				Lines: []packing.Line{{Key: "pack/pump", Name: "Pump", Kit: true, Need: 1, Reason: "from your kit"}}},
		},
	}
	assert.Contains(t, tree(t, view.Pack(f, j, kit, false)).Find(".bag").Text(), "From your kit · comes home again")
}

// history returns a job in which three people ticked, counted and packed.
func history(t *testing.T) job.Job {
	t.Helper()
	s := job.NewState()
	at, n := ines().Now-10*60_000, uint64(0)
	do := func(name string, role job.Role, c job.Change) string {
		n++
		at += 60_000
		id := "history" + string(rune('a'+n))
		kind := c.Kind
		if kind == "" {
			kind = job.Set
		}
		s.Apply(
			job.Rec{
				Op: job.Op{ID: id, Device: "d", Number: n, Version: 1, Kind: kind, Entity: c.Entity, Field: c.Field,
					Value: c.Value, Delta: c.Delta},
				Effective: at,
				Author:    job.Author{Role: role, Name: name},
			},
		)
		return id
	}
	do("Dora", job.Owner, job.Put("brief", "title", "Reading room"))
	do("Dora", job.Owner, job.Put("pack/tape", "have", 2))
	do("Bea", job.Helper, job.Put("pack/tape", "have", 5))
	do("Ines", job.Helper, job.Put("card/sweep", "done", true))
	first := do("Ines", job.Helper, job.Count("card/make/door", 4))
	do("Ines", job.Helper, job.Count("card/make/door", 5))
	do("Bea", job.Helper, job.TakeBack("card/make/door", first))
	do("Ines", job.Helper,
		job.Change{Kind: job.Set, Entity: "card/make/door", Field: "taken", Value: json.RawMessage(`"Bea"`)})
	do("Tomasz", job.Helper, job.Count("card/make/door", 3))
	private := job.NewState()
	private.Apply(
		job.Rec{
			Op: job.Op{ID: "secret01", Device: "d", Number: 99, Kind: job.Set, Entity: "own/contact", Field: "phone",
				Value: json.RawMessage(`"555"`)},
			Effective: at,
		},
	)
	return job.Read("j", s, private)
}

func TestHistoryNamesPersonActionAndTime(t *testing.T) {
	j := history(t)
	list := view.Events(j, plan.Plan{Cards: []task.Card{{Key: "card/make/door", Title: "Make clusters"}}}, job.Owner,
		"")
	for i := 1; i < len(list); i++ {
		assert.True(t, list[i].Stamp.Less(list[i-1].Stamp), "the newest must come first")
	}
	assert.Equal(t, "+3", list[0].What)
	assert.Equal(t, "Make clusters", list[0].Of)
	assert.Equal(t, "Tomasz", list[0].Who)
	say := map[string]view.Event{}
	for _, x := range list {
		assert.False(t, job.Private(x.Entity))
		say[x.Who+": "+x.What] = x
	}
	assert.Equal(t, "Bea", say["Ines: +4"].Undone)
	assert.Nil(t, say["Ines: +4"].Undo, "an undone step must have no undo")
	assert.Equal(t, "undo", say["Ines: +5"].Undo.Act)
	assert.Equal(t, "untick", say["Ines: Ticked"].Undo.Act)
	assert.Equal(t, 2, *say["Bea: Packed 5"].Undo.N, "undoing a packing must restore the count before")
	assert.Nil(t, say["Dora: Packed 2"].Undo, "only the current value may have an undo")
	for _, x := range view.Events(j, plan.Plan{}, job.Helper, "") {
		assert.True(t, strings.HasPrefix(x.Entity, "card/") || strings.HasPrefix(x.Entity, "pack/"),
			"a helper must see work, not the brief: %s", x.Entity)
	}
	assert.Empty(t, view.Events(j, plan.Plan{}, job.Helper, "brief"))
	assert.Empty(t, view.Events(j, plan.Plan{}, job.Owner, "own/contact"))
}

func TestAnOwnerWithoutANameIsStillSomebody(t *testing.T) {
	s := job.NewState()
	s.Apply(
		job.Rec{
			Op: job.Op{ID: "tick0001", Device: "d", Number: 1, Version: 1, Kind: job.Set, Entity: "card/sweep",
				Field: "done", Value: json.RawMessage(`true`)},
			Effective: ines().Now - 60_000,
			Author:    job.Author{Role: job.Owner},
		},
	)
	j := job.Read("j", s, nil)
	assert.Equal(t, "You", view.Events(j, plan.Plan{}, job.Owner, "")[0].Who)
	assert.Equal(t, "The owner", view.Events(j, plan.Plan{}, job.Helper, "")[0].Who)
	assert.Equal(t, 1,
		tree(t, view.Join(view.Frame{}, view.JoinForm{Owner: true})).Find("#join input[name=name]:not([required])").Length(),
		"the owner's name must be optional")
	assert.Equal(t, 1, tree(t, view.Join(view.Frame{}, view.JoinForm{})).Find("#join input[name=name][required]").Length())
}

func TestDecisionsAreTheOwners(t *testing.T) {
	p := plan.Plan{
		Notes: []count.Note{
			{Key: "sand/18", Text: "Sand lacks 18-inch.",
				Options: []count.Option{{Value: "swap", Label: "Build it as 4x11"}, {Value: "keep", Label: "I can get it"}},
				Picked:  "swap"},
			{Kind: "warning", Text: "Children come."},
		},
	}
	doc := tree(t, view.Overview(dora(), job.Job{}, p, nil))
	assert.Equal(t, "choice/sand/18", doc.Find(".decision [name=e]").First().AttrOr("value", ""))
	assert.Equal(t, "true", doc.Find(".decision form:has([value=swap]) button").AttrOr("aria-pressed", ""))
	assert.Contains(t, doc.Find(".hints").Text(), "Children come.")
	helper := tree(t, view.Overview(ines(), job.Job{}, p, nil))
	assert.Equal(t, 0, helper.Find(".decision form").Length())
	assert.Contains(t, helper.Find("#decided .decision summary").Text(), "Build it as 4x11")
	assert.Equal(t, 0, helper.Find("#decisions").Length(), "an answered question is not asked again")
}

// What cannot stand in the wind is said above everything else, to helpers too, and only once.
func TestUrgentWarningsComeFirst(t *testing.T) {
	p := plan.Plan{Cards: []task.Card{{Key: "card/look"}}, Notes: []count.Note{{Kind: "warning", Text: "Children come."},
		{Kind: "warning", Urgent: true, Text: "Gusts of 9 m/s are expected."}}}
	for _, f := range []view.Frame{dora(), ines()} {
		text := tree(t, view.Overview(f, job.Job{}, p, nil)).Text()
		assert.Equal(t, 1, strings.Count(text, "Gusts of 9 m/s are expected."))
		assert.Less(t, strings.Index(text, "Gusts of 9 m/s"), strings.Index(text, "done in time?"))
		assert.Less(t, strings.Index(text, "done in time?"), strings.Index(text, "Children come."))
	}
}

func TestEveryFigureShowsItsMaths(t *testing.T) {
	door := job.Piece{ID: "door", Name: "Door"}
	p := plan.Plan{
		Ties: 9,
		Pieces: []count.PieceCount{{Piece: door, Clusters: 25, Recipe: cluster.Recipe{{Duplets: 3, SizeIn: 11, ToIn: 10}},
			Working: []figures.Line{
				{What: "Clusters", How: "20 ft / 9.6 in, rounded up", Result: "25",
					Source: figures.Source{Text: "one push", Mark: figures.CommonPractice}},
			}}},
		Balloons: []count.BalloonLine{
			{Key: "pack/latex/11/coral", SizeIn: 11, Colour: job.Colour{Name: "Coral"}, Need: 48, Spares: 4, Buy: 52,
				Pieces: []count.PieceShare{{Piece: door, ToIn: 10, Count: 48}}},
		},
	}
	doc := tree(t, view.Counts(dora(), job.Job{}, p))
	piece := doc.Find("details#count-door")
	assert.Contains(t, piece.Find(".working").Text(), "rounded up")
	assert.Contains(t, piece.Find(".working").Text(), "common practice")
	assert.Equal(t, 1, piece.Find("a[href='/jobs/j/figures']").Length())
	line := doc.Find("details#count-pack-latex-11-coral")
	assert.Contains(t, line.Text(), "48 needed + 4 spare = 52")
	assert.Contains(t, line.Text(), "48 for Door, sized to 10 in")
	assert.Equal(t, 0, tree(t, view.Counts(ines(), job.Job{}, p)).Find("a[href='/jobs/j/figures']").Length(),
		"only the owner may see settings")
}

// anyText generates texts as people, keys and attackers write them.
func anyText() *rapid.Generator[string] {
	return rapid.SampledFrom(
		[]string{"", "a", "card/x", "card/x/y", hostile, "pack/latex/11/coral", "🎈", strings.Repeat("long ", 60)},
	)
}

// anyWhole and anyNumber generate sensible and absurd numbers.
func anyWhole() *rapid.Generator[int] {
	return rapid.SampledFrom([]int{0, 1, -1, 7, 48, 100_000, -1 << 40, 1 << 40})
}

func anyNumber() *rapid.Generator[float64] {
	return rapid.SampledFrom([]float64{0, 1, -1, 0.4, 59.7, 1e9, -1e9})
}

// anyColour generates a colour.
func anyColour() *rapid.Generator[job.Colour] {
	text := anyText()
	return rapid.Custom(func(t *rapid.T) job.Colour {
		return job.Colour{ID: text.Draw(t, "id"), Name: text.Draw(t, "name"),
			Value:  rapid.SampledFrom([]string{"", "#e5604d", "#12", "red", hostile}).Draw(t, "value"),
			Finish: rapid.SampledFrom([]string{"", "mirror", "pearl", "crystal", "x"}).Draw(t, "finish")}
	})
}

// anyPiece generates a piece.
func anyPiece() *rapid.Generator[job.Piece] {
	text, number := anyText(), anyNumber()
	return rapid.Custom(func(t *rapid.T) job.Piece {
		return job.Piece{
			ID:   text.Draw(t, "piece"),
			Name: text.Draw(t, "name"),
			Kind: job.PieceKind(rapid.SampledFrom([]string{"garland", "hoop", "wall", ""}).Draw(t, "kind")),
			Line: rapid.SampledFrom([]string{"arc", "arch", "typed", ""}).
				Draw(t, "line"),
			WidthMM:    number.Draw(t, "w"),
			HeightMM:   number.Draw(t, "h"),
			DiameterMM: number.Draw(t, "d"),
			PartPct:    number.Draw(t, "part"),
			Colours:    []job.Share{{Colour: text.Draw(t, "share"), Weight: number.Draw(t, "weight")}},
		}
	})
}

// anyPlan generates a plan.
func anyPlan(t *rapid.T) plan.Plan {
	text, whole, number, colour, piece := anyText(), anyWhole(), anyNumber(), anyColour(), anyPiece()
	return plan.Plan{
		Pieces: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) count.PieceCount {
			return count.PieceCount{Piece: piece.Draw(t, "p"), Clusters: whole.Draw(t, "c"), Accents: whole.Draw(t, "a"),
				Balloons: whole.Draw(t, "b"), LengthMM: number.Draw(t, "l"), MakeKey: text.Draw(t, "make"),
				Sections: make([]count.Section, rapid.IntRange(0, 3).Draw(t, "s")),
				By:       []count.PieceBalloons{{SizeIn: whole.Draw(t, "size"), Colour: colour.Draw(t, "col")}},
				Working:  make([]figures.Line, 1)}
		}), 0, 3).Draw(t, "pieces"),
		Balloons: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) count.BalloonLine {
			return count.BalloonLine{Key: text.Draw(t, "key"), SizeIn: whole.Draw(t, "size"), Colour: colour.Draw(t, "c"),
				Need: whole.Draw(t, "need"), Pieces: []count.PieceShare{{Piece: piece.Draw(t, "p"), ToIn: number.Draw(t, "to")}}}
		}), 0, 3).Draw(t, "balloons"),
		Cards: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) task.Card {
			return task.Card{Key: text.Draw(t, "key"),
				Place: task.Place(rapid.SampledFrom([]string{"home", "site", "takedown", "", "elsewhere"}).Draw(t, "place")),
				Title: text.Draw(t, "title"), Piece: text.Draw(t, "piece"), Count: whole.Draw(t, "count"),
				Made: whole.Draw(t, "made"), Done: rapid.Bool().Draw(t, "done"), Gone: rapid.Bool().Draw(t, "gone"),
				Minutes: number.Draw(t, "min"), HandsMin: whole.Draw(t, "hands"), HandsMax: whole.Draw(t, "most"),
				TakenBy: text.Draw(t, "by"), Beyond: whole.Draw(t, "beyond"), Waits: rapid.SliceOfN(text, 0, 2).Draw(t, "waits"),
				Steps: rapid.SliceOfN(text, 0, 2).Draw(t, "steps")}
		}), 0, 4).Draw(t, "cards"),
		Pack: []packing.Bag{
			{
				Key:  text.Draw(t, "bag"),
				Name: text.Draw(t, "name"),
				Lines: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) packing.Line {
					c := colour.Draw(t, "c")
					return packing.Line{Key: text.Draw(t, "key"), Name: text.Draw(t, "n"), Need: whole.Draw(t, "need"),
						Have: whole.Draw(t, "have"), Colour: &c}
				}), 0, 3).Draw(t, "lines"),
			},
		},
		Window: plan.Window{Known: rapid.Bool().Draw(t, "known"), Minutes: number.Draw(t, "m"),
			Left: number.Draw(t, "left"), Verdict: text.Draw(t, "verdict")},
		Notes: []count.Note{
			{Key: text.Draw(t, "note"), Text: text.Draw(t, "text"),
				Options: make([]count.Option, rapid.IntRange(0, 2).Draw(t, "o"))},
		},
	}
}

// TestNoPlanPanics renders every reading page with odd plans: empty texts, negative and huge numbers, unknown places,
// broken colours, keys without a noun.
func TestNoPlanPanics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text, colour := anyText(), anyColour()
		p := anyPlan(t)
		j := job.Read("j", job.NewState(), nil)
		j.Colours = []job.Colour{colour.Draw(t, "palette")}
		for _, f := range []view.Frame{dora(), ines(), {}} {
			nodes := []g.Node{view.Overview(f, j, p, nil), view.Counts(f, j, p), view.Pack(f, j, p, true),
				view.Pack(f, j, p, false), view.Cards(f, j, p, view.MineCards), view.Cards(f, j, p, view.AllCards),
				view.Next(f, j, p), view.CardSheet(f, j, p), view.History(f, j, p, ""),
				view.History(f, j, p, text.Draw(t, "entity"))}
			for _, c := range p.Cards {
				nodes = append(nodes, view.CardPage(f, j, p, c))
			}
			for _, n := range nodes {
				var b strings.Builder
				if err := view.Document(f, n).Render(&b); err != nil {
					t.Fatal(err)
				}
				if strings.Contains(b.String(), "<script>x") || strings.Contains(b.String(), "<b>&\"") {
					t.Fatal("a text was not escaped")
				}
			}
		}
	})
}
