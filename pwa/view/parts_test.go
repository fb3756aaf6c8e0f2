package view_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	g "maragu.dev/gomponents"

	"garlandry/app/job"
	"garlandry/app/plan/figures"
	"garlandry/app/plan/task"
	"garlandry/pwa/view"
)

func TestStateLineDescribesThePhonesState(t *testing.T) {
	const now = int64(1_800_000_000_000)
	const minute = int64(60_000)
	here := view.Device{Here: true, Online: true, Asked: true, Shared: now - 2*minute}
	with := func(change func(*view.Device)) view.Device { d := here; change(&d); return d }
	for name, row := range map[string]struct {
		device view.Device
		want   string
	}{
		"on the server's pages": {view.Device{}, ""},
		"all well":              {here, "All shared 2 min ago"},
		"one tick waits":        {with(func(d *view.Device) { d.Waiting, d.Ticks = 1, 1 }), "1 tick waits on this phone"},
		"ticks wait": {with(func(d *view.Device) { d.Waiting, d.Ticks, d.Online = 3, 3, false }),
			"3 ticks wait on this phone"},
		"no signal, nothing waits": {with(func(d *view.Device) { d.Online = false }), "No signal. All shared 2 min ago"},
		"never shared, no signal":  {view.Device{Here: true, Asked: true}, "No signal yet. Saved on this phone"},
		"nothing asked yet": {with(func(d *view.Device) { d.Online, d.Asked = false, false }),
			"All shared 2 min ago"},
		"never shared, not asked": {view.Device{Here: true}, ""},
		"link ended, ticks wait": {with(func(d *view.Device) { d.Closed, d.Waiting, d.Ticks = "revoked", 2, 2 }),
			"This link has ended. 2 ticks wait on this phone"},
		"something needs a person": {with(func(d *view.Device) { d.Attention, d.Waiting = []view.Attention{{}}, 4 }),
			"1 thing needs a look"},
		"two things": {with(func(d *view.Device) { d.Attention = make([]view.Attention, 2) }),
			"2 things need a look"},
		"waiting beats news": {with(func(d *view.Device) { d.Update, d.Waiting = "8", 5 }),
			"5 changes wait on this phone"},
		"a change waits": {with(func(d *view.Device) { d.Waiting = 1 }), "1 change waits on this phone"},
		"ticks among them": {with(func(d *view.Device) { d.Waiting, d.Ticks = 4, 3 }),
			"4 changes wait on this phone"},
		"a full server's own page": {view.Device{ServerFull: true},
			"The server’s disk is full: nothing can be saved. Make room there"},
		"full server, nothing waits": {with(func(d *view.Device) { d.ServerFull = true }),
			"The server’s disk is full. Saved on this phone"},
		"full server, two ticks waiting": {with(func(d *view.Device) { d.ServerFull, d.Waiting, d.Ticks = true, 2, 2 }),
			"2 ticks wait on this phone: the server’s disk is full"},
		"a clock set back": {with(func(d *view.Device) { d.Shared = now + 90*minute }), "All shared just now"},
	} {
		assert.Equal(t, row.want, view.StateLine(row.device, now), name)
	}
}

func TestAgo(t *testing.T) {
	const now, minute = int64(1_800_000_000_000), int64(60_000)
	for back, want := range map[int64]string{0: "just now", minute - 1: "just now", minute: "1 min ago",
		59 * minute: "59 min ago", 60 * minute: "1 h ago",
		24*60*minute - 1: "23 h ago", 24 * 60 * minute: "yesterday", 48 * 60 * minute: "2 days ago", -minute: "just now"} {
		assert.Equal(t, want, view.Ago(now, now-back))
	}
}

func TestStampNamesItsZone(t *testing.T) {
	f := view.Frame{}
	assert.Equal(t, "Fri 15 Jan, 08:00 UTC", f.Stamp(1_800_000_000_000))
	f.Zoned, f.Offset = true, -90
	assert.Equal(t, "Fri 15 Jan, 06:30", f.Stamp(1_800_000_000_000))
}

func TestActionIsAPlainForm(t *testing.T) {
	doc := tree(t,
		view.Act(ines(), view.Action{Act: "add", Entity: "card/make/door", N: view.Amount(5)}, "go", g.Text("+5")))
	form := doc.Find("form[method=post][action='/jobs/j/do'][data-core]")
	assert.Equal(t, 1, form.Length())
	for name, want := range map[string]string{"act": "add", "e": "card/make/door", "n": "5", "back": "/jobs/j/next"} {
		assert.Equal(t, want, form.Find("input[type=hidden][name="+name+"]").AttrOr("value", "missing"), name)
	}
	assert.Equal(t, 0, form.Find("input[name=op], input[name=text]").Length(), "no other fields may be sent")
	freed := tree(t, view.Act(ines(), view.Action{Act: "take", Entity: "card/x", TextGiven: true}, "", g.Text("Free")))
	assert.Equal(t, "", freed.Find("input[name=text]").AttrOr("value", "missing"),
		"an empty name must be sent, since it frees the card")
}

func TestActionsOfAPageKeepTheirIdentity(t *testing.T) {
	id := func(d view.Action) string {
		return tree(t, view.Act(ines(), d, "", g.Text("x"))).Find("form").AttrOr("id", "")
	}
	one := view.Action{Act: "add", Entity: "card/a", N: view.Amount(1)}
	assert.Equal(t, id(one), id(one))
	seen := map[string]bool{}
	for _, d := range []view.Action{one, {Act: "add", Entity: "card/a", N: view.Amount(2)},
		{Act: "add", Entity: "card/b", N: view.Amount(1)}, {Act: "tick", Entity: "card/a"},
		{Act: "undo", Entity: "card/a", Op: "x"},
		{Act: "tick", Entity: "card/a", Spot: "-list"},
		{Act: "choose", Entity: "choice/c", Text: "a"}, {Act: "choose", Entity: "choice/c", Text: "b"},
		{Act: "tick", Entity: "card/a_b"}, {Act: "tick", Entity: "card/a b"}} {
		assert.False(t, seen[id(d)], "%+v", d)
		seen[id(d)] = true
	}
	for _, turn := range [][2]view.Action{{{Act: "tick", Entity: "card/a"}, {Act: "untick", Entity: "card/a"}},
		{{Act: "pack", Entity: "pack/a", N: view.Amount(3)}, {Act: "unpack", Entity: "pack/a", N: view.Amount(0)}},
		{{Act: "unneeded", Entity: "pack/a"}, {Act: "needed", Entity: "pack/a"}},
		{{Act: "undo", Entity: "card/a", Op: "x"}, {Act: "undo", Entity: "card/a", Op: "y"}}} {
		assert.Equal(t, id(turn[0]), id(turn[1]), "the button stays the same when %s becomes %s", turn[0].Act, turn[1].Act)
	}
}

func TestTallyPad(t *testing.T) {
	f := ines()
	doc := tree(
		t,
		view.TallyPad(
			f,
			view.Tally{Entity: "card/make/door", Made: 14, Total: 25, Unit: "clusters",
				LastBy: "Tomasz", LastAmount: 5, LastAt: f.Now - 120_000, LastOp: "op1"},
		),
	)
	var amounts []string
	doc.Find("form:has(input[value=add]) input[name=n]").
		Each(func(_ int, s *selection) { amounts = append(amounts, s.AttrOr("value", "")) })
	assert.Equal(t, []string{"1", "2", "5", "10"}, amounts)
	assert.Equal(t, "op1", doc.Find("form:has(input[value=undo]) input[name=op]").AttrOr("value", ""))
	assert.Contains(t, doc.Text(), "Tomasz +5, 2 min ago")
	assert.Equal(t, "numeric", doc.Find("details form:has(input[value=count]) input[name=n]").AttrOr("inputmode", ""))
	rest := doc.Find(".tallyone form:has(input[value=count])")
	assert.Equal(t, "25", rest.Find("input[name=n]").AttrOr("value", ""), "the button must count all that are left")
	assert.Equal(t, "All done", rest.Find("button").Text())
	made := tree(t, view.TallyPad(f, view.Tally{Entity: "card/make/door", Made: 25, Total: 25}))
	assert.Equal(t, 0, made.Find(".tallyone form:has(input[value=count])").Length(), "there is nothing left to count")
	assert.Equal(t, 0, made.Find(".tallymore").Length())
	assert.Equal(t, 1, made.Find("form:has(input[value=add]) input[value='1']").Length(), "one more may still be made")
	fresh := tree(t, view.TallyPad(f, view.Tally{Entity: "card/make/door"}))
	assert.Equal(t, 0, fresh.Find("input[value=undo]").Length(), "there is nothing to undo yet")
	assert.Contains(t, fresh.Text(), "Nothing counted yet")
}

func TestNavMarksTheCurrentPage(t *testing.T) {
	for _, row := range []struct {
		f             view.Frame
		path, current string
	}{
		{ines(), "/jobs/j/next", "Next"}, {ines(), "/jobs/j/cards/make/door", "Cards"}, {ines(), "/jobs/j/history", ""},
		{dora(), "/jobs/j", "Job"}, {dora(), "/jobs/j/pieces/door", "Pieces"}, {dora(), "/jobs/j/brief", ""},
		{dora(), "/jobs/j/packed", ""},
		{view.Frame{Role: job.Owner}, "/", "Jobs"}, {view.Frame{Role: job.Owner}, "/calc/clusters", "Calculators"},
	} {
		row.f.Path = row.path
		current := tree(t, view.Nav(row.f)).Find("[aria-current=page]")
		assert.LessOrEqual(t, current.Length(), 1, row.path)
		assert.Equal(t, row.current, strings.TrimSpace(current.Text()), row.path)
	}
	assert.Empty(t, view.NavFor(view.Frame{}), "a stranger must get no pages")
	for _, item := range view.NavFor(ines()) {
		assert.NotContains(t, []string{"Job", "Pieces"}, item.Label)
	}
}

func TestTopLeadsBack(t *testing.T) {
	for path, want := range map[string]string{"/jobs/j/cards/make/door": "/jobs/j/cards",
		"/jobs/j/pieces/door": "/jobs/j/pieces", "/jobs/j/brief": "/jobs/j", "/jobs/j": "/",
		"/jobs/j/boxes": "/jobs/j/room"} {
		f := dora()
		f.Path = path
		assert.Equal(t, want, tree(t, view.Top(f)).Find("a.wayback").AttrOr("href", ""), path)
	}
	f := ines()
	assert.Equal(t, 0, tree(t, view.Top(f)).Find("a.wayback").Length(), "a helper's first page has no parent")
	f.Path = "/jobs/j/pack"
	assert.Equal(t, "/jobs/j/next", tree(t, view.Top(f)).Find("a.wayback").AttrOr("href", ""))
}

func TestDocumentCarriesAssetsAndTheme(t *testing.T) {
	f := dora()
	f.Theme = "sun"
	f.Assets = view.Assets{CSS: "/a/1/css/app.css", Script: "/a/1/js/main.js", Manifest: "/m", Icon: "/i.svg",
		Touch: "/t.png", Build: "b1", Core: "/core", Loader: "/loader"}
	doc := tree(t, view.Document(f, g.Text("body")))
	assert.Equal(t, "sun", doc.Find("html").AttrOr("data-theme", ""))
	assert.Equal(t, "b1", doc.Find("html").AttrOr("data-build", ""))
	assert.Equal(t, "/a/1/css/app.css", doc.Find("link[rel=stylesheet]").AttrOr("href", ""))
	assert.Equal(t, "/m", doc.Find("link[rel=manifest]").AttrOr("href", ""))
	assert.Equal(t, "/a/1/js/main.js", doc.Find("script[type=module]").AttrOr("src", ""))
	assert.Equal(t, "#page", doc.Find("a.skip").AttrOr("href", ""))
	f.Theme = `x" onload="`
	_, themed := tree(t, view.Document(f, g.Text(""))).Find("html").Attr("data-theme")
	assert.False(t, themed, "only known themes may reach the page")
}

func TestUserTextIsEscaped(t *testing.T) {
	f := dora()
	f.Title, f.JobTitle, f.Flash, f.Alert, f.Name = hostile, hostile, hostile, hostile, hostile
	f.Path = "/jobs/j/brief"
	f.Device = view.Device{Here: true, Version: hostile, Trouble: hostile,
		Attention: []view.Attention{{What: hostile, Why: hostile, Title: hostile}}}
	rows := []view.JobRow{
		{ID: "j", Title: hostile, Venue: hostile, Date: hostile, Colours: []job.Colour{{Name: hostile, Value: hostile}}},
	}
	nodes := map[string]g.Node{
		"document": view.Document(
			f,
			view.Heading(hostile, hostile),
		), "jobs": view.Jobs(f, rows, 1), "away": view.Archive(f, rows), "phone": view.Phone(f, rows),
		"join":    view.Join(f, view.JoinForm{Name: hostile, Code: hostile, NameError: hostile, CodeError: hostile}),
		"scan":    view.Scan(f, view.JoinForm{Name: hostile, Code: hostile}),
		"broken":  view.Broken(f, hostile),
		"refused": view.Refused(f, hostile),
		"working": view.Working(
			hostile,
			[]figures.Line{
				{What: hostile, How: hostile, Result: hostile, Source: figures.Source{Text: hostile, Mark: figures.Mark(hostile)}},
			},
			"/x",
		),
		"caution": view.Cautions([]task.Caution{{Text: hostile}}),
		"empty":   view.Empty(hostile, hostile, hostile, nil),
	}
	for name, node := range nodes {
		html := render(t, node)
		assert.NotContains(t, html, "<b>&\"", name)
		assert.NotContains(t, html, "<script>x", name)
		assert.Contains(t, html, "&lt;b&gt;&amp;&#34;&#39;&lt;/b&gt;", name)
	}
}
